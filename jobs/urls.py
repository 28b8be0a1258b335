"""Addresses of the firm's pages, gathered from the noun folders."""

from __future__ import annotations

urlpatterns = []
