"""The way up."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.plane import Polygon, bounds, is_simple
from estimating.refusals import Requirements


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatch:
    """The way up: the clear opening on plan, and the rooms below and above in which things are turned.

    `clear_floor_mm` is how much floor is free below, measured from under the hatch in the direction in which
    a board is tilted; `headroom_above_mm` is from the top of the joists to the roof over the hatch.
    """

    outline: Polygon
    floor_to_ceiling_mm: int = 2400
    lining_depth_mm: int = 150
    over_stairs: bool = False
    insulated: bool = False
    draught_stripped: bool = False
    clear_floor_mm: int | None = None
    headroom_above_mm: int | None = None

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(is_simple(self.outline), "outline", "must be a closed shape whose sides do not cross")
        needs.require(self.floor_to_ceiling_mm > 0, "floor_to_ceiling_mm", "must be more than 0 mm")
        needs.require(self.lining_depth_mm >= 0, "lining_depth_mm", "must not be less than 0 mm")
        for name in ("clear_floor_mm", "headroom_above_mm"):
            length = getattr(self, name)
            needs.require(length is None or length > 0, name, "must be more than 0 mm")
        needs.settle()

    @property
    def clear_sides_mm(self) -> tuple[int, int]:
        """The clear opening along x and along y."""
        x0, y0, x1, y1 = bounds(self.outline)
        return x1 - x0, y1 - y0
