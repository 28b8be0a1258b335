"""The least margin that is offered without the owner's approval."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.choices import Part
from estimating.price.offer import offer
from estimating.price.price import Price
from estimating.price_book import PricingRules
from estimating.price_terms import PriceTerms
from estimating.working import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class BelowFloor:
    """An offer that may earn less than the firm's floor: its least margin, and what it lacks."""

    margin: Figure[Decimal]
    floor_percent: Decimal
    with_every_option_left: bool

    @property
    def lacks(self) -> Decimal:
        """How many points of margin are missing."""
        return self.floor_percent - self.margin.value

    @property
    def in_words(self) -> str:
        """Say how much below: "The margin is 22.3 %, 2.7 below the 25 % that ..."."""
        when = " if the customer leaves every option" if self.with_every_option_left else ""
        return (
            f"The margin is {self.margin.value.normalize():f} %{when}, {self.lacks.normalize():f} below the "
            f"{self.floor_percent.normalize():f} % that needs no approval by the owner."
        )


def below_floor(price: Price, rules: PricingRules, terms: PriceTerms) -> BelowFloor | None:
    """Tell whether an offer may fall below the firm's least margin, as it stands or with every option left.

    A discount in pounds weighs most on the smallest price, so that one is looked at too.

    Args:
        price: The offer as it stands. Record. [GBP]
        rules: The floor. Record. [-]
        terms: The discounts. Record. [-]

    Returns:
        What it lacks, or None where it is not below. Record. [per cent]

    Source:
        Common practice, no source.
    """
    nothing_taken: frozenset[Part] = frozenset()
    least = offer(price.lines, nothing_taken, rules, terms=terms).margin_percent
    margin = min(price.margin_percent, least, key=lambda figure: figure.value)
    if margin.value >= rules.least_margin_percent:
        return None
    return BelowFloor(
        margin=margin,
        floor_percent=rules.least_margin_percent,
        with_every_option_left=margin.value < price.margin_percent.value,
    )
