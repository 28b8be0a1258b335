"""Cables that the insulation would cover."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.published.cable_ratings import RATINGS_A
from estimating.refusals import Requirements


@dataclass(frozen=True, slots=True, kw_only=True)
class Cable:
    """A cable: its conductors' size, the fuse or breaker before it, and how much of it would be covered."""

    size_mm2: Decimal
    device_a: Decimal
    covered_mm: int
    circuit: str = ""

    def __post_init__(self) -> None:
        needs = Requirements()
        sizes = ", ".join(str(size) for size in RATINGS_A)
        needs.require(self.size_mm2 in RATINGS_A, "size_mm2", f"must be one of: {sizes} mm²")
        needs.require(self.device_a > 0, "device_a", "must be more than 0 A")
        needs.require(self.covered_mm >= 0, "covered_mm", "must not be less than 0 mm")
        needs.settle()
