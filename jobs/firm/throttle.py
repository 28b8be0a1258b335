"""Slow down guessing: count failures by name and by address, and make the next try wait."""

from __future__ import annotations

import hashlib
from datetime import timedelta

from django.utils import timezone

from jobs.firm.models import LogInAttempt

WINDOW = timedelta(minutes=15)
FAILURES_FOR_A_NAME = 8
FAILURES_FROM_AN_ADDRESS = 40
LINKS_FROM_AN_ADDRESS = 20


def must_wait(name: str, address: str | None) -> bool:
    """Tell whether too many tries failed lately for this name or from this address."""
    recent = LogInAttempt.objects.filter(at__gte=timezone.now() - WINDOW)
    by_name = recent.filter(name_digest=_digest(name)).count()
    by_address = recent.filter(address=address).count() if address else 0
    return by_name >= FAILURES_FOR_A_NAME or by_address >= FAILURES_FROM_AN_ADDRESS


def note_failure(name: str, address: str | None) -> None:
    """Count one failure, and drop those too old to matter."""
    LogInAttempt.objects.filter(at__lt=timezone.now() - WINDOW).delete()
    LogInAttempt.objects.create(name_digest=_digest(name), address=address)


def forget_failures(name: str, address: str | None) -> None:
    """Start afresh for this name from this address after a success."""
    LogInAttempt.objects.filter(name_digest=_digest(name), address=address).delete()


def link_must_wait(address: str | None) -> bool:
    """Tell whether too many customer links that do not open were tried lately from this address."""
    recent = LogInAttempt.objects.filter(at__gte=timezone.now() - WINDOW)
    return recent.filter(name_digest=_digest(_link_name(address))).count() >= LINKS_FROM_AN_ADDRESS


def note_link_failure(address: str | None) -> None:
    """Count one link that did not open, apart from log-ins, so that a slip locks nobody out."""
    note_failure(_link_name(address), None)


def _link_name(address: str | None) -> str:
    return f"customer link from {address}"


def _digest(name: str) -> str:
    return hashlib.sha256(name.strip().casefold().encode()).hexdigest()
