"""What is asked for the job, frozen: a line for each part, and the totals of those that count."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from estimating.choices import Part
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

    MINIMUM_JOB = "minimum job"
    ROUNDING = "rounding"


@dataclass(frozen=True, slots=True, kw_only=True)
class Adjustment:
    """An amount that brings the offer to the firm's minimum or to its rounding habit, without VAT."""

    origin: LineOrigin
    description: str
    net: Decimal
    vat_percent: Decimal
    working: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """What is asked: every line offered, the totals of those that count, and what goes with what."""

    lines: tuple[PriceLine, ...]
    adjustments: tuple[Adjustment, ...]
    totals: Totals
    cost: Figure[Decimal]
    margin_percent: Figure[Decimal]
    notices: tuple[str, ...]
    part_rules: tuple[PartRule, ...] = ()

    @property
    def counted_parts(self) -> frozenset[Part]:
        """The parts whose lines count in the totals."""
        return frozenset(line.part for line in self.lines if line.counted)
