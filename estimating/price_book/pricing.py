"""What a job costs beside material and labour, and how its costs become the price asked."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from estimating.amounts import PENNY
from estimating.refusals import Requirements
from estimating.ways_to_price import MarginKind, VatRounding


@dataclass(frozen=True, slots=True, kw_only=True)
class Charge:
    """A cost of the job that is neither material nor labour, without VAT."""

    code: str
    description: str
    amount: Decimal
    per: Literal["job", "mile"] = "job"
    always: bool = True

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.code.strip()), "code", "is missing")
        needs.require(self.amount >= 0, "amount", "must not be less than 0 pounds")
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class PricingRules:
    """How costs become the price asked; below `least_margin_percent` the owner has to approve.

    `percent` is asked on every kind of cost but those with a percentage of their own.
    """

    margin_kind: MarginKind = MarginKind.MARGIN
    percent: Decimal = Decimal(30)
    minimum_net: Decimal = Decimal(0)
    round_to: Decimal = Decimal("0.01")
    vat_registered: bool = True
    vat_rounding: VatRounding = VatRounding.RATE_SUBTOTAL_HALF_UP
    least_margin_percent: Decimal = Decimal(0)
    materials_percent: Decimal | None = None
    hours_percent: Decimal | None = None
    charges_percent: Decimal | None = None

    def __post_init__(self) -> None:
        needs = Requirements()
        most = 100 if self.margin_kind is MarginKind.MARGIN else 1000
        for name in ("percent", "materials_percent", "hours_percent", "charges_percent"):
            percent = getattr(self, name)
            fits = percent is None or 0 <= percent < most
            needs.require(fits, name, f"must be from 0 to under {most} per cent")
        needs.require(self.minimum_net >= 0, "minimum_net", "must not be less than 0 pounds")
        least = self.least_margin_percent
        needs.require(0 <= least < 100, "least_margin_percent", "must be from 0 to under 100 per cent")
        whole_pence = self.round_to > 0 and self.round_to % PENNY == 0
        needs.require(whole_pence, "round_to", "must be a whole number of pence, at least 0.01 pounds")
        needs.settle()

    @property
    def on_materials_percent(self) -> Decimal:
        return self.percent if self.materials_percent is None else self.materials_percent

    @property
    def on_hours_percent(self) -> Decimal:
        return self.percent if self.hours_percent is None else self.hours_percent

    @property
    def on_charges_percent(self) -> Decimal:
        return self.percent if self.charges_percent is None else self.charges_percent
