"""How long ago the prices of an edition were checked with the suppliers."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from jobs.firm.models import Firm
from jobs.price_books.models import Edition
from jobs.price_books.services import NoEdition, current_edition


@dataclass(frozen=True, slots=True)
class OldPrices:
    """Products whose price was checked too long ago, or on no day that is known."""

    edition: Edition
    count: int
    never: int
    oldest: date | None
    days: int

    @property
    def in_words(self) -> str:
        """Say how many and since when: "3 prices were checked more than 90 days ago, ..."."""
        old = self.count - self.never
        parts = []
        if old and self.oldest:
            verb = "price was" if old == 1 else "prices were"
            since = f"more than {self.days} days ago, the oldest on {self.oldest:%-d %B %Y}"
            parts.append(f"{old} {verb} last checked {since}")
        if self.never:
            parts.append(f"{self.never} {'has' if self.never == 1 else 'have'} no date of a check")
        return " and ".join(parts) + "."


def old_prices(edition: Edition, *, today: date) -> OldPrices | None:
    """Return which prices of an edition are old by the firm's own measure, if any are."""
    days = Firm.ours().prices_checked_days
    dates = list(edition.products.values_list("checked_on", flat=True))
    known = sorted(day for day in dates if day is not None and day < today - timedelta(days=days))
    never = dates.count(None)
    if not known and not never:
        return None
    return OldPrices(edition, len(known) + never, never, known[0] if known else None, days)


def old_prices_in_use(*, today: date) -> OldPrices | None:
    """Return the old prices of the edition that new quotes are priced with."""
    try:
        return old_prices(current_edition(), today=today)
    except NoEdition:
        return None
