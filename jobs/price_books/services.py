"""Editions: find the one in use, copy it to make the next, close it for good."""

from __future__ import annotations

from datetime import date

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import Model
from django.utils import timezone

from estimating.refusals import Refusals
from jobs.price_books.as_price_book import as_price_book, fill_edition
from jobs.price_books.closing import refusals_of
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


def newer_edition(edition: Edition) -> Edition | None:
    """Return the edition in use today when it follows this one."""
    try:
        current = current_edition()
    except NoEdition:
        return None
    return current if (current.dated, current.pk) > (edition.dated, edition.pk) else None


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
    """Close an edition once the core has read it and nothing is lacking that a loft may need.

    What is missing shows now, all of it at once, and not when a customer is waiting: raises the core's
    Refusals.
    """
    locked = Edition.objects.select_for_update().get(pk=edition.pk)
    if not locked.is_open:
        raise EditionClosed(f"{locked} is closed already.")
    refusals = refusals_of(locked)
    if refusals:
        raise Refusals(refusals)
    locked.state = Edition.State.CLOSED
    locked.closed_at, locked.closed_by = timezone.now(), by
    locked.save(update_fields=["state", "closed_at", "closed_by"])


@transaction.atomic
def keep_row(edition: Edition, row: Model) -> None:
    """Save a row of an edition, or the edition's own pricing, while it may be edited."""
    lock_open(edition)
    row.save()


@transaction.atomic
def take_out_row(edition: Edition, row: Model) -> None:
    """Take a row out of an edition that may be edited."""
    lock_open(edition)
    row.delete()


def lock_open(edition: Edition) -> None:
    """Hold an edition open until the row is kept, so that nobody closes it in between."""
    locked = Edition.objects.select_for_update().get(pk=edition.pk)
    if not locked.is_open:
        raise EditionClosed(f"{locked} is closed: copy it to make the next edition.")
