"""What is asked for the job, frozen: a line for each part, and the totals of those that count."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum

from estimating.choices import Part
from estimating.price.margin import mark_up_of
from estimating.price.reverse_charge import ReverseChargeTotals
from estimating.price.stages import StageAmount
from estimating.price.taking import PartRule
from estimating.price.totals import Totals
from estimating.working import Figure, Working


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceLine:
    """The price of one part without VAT, and the VAT rate it carries with the reason."""

    part: Part
    description: str
    cost: Figure[Decimal]
    net: Figure[Decimal]
    vat_percent: Decimal
    vat_reason: str
    optional: bool
    counted: bool


class LineOrigin(StrEnum):
    """Why an amount that is no part of the job stands in the offer."""

    DISCOUNT = "discount"
    MINIMUM_JOB = "minimum job"
    ROUNDING = "rounding"


@dataclass(frozen=True, slots=True, kw_only=True)
class Adjustment:
    """An amount beside the parts, without VAT: a discount, or what minimum job and rounding add."""

    origin: LineOrigin
    description: str
    net: Decimal
    vat_percent: Decimal
    working: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """What is asked: every line offered, the totals of those that count, and when they are paid.

    `part_rules` say what goes with what; `reverse_charge` is there only where the customer accounts for the
    VAT.
    """

    lines: tuple[PriceLine, ...]
    adjustments: tuple[Adjustment, ...]
    totals: Totals
    cost: Figure[Decimal]
    margin_percent: Figure[Decimal]
    notices: tuple[str, ...]
    part_rules: tuple[PartRule, ...] = ()
    stages: tuple[StageAmount, ...] = ()
    reverse_charge: ReverseChargeTotals | None = None

    @property
    def mark_up_percent(self) -> Figure[Decimal]:
        """What the margin is as a share of the cost, to a tenth."""
        exact = mark_up_of(self.cost.value, self.totals.net)
        working = replace(exact.working, formula=f"{exact.working.formula}, to a tenth")
        tenth = exact.value.quantize(Decimal("0.1"), rounding=ROUND_HALF_UP)
        return replace(exact, value=tenth, working=working)

    @property
    def counted_parts(self) -> frozenset[Part]:
        """The parts whose lines count in the totals."""
        return frozenset(line.part for line in self.lines if line.counted)

    @property
    def discounts(self) -> tuple[Adjustment, ...]:
        """The lines by which less is asked than the parts come to."""
        return tuple(each for each in self.adjustments if each.origin is LineOrigin.DISCOUNT)
