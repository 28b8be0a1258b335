"""Editions: find the one in use, copy it to make the next, close it for good."""

from __future__ import annotations

from datetime import date

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from estimating.refusals import Refusal
from jobs.price_books.as_price_book import as_price_book, fill_edition
from jobs.price_books.models import Edition


class NoEdition(Exception):
    """There is no closed edition to price with."""


class EditionClosed(Exception):
    """A closed edition is never edited."""


def current_edition() -> Edition:
    """Return the newest closed edition that is dated today or earlier."""
    closed = Edition.objects.filter(state=Edition.State.CLOSED, dated__lte=timezone.localdate())
    newest = closed.order_by("-dated", "-pk").first()
    if newest is None:
        raise NoEdition("No edition of the price book is closed yet: the owner must close one first.")
    return newest


@transaction.atomic
def copy_edition(edition: Edition, *, name: str, dated: date) -> Edition:
    """Make the next edition as a copy that may be edited."""
    following = Edition.objects.create(
        name=name, dated=dated, hourly_cost=edition.hourly_cost, copied_from=edition
    )
    fill_edition(following, as_price_book(edition))
    return following


@transaction.atomic
def close_edition(edition: Edition, *, by: User) -> None:
    """Close an edition once the core has read it: what is missing shows now, not before a customer.

    Raises the core's Refusal when something in it cannot be so.
    """
    locked = Edition.objects.select_for_update().get(pk=edition.pk)
    if not locked.is_open:
        raise EditionClosed(f"{locked} is closed already.")
    book = as_price_book(locked)
    if not book.products:
        raise Refusal("products", "needs at least one product")
    locked.state = Edition.State.CLOSED
    locked.closed_at, locked.closed_by = timezone.now(), by
    locked.save(update_fields=["state", "closed_at", "closed_by"])


def open_for_change(edition: Edition) -> Edition:
    """Lock an edition that may be edited, inside the caller's transaction."""
    locked = Edition.objects.select_for_update().get(pk=edition.pk)
    if not locked.is_open:
        raise EditionClosed(f"{locked} is closed: copy it to make the next edition.")
    return locked
