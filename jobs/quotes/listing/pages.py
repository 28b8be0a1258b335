"""Pages of a long list by the place they begin at: nothing is counted, and the last is as quick as any."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import Q, QuerySet
from django.http import QueryDict
from django.utils.dateparse import parse_datetime

from jobs.quotes.models import Quote

PAGE = 30


@dataclass(frozen=True, slots=True)
class Order:
    """By a moment and then by the row, or by the row alone; each row has one place."""

    moment: str = ""
    newest_first: bool = False

    def sorted(self, rows: QuerySet[Quote], *, backwards: bool) -> QuerySet[Quote]:
        sign = "-" if self.newest_first != backwards else ""
        return rows.order_by(*(f"{sign}{name}" for name in (self.moment, "pk") if name))

    def beyond(self, place: tuple[datetime | None, int], *, backwards: bool) -> Q:
        """Return what lies beyond a place; both halves are in one index, so the database begins there."""
        moment, pk = place
        past = "lt" if self.newest_first != backwards else "gt"
        rest = Q(**{f"pk__{past}": pk})
        if not self.moment:
            return rest
        return Q(**{f"{self.moment}__{past}e": moment}) & (Q(**{f"{self.moment}__{past}": moment}) | rest)

    def place_of(self, row: Quote) -> str:
        return "_".join([*([getattr(row, self.moment).isoformat()] if self.moment else []), str(row.pk)])

    def read(self, place: str) -> tuple[datetime | None, int] | None:
        """Return the place that an address names, or None if it names none."""
        moment, _, pk = place.rpartition("_")
        try:
            at = parse_datetime(moment) if self.moment else None
        except ValueError:
            return None
        if not pk.isdecimal() or len(pk) > 18 or bool(moment) != bool(self.moment):
            return None
        if self.moment and (at is None or at.tzinfo is None):
            return None
        return at, int(pk)


@dataclass(frozen=True, slots=True)
class Page:
    """Some rows of a list, and the places that the pages before and after them begin at."""

    rows: list[Quote]
    before: str
    after: str


def page_of(rows: QuerySet[Quote], order: Order, asked: QueryDict) -> Page:
    """Return the page that an address asks for; what cannot be read asks for the first."""
    after, before = (order.read(asked.get(name, "")) for name in ("after", "before"))
    backwards = before is not None and after is None
    place: Any = before if backwards else after
    if place is not None:
        rows = rows.filter(order.beyond(place, backwards=backwards))
    found = list(order.sorted(rows, backwards=backwards)[: PAGE + 1])
    has_more, found = len(found) > PAGE, found[:PAGE]
    if backwards:
        found.reverse()
    if not found:
        return Page([], "", "")
    is_first = place is None or (backwards and not has_more)
    is_last = not backwards and not has_more
    return Page(
        found,
        before="" if is_first else order.place_of(found[0]),
        after="" if is_last else order.place_of(found[-1]),
    )
