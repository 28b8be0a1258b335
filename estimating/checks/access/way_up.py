"""The way up of one loft, as things are carried through it."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from math import floor, radians, tan
from typing import NamedTuple

from estimating.checks.access.record import GoesUp
from estimating.checks.access.tilt import (
    LONGEST_MM,
    Slot,
    largest_tilt_degrees,
    longest_that_passes_mm,
    passes_on_the_skew,
    passes_on_the_tilt,
)
from estimating.choices import Choices, Part
from estimating.plane import bounds
from estimating.price_book import HatchSet, PriceBook
from estimating.published.access import LEAST_CLEAR_OPENING_MM
from estimating.survey import Survey
from estimating.working import Figure, Given, Origin, Working, from_price_book, measured

SOURCE = "geometry"


class Size(NamedTuple):
    """What is carried: its length, its width and its thickness [mm]."""

    length_mm: int
    width_mm: int
    thickness_mm: int


@dataclass(frozen=True, slots=True)
class WayUp:
    """The opening and the rooms below and above it [mm], each with where it came from."""

    long: Given
    short: Given
    shaft: Given
    below: Given
    above: Given
    clear_floor: Given | None

    @property
    def sides_mm(self) -> tuple[int, int]:
        return _mm(self.long), _mm(self.short)

    def slot_along(self, side_mm: int) -> Slot:
        """The hatch seen from the side, tilting along one of its sides."""
        floor_mm = None if self.clear_floor is None else float(_mm(self.clear_floor))
        return Slot(side_mm, _mm(self.shaft), _mm(self.below), _mm(self.above), floor_mm)

    @property
    def given(self) -> tuple[Given, ...]:
        """Everything that the geometry goes by."""
        rooms = (self.long, self.short, self.shaft, self.below, self.above)
        return rooms if self.clear_floor is None else (*rooms, self.clear_floor)


def way_up(survey: Survey, price_book: PriceBook, choices: Choices) -> WayUp:
    """Read the way up: through the hatch there is, or the smallest new one where one is cut for certain.

    Over the hatch the roof is taken to be as high as over its middle; the room above is counted from the top
    of the lining.

    Args:
        survey: Hatch, roof and joists. Record. [mm]
        price_book: The new hatches. Record. [mm]
        choices: Whether a new hatch counts. Record. [-]

    Returns:
        The way up. Record. [mm]

    Source:
        Geometry.
    """
    hatch = survey.hatch
    long, short = sorted(hatch.clear_sides_mm, reverse=True)
    sides = (measured("long side", long, "mm"), measured("short side", short, "mm"))
    if Part.HATCH in choices.counted_parts:
        sides = _new_opening(price_book) or sides
    joist_top = max(each.depth_mm for each in survey.joist_fields) + int(survey.plasterboard_mm)
    over = _headroom(survey)
    room = max(1, _mm(over) + joist_top - hatch.lining_depth_mm)
    return WayUp(
        long=sides[0],
        short=sides[1],
        shaft=measured("depth of the lining", hatch.lining_depth_mm, "mm"),
        below=measured("floor to ceiling", hatch.floor_to_ceiling_mm, "mm"),
        above=Given("room above the lining", room, "mm", over.origin),
        clear_floor=measured("clear floor", hatch.clear_floor_mm, "mm") if hatch.clear_floor_mm else None,
    )


def passes(way: WayUp, size: Size) -> bool:
    """Tell whether something flat and stiff goes up.

    Args:
        way: The way up. Record. [mm]
        size: What is carried. Record. [mm]

    Returns:
        Whether it does, along either side or on the skew. Flag. [-]

    Source:
        Geometry.
    """
    return longest(way, size) >= size.length_mm


def longest(way: WayUp, size: Size) -> float:
    """Give how long a thing of a width and thickness may be to go up.

    Args:
        way: The way up. Record. [mm]
        size: What is carried. Record. [mm]

    Returns:
        The greatest length, the thing's own where it is short enough. Scalar. [mm]

    Source:
        Geometry.
    """
    long, short = way.sides_mm
    found = [0.0]
    for along, across in ((long, short), (short, long)):
        if size.width_mm <= across:
            slot = way.slot_along(along)
            if passes_on_the_tilt(slot, size.length_mm, size.thickness_mm):
                return float(size.length_mm)
            found.append(longest_that_passes_mm(slot, size.thickness_mm))
    if passes_on_the_skew(way.sides_mm, size.width_mm, size.thickness_mm):
        found.append(float(min(_mm(way.below), _mm(way.above))))
    return max(found)


def goes_up(way: WayUp, what: str, size: Size) -> GoesUp:
    """Work out whether something goes up and by how much it fails, with the working.

    Args:
        way: The way up. Record. [mm]
        what: What it is. Text. [-]
        size: Its size. Record. [mm]

    Returns:
        The figures. Record. [mm]

    Source:
        Geometry.
    """
    most = longest(way, size)
    widest = max(way.sides_mm)
    too_wide = max(0, size.width_mm - widest) if not most else 0
    too_long = 0 if not most else max(0, size.length_mm - floor(most))
    own = (
        from_price_book("length", size.length_mm, "mm"),
        from_price_book("width", size.width_mm, "mm"),
        from_price_book("thickness", size.thickness_mm, "mm"),
    )
    formula = (
        "the greatest length that tilts through long side or short side and depth of the lining, and clears "
        "floor to ceiling and room above the lining at every place on its way, by width and thickness"
    )
    long_figure = Figure(
        "longest that goes up",
        min(floor(most), int(LONGEST_MM)),
        "mm",
        Working(formula, (*own[1:], *way.given), SOURCE),
    )
    return GoesUp(
        what=what,
        passes=most >= size.length_mm,
        longest_mm=long_figure,
        too_long_mm=_difference("too long by", "length − longest that goes up", too_long, (own[0],)),
        too_wide_mm=_difference("too wide by", "width − long side", too_wide, (own[1], way.long)),
        tilt_degrees=_tilt(way, size),
    )


def _tilt(way: WayUp, size: Size) -> Figure[Decimal]:
    tilt = largest_tilt_degrees(_mm(way.long), _mm(way.shaft), size.thickness_mm)
    working = Working(
        "the tilt at which thickness / cos(tilt) + depth of the lining × tan(tilt) = long side",
        (from_price_book("thickness", size.thickness_mm, "mm"), way.shaft, way.long),
        SOURCE,
    )
    return Figure("largest tilt from upright", Decimal(f"{tilt or 0:.1f}"), "°", working)


def _difference(name: str, formula: str, value: int, inputs: tuple[Given, ...]) -> Figure[int]:
    return Figure(name, value, "mm", Working(f"{formula}, or 0", inputs, SOURCE))


def _new_opening(price_book: PriceBook) -> tuple[Given, Given] | None:
    sets = [
        (max(each.clear_length_mm, each.clear_width_mm), min(each.clear_length_mm, each.clear_width_mm))
        for each in price_book.of_kind(HatchSet)
    ]
    large = [sides for sides in sets if sides[1] >= LEAST_CLEAR_OPENING_MM]
    if not large:
        return None
    long, short = min(large, key=lambda sides: sides[0] * sides[1])
    return from_price_book("long side", long, "mm"), from_price_book("short side", short, "mm")


def _headroom(survey: Survey) -> Given:
    """From the joists to the roof over the hatch: as measured, or by pitch and place."""
    hatch, roof = survey.hatch, survey.roof
    if hatch.headroom_above_mm is not None:
        return measured("headroom over the hatch", hatch.headroom_above_mm, "mm")
    _, low, _, high = bounds(hatch.outline)
    _, front, _, back = bounds(survey.outline)
    from_eaves = min((low + high) / 2 - front, back - (low + high) / 2)
    slope = from_eaves * tan(radians(float(roof.pitch_degrees)))
    height = max(1, min(roof.ridge_height_mm, round(slope)))
    return Given("headroom over the hatch", height, "mm", Origin.WORKED_OUT)


def _mm(given: Given) -> int:
    assert isinstance(given.value, int)  # noqa: S101 - all lengths here are whole millimetres
    return given.value
