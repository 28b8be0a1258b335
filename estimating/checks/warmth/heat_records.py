"""What the heat checks found, frozen."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.working import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class UValueRange:
    """From what to what a U-value is likely to lie."""

    least: Figure[Decimal]
    most: Figure[Decimal]


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatRanges:
    """The ranges of a ceiling's U-values through the deck, in the order they are told."""

    as_found: UValueRange
    as_proposed: UValueRange
    squashed: UValueRange


@dataclass(frozen=True, slots=True, kw_only=True)
class WholeCeiling:
    """U-values of the whole ceiling by area, before and after: deck, open loft, hatch and what stays bare."""

    before: Figure[Decimal]
    after: Figure[Decimal]
    area_m2: Figure[Decimal]


@dataclass(frozen=True, slots=True, kw_only=True)
class Saving:
    """What may be saved in a year, from the least to the most that is likely; an estimate, never a promise.

    Carbon dioxide is None where nobody asked what heats the house, pounds where the firm set no price.
    """

    simple_heat_kwh: Figure[Decimal]
    fuel_kwh: tuple[Figure[int], Figure[int]]
    carbon_kg: tuple[Figure[int], Figure[int]] | None
    pounds: tuple[Figure[int], Figure[int]] | None
    fuel: str
    climate: str
    bare_before: bool

    @property
    def is_nothing(self) -> bool:
        """Whether the work changes nothing that could be told."""
        return self.fuel_kwh[1].value <= 0
