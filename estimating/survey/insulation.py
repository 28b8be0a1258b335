"""What lies on the ceiling now."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from estimating.refusals import Requirements


class InsulationMaterial(StrEnum):
    NONE = "none"
    MINERAL_WOOL = "mineral wool"
    LOOSE_FILL = "loose fill"
    RIGID_BOARD = "rigid board"


@dataclass(frozen=True, slots=True, kw_only=True)
class ExistingInsulation:
    """What lies on the ceiling now; an empty tuple of readings means a bare loft."""

    material: InsulationMaterial
    depth_readings_mm: tuple[int, ...] = ()
    conductivity_w_mk: Decimal = Decimal("0.044")
    stays: bool = True

    def __post_init__(self) -> None:
        needs = Requirements()
        bare = self.material is InsulationMaterial.NONE
        needs.require(bare or bool(self.depth_readings_mm), "depth_readings_mm", "needs at least one reading")
        no_depth = all(depth >= 0 for depth in self.depth_readings_mm)
        needs.require(no_depth, "depth_readings_mm", "must not be less than 0 mm")
        needs.require(self.conductivity_w_mk > 0, "conductivity_w_mk", "must be more than 0 W/mK")
        needs.settle()

    @property
    def depth_mm(self) -> int:
        """The depth to design with: the mean of the readings, rounded down."""
        if self.material is InsulationMaterial.NONE or not self.stays or not self.depth_readings_mm:
            return 0
        return sum(self.depth_readings_mm) // len(self.depth_readings_mm)
