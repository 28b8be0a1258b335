"""The addresses of the site: the firm's pages, and one for machines."""

from __future__ import annotations

from django.urls import include, path

from contractor_site.health import health

urlpatterns = [
    path("health", health, name="health"),
    path("", include("jobs.urls")),
]
