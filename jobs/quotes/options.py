"""What each option of an issued revision adds, VAT and rounding included."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.choices import Part
from estimating.price.price import PriceLine
from jobs.quotes.frozen import FrozenOffer
from jobs.quotes.models import Revision


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """A line that may be taken or left, and by how much the total moves with it."""

    line: PriceLine
    taken: bool
    adds: Decimal


def options_of(revision: Revision, taken: frozenset[Part]) -> tuple[Option, ...]:
    """Return every option with what it adds to the rest of what is taken."""
    frozen = FrozenOffer(revision)

    def total(parts: frozenset[Part]) -> Decimal:
        return frozen.price_with(parts).totals.gross

    return tuple(
        Option(
            line=line,
            taken=line.part in taken,
            adds=total(taken | {line.part}) - total(taken - {line.part}),
        )
        for line in frozen.price_with(taken).lines
        if line.optional
    )
