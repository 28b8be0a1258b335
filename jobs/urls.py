"""Addresses of the firm's pages, gathered from the noun folders."""

from __future__ import annotations

from django.urls import include, path

ROOMS = (
    "today",
    "customers",
    "surveys.tablet",  # before the surveys, in whose addresses any word may be a survey's number
    "surveys",
    "price_books",
    "quotes",
    "mail",
    "orders",
    "store",
    "works",
    "firm",
)

urlpatterns = [path("", include(f"jobs.{room}.urls")) for room in ROOMS]
