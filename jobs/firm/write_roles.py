"""Keep the groups in the database equal to the roles in `people.py`."""

from __future__ import annotations

from typing import Any

from jobs.firm.people import ROLES


def write_roles(**_: Any) -> None:
    """Make the four groups and give them exactly their permissions; runs after every migration."""
    from django.apps import apps  # noqa: PLC0415
    from django.contrib.auth.management import create_permissions  # noqa: PLC0415
    from django.contrib.auth.models import Group, Permission  # noqa: PLC0415

    # Django makes permissions in the same signal, in no promised order: they must exist first.
    for label in ("auth", "jobs"):
        create_permissions(apps.get_app_config(label), verbosity=0)
    for role, codenames in ROLES.items():
        group, _made = Group.objects.get_or_create(name=role)
        group.permissions.set(
            Permission.objects.filter(content_type__app_label__in=("jobs", "auth"), codename__in=codenames)
        )
