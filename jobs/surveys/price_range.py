"""What a survey would cost with no option taken and with all of them, while it is still being measured."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal

from estimating.choices import Part
from estimating.estimate import Estimate
from estimating.price.offer import offer
from estimating.price.taking import fullest_takings

TEN_POUNDS = Decimal(10)


@dataclass(frozen=True, slots=True)
class PriceRange:
    """The least and the most that would be asked, with VAT and every charge."""

    least: Decimal
    most: Decimal

    @property
    def is_one(self) -> bool:
        """Tell whether there is nothing to take or leave."""
        return self.least == self.most

    @property
    def about(self) -> Decimal:
        """The least to the nearest ten pounds: it moves until the survey is complete."""
        return _in_tens(self.least, ROUND_HALF_UP)

    @property
    def price_from(self) -> Decimal:
        return _in_tens(self.least, ROUND_FLOOR)

    @property
    def price_to(self) -> Decimal:
        return _in_tens(self.most, ROUND_CEILING)


def price_range_of(worked: Estimate) -> PriceRange:
    """Return the range of an estimate's price: its own lines added up for no option and for every option.

    Of options that exclude each other only one can be taken.
    """
    lines, rules = worked.price.lines, worked.price_book.pricing
    options = frozenset(line.part for line in lines if line.optional)
    fixed = frozenset(line.part for line in lines if not line.optional)
    takings = (frozenset[Part](), *fullest_takings(worked.price.part_rules, fixed, options))
    asked = sorted(offer(lines, taken, rules).totals.gross for taken in takings)
    return PriceRange(asked[0], asked[-1])


def _in_tens(price: Decimal, rounding: str) -> Decimal:
    return (price / TEN_POUNDS).quantize(Decimal(1), rounding=rounding) * TEN_POUNDS
