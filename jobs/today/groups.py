"""What the first page is made of: things that wait, under what is to be done about them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from django.urls import reverse
from django.utils import timezone

SHOWN = 8
READ = 60
"""At most so many rows are read of each kind: whoever has more open needs the lists, not this page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """One thing that waits: what it is, where, since when or by when, and where to do it."""

    what: str
    where: str
    when: str
    day: date | None
    address: str
    state: str


@dataclass(frozen=True, slots=True)
class Group:
    """Things that wait for the same thing to be done; `address` is where all of them are listed."""

    title: str
    items: tuple[Waiting, ...]
    address: str

    @property
    def shown(self) -> tuple[Waiting, ...]:
        return self.items[:SHOWN]

    @property
    def count(self) -> str:
        return f"{READ} or more" if len(self.items) >= READ else str(len(self.items))


def group_of(title: str, items: Iterable[Waiting], address: str) -> Group:
    """Return a group whose whole list has a page of its own, by the page's name."""
    return Group(title, tuple(items), reverse(address))


def day_of(at: datetime | None) -> date | None:
    """Return the day of a moment here."""
    return timezone.localdate(at) if at else None
