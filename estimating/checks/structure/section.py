"""The cross-section of a joist."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.refusals import Requirements


@dataclass(frozen=True, slots=True)
class Section:
    """A rectangle of timber, its depth upright."""

    width_mm: float
    depth_mm: float

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(self.width_mm > 0, "width_mm", "must be more than 0 mm")
        needs.require(self.depth_mm > 0, "depth_mm", "must be more than 0 mm")
        needs.settle()

    @property
    def area_mm2(self) -> float:
        return self.width_mm * self.depth_mm

    @property
    def section_modulus_mm3(self) -> float:
        return self.width_mm * self.depth_mm**2 / 6

    @property
    def second_moment_mm4(self) -> float:
        return self.width_mm * self.depth_mm**3 / 12
