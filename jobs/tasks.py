"""What falls due by the clock or is wished for by a page, and waits for no visitor; the worker calls it."""

from __future__ import annotations

from datetime import datetime

from django.utils import timezone

from jobs.layouts import services as layouts
from jobs.mail.sending import send_waiting
from jobs.price_books.spreadsheets.importing import forget_ended_imports
from jobs.quotes.services import lapse_offers
from jobs.surveys.tablet.uploads import forget_unfinished


def run_due(now: datetime) -> None:
    """Do everything whose day has come. Doing it again changes nothing."""
    lapse_offers(timezone.localdate(now))
    layouts.forget_unused_layouts(now)
    forget_unfinished(now)
    forget_ended_imports(now)


def prove_layouts(_now: datetime) -> None:
    """Prove the layouts that pages wait for."""
    layouts.prove_wanted_layouts()


def search_longer(_now: datetime) -> None:
    """Search with patience for one layout whose proof left a gap."""
    layouts.search_longer()


def send_mail(_now: datetime) -> None:
    """Send what waits in the outbox."""
    send_waiting()
