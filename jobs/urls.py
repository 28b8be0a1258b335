"""Addresses of the firm's pages, gathered from the noun folders."""

from __future__ import annotations

from django.urls import include, path

urlpatterns = [
    path("", include(f"jobs.{room}.urls"))
    for room in ("today", "customers", "surveys", "price_books", "quotes", "orders", "store", "works", "firm")
]
