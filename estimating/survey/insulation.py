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
    """What lies on the ceiling now; an empty tuple of readings means a bare loft.

    `areas_m2` are the areas that the readings stand for, one each; alike where none are given.
    `hidden_percent` is how much of it nobody can see, because boards or goods lie on it.
    """

    material: InsulationMaterial
    depth_readings_mm: tuple[int, ...] = ()
    conductivity_w_mk: Decimal = Decimal("0.044")
    stays: bool = True
    areas_m2: tuple[Decimal, ...] = ()
    hidden_percent: int = 0

    def __post_init__(self) -> None:
        needs = Requirements()
        bare = self.material is InsulationMaterial.NONE
        needs.require(bare or bool(self.depth_readings_mm), "depth_readings_mm", "needs at least one reading")
        no_depth = all(depth >= 0 for depth in self.depth_readings_mm)
        needs.require(no_depth, "depth_readings_mm", "must not be less than 0 mm")
        needs.require(self.conductivity_w_mk > 0, "conductivity_w_mk", "must be more than 0 W/mK")
        one_each = not self.areas_m2 or len(self.areas_m2) == len(self.depth_readings_mm)
        readings = len(self.depth_readings_mm)
        needs.require(one_each, "areas_m2", f"must give one area for each of the {readings} depths")
        needs.require(all(area > 0 for area in self.areas_m2), "areas_m2", "must be more than 0 m² each")
        needs.require(0 <= self.hidden_percent <= 100, "hidden_percent", "must be from 0 to 100 per cent")
        needs.settle()

    @property
    def depth_mm(self) -> int:
        """The depth to design with: the mean of the readings by area, rounded down."""
        if self.material is InsulationMaterial.NONE or not self.stays or not self.depth_readings_mm:
            return 0
        areas = self.areas_m2 or (Decimal(1),) * len(self.depth_readings_mm)
        volume = sum(depth * area for depth, area in zip(self.depth_readings_mm, areas, strict=True))
        return int(volume // sum(areas))
