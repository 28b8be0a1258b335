"""Running numbers: one count for each series and year, without gaps left by races."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from jobs.firm.models import RunningNumber


@transaction.atomic
def next_number(series: str) -> str:
    """Return the next number of a series, such as Q-2026-0147.

    The row is locked until the caller's transaction ends, so that a number is used exactly when what it
    names is saved.
    """
    year = timezone.localdate().year
    RunningNumber.objects.get_or_create(series=series, year=year)
    count = RunningNumber.objects.select_for_update().get(series=series, year=year)
    count.last += 1
    count.save(update_fields=["last"])
    return f"{series}-{year}-{count.last:04d}"
