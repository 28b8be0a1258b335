"""What falls due by the clock and waits for no visitor; the worker calls it every round."""

from __future__ import annotations

from datetime import datetime

from django.utils import timezone

from jobs.quotes.services import lapse_offers


def run_due(now: datetime) -> None:
    """Do everything whose day has come. Doing it again changes nothing."""
    lapse_offers(timezone.localdate(now))
