"""Set, change and drop the day on which the office asks a customer again."""

from __future__ import annotations

from datetime import date

from django.db import transaction

from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Quote

USUAL_DAYS = 7
SHORTCUTS = (3, 7, 14)
"""In so many days: the buttons on the quote's page."""


@transaction.atomic
def set_follow_up(quote: Quote, *, on: date, note: str = "") -> None:
    """Set the day to follow a quote up, with what to ask; the office's turn comes with that day."""
    Quote.objects.filter(pk=quote.pk).update(follow_up_on=on, follow_up_note=note)
    keep_standing(quote)


@transaction.atomic
def drop_follow_up(quote: Quote) -> None:
    """Drop the day to follow a quote up: it was done, or is no longer needed."""
    Quote.objects.filter(pk=quote.pk).update(follow_up_on=None, follow_up_note="")
    keep_standing(quote)
