from __future__ import annotations

from django.apps import AppConfig
from django.db.models.signals import post_migrate


class JobsConfig(AppConfig):
    name = "jobs"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        from jobs.firm.write_roles import write_roles  # noqa: PLC0415

        post_migrate.connect(write_roles, sender=self, dispatch_uid="jobs.write_roles")
