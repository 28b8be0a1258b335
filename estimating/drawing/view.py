"""From millimetres on plan to pixels on the sheet: x to the right, y away from the front eaves, so upward."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from estimating.drawing.ink import PAPER, Palette
from estimating.drawing.svg import Spot
from estimating.plane import Point, Polygon, bounds
from estimating.refusals import Requirements


@dataclass(frozen=True, slots=True)
class Format:
    """What a drawing is made for: the room it may take, in pixels of 1/96 inch, and whose colours it bears.

    Text is always the same size, so a drawing that is shown as large as it was made for can be read. The
    height is what the width needs unless `height_px` caps it. A palette puts the colours inside, for PDFs and
    files; without one the page's style sheet rules.
    """

    width_px: int
    height_px: int | None = None
    palette: Palette | None = None

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(self.width_px >= 280, "width_px", "must be at least 280 px")
        needs.require(self.height_px is None or self.height_px >= 200, "height_px", "must be at least 200 px")
        needs.settle()

    @property
    def is_narrow(self) -> bool:
        """Whether there is room for the picture only, not for what is set out from."""
        return self.width_px < 600


PHONE = Format(350)
SCREEN = Format(860)
A4_LANDSCAPE = Format(1040, 635, PAPER)
A4_PORTRAIT = Format(680, 900, PAPER)
A3_LANDSCAPE = Format(1500, 960, PAPER)


@dataclass(frozen=True, slots=True, kw_only=True)
class Margins:
    """The room kept round the plan for what is said about it. [px]"""

    left: float
    right: float
    top: float
    foot: float


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A piece of the plan on the sheet."""

    left_mm: int
    high_mm: int
    px_per_mm: float
    left_px: float
    top_px: float

    def x(self, x_mm: float) -> float:
        """Return where a plan x stands on the sheet."""
        return self.left_px + (x_mm - self.left_mm) * self.px_per_mm

    def y(self, y_mm: float) -> float:
        """Return where a plan y stands on the sheet."""
        return self.top_px + (self.high_mm - y_mm) * self.px_per_mm

    def at(self, point: Point) -> Spot:
        """Return where a point of the plan stands on the sheet."""
        return self.x(point[0]), self.y(point[1])

    def corners(self, polygon: Polygon) -> list[Spot]:
        """Return where the corners of a shape stand on the sheet."""
        return [self.at(point) for point in polygon]


def extent(polygons: Iterable[Polygon]) -> tuple[int, int, int, int]:
    """Return the least upright rectangle around several shapes and the datum.

    Every dimension is counted from the datum, so it must be on the sheet.

    Args:
        polygons: The shapes. Iterable of polygons. [mm]

    Returns:
        Left x, low y, right x, high y. Tuple of 4. [mm]

    Source:
        Geometry.
    """
    boxes = [(0, 0, 0, 0), *(bounds(polygon) for polygon in polygons)]
    lefts, lows, rights, highs = zip(*boxes, strict=True)
    return min(lefts), min(lows), max(rights), max(highs)


def fit(area: tuple[int, int, int, int], drawn_for: Format, margins: Margins) -> tuple[View, float]:
    """Fit a piece of the plan into the room there is, as large as it will go.

    Args:
        area: Left x, low y, right x, high y. Tuple of 4. [mm]
        drawn_for: The room. Record. [px]
        margins: What is kept free round the plan. Record. [px]

    Returns:
        The view, and the height of the whole drawing. Pair. [px]

    Source:
        Geometry.
    """
    left, low, right, high = area
    room = drawn_for.width_px - margins.left - margins.right
    px_per_mm = room / (right - left)
    if drawn_for.height_px is not None:
        px_per_mm = min(px_per_mm, (drawn_for.height_px - margins.top - margins.foot) / (high - low))
    spare = room - (right - left) * px_per_mm
    view = View(
        left_mm=left, high_mm=high, px_per_mm=px_per_mm, left_px=margins.left + spare / 2, top_px=margins.top
    )
    return view, margins.top + (high - low) * px_per_mm + margins.foot
