"""What heats the house below."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.published.sap_fuels import FUELS
from estimating.refusals import Requirements


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatSource:
    """The fuel and how much useful heat comes of it: more than 100 per cent for a heat pump."""

    fuel: str
    efficiency_percent: Decimal

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(self.fuel in FUELS, "fuel", f"must be one of: {', '.join(FUELS)}")
        within = 10 <= self.efficiency_percent <= 600
        needs.require(within, "efficiency_percent", "must be from 10 to 600 per cent")
        needs.settle()
