from __future__ import annotations

from django.apps import AppConfig


class ContractorSiteConfig(AppConfig):
    """Installed for its commands (demo, worker, backup, restore); it has no tables."""

    name = "contractor_site"
