"""Ceiling joists: one field of them, alike in direction, size and centres."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from estimating.plane import Polygon, is_simple
from estimating.refusals import Requirements


class Axis(StrEnum):
    """The plan axis that joists run along."""

    X = "x"
    Y = "y"


@dataclass(frozen=True, slots=True, kw_only=True)
class JoistField:
    """An area of ceiling whose joists share direction, size and centres.

    `centre_lines_mm` are positions on the axis the joists cross: their y when they run along x, their x
    when they run along y. `top_offsets_mm` say how much higher each joist's top is than that of the first,
    lower ones negative; nothing where all are alike.
    """

    name: str
    outline: Polygon
    runs_along: Axis
    centre_lines_mm: tuple[int, ...]
    depth_mm: int
    width_mm: int
    span_mm: int | None = None
    grade: str | None = None
    top_offsets_mm: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.name.strip()), "name", "is missing")
        needs.require(is_simple(self.outline), "outline", "must be a closed shape whose sides do not cross")
        needs.require(len(self.centre_lines_mm) >= 2, "centre_lines_mm", "must name at least two joists")
        ascending = all(a < b for a, b in pairwise(self.centre_lines_mm))
        needs.require(ascending, "centre_lines_mm", "must rise from one joist to the next")
        needs.require(self.depth_mm > 0, "depth_mm", "must be more than 0 mm")
        needs.require(self.width_mm > 0, "width_mm", "must be more than 0 mm")
        needs.require(self.span_mm is None or self.span_mm > 0, "span_mm", "must be more than 0 mm")
        self._require_tops(needs)
        needs.settle()

    def _require_tops(self, needs: Requirements) -> None:
        if not self.top_offsets_mm:
            return
        count = len(self.centre_lines_mm)
        each = len(self.top_offsets_mm) == count
        needs.require(each, "top_offsets_mm", f"must give one reading for each of the {count} joists")
        needs.require(self.top_offsets_mm[0] == 0, "top_offsets_mm", "must begin at 0, which is joist 1")
        likely = all(abs(top) < self.depth_mm for top in self.top_offsets_mm)
        needs.require(likely, "top_offsets_mm", "must differ by less than the joists are deep")

    @property
    def centres_mm(self) -> tuple[int, ...]:
        """The distances from each joist to the next."""
        return tuple(b - a for a, b in pairwise(self.centre_lines_mm))


def evenly_spaced(*, first_mm: int, centres_mm: int, count: int) -> tuple[int, ...]:
    """Set out joist centre lines at even centres.

    Args:
        first_mm: Position of the first centre line. Scalar. [mm]
        centres_mm: Distance from one joist to the next. Scalar. [mm]
        count: How many joists. Scalar. [count]

    Returns:
        The centre lines, rising. One per joist. [mm]

    Raises:
        Refusal: Centres or count are not positive.

    Source:
        Arithmetic.
    """
    needs = Requirements()
    needs.require(centres_mm > 0, "centres_mm", "must be more than 0 mm")
    needs.require(count > 0, "count", "must be at least 1")
    needs.settle()
    return tuple(first_mm + centres_mm * number for number in range(count))
