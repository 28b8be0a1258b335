"""Whether one thing goes up through the hatch, and by how much it fails."""

from __future__ import annotations

from decimal import Decimal
from math import floor
from typing import NamedTuple

from estimating.checks.access.record import GoesUp
from estimating.checks.access.tilt import (
    LONGEST_MM,
    largest_tilt_degrees,
    longest_that_passes_mm,
    passes_on_the_skew,
    passes_on_the_tilt,
)
from estimating.checks.access.way_up import SOURCE, WayUp, whole_mm
from estimating.working import Figure, Given, Working, from_price_book, worked_out


class Size(NamedTuple):
    """What is carried: its length, its width and its thickness [mm]."""

    length_mm: int
    width_mm: int
    thickness_mm: int


def passes(way: WayUp, size: Size) -> bool:
    """Tell whether something flat and stiff goes up.

    A thing narrower than the short side tilts along the long one, a wider one along the short side; what is
    wider than both may still go up upright and on the skew.

    Args:
        way: The way up. Record. [mm]
        size: What is carried. Record. [mm]

    Returns:
        Whether it does. Flag. [-]

    Source:
        Geometry.
    """
    if size.width_mm > whole_mm(way.long):
        return _on_the_skew(way, size) and size.length_mm <= way.lowest_room_mm
    return passes_on_the_tilt(way.slot_along(_along(way, size)), size.length_mm, size.thickness_mm)


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
    longest = _longest(way, size)
    length = from_price_book("length", size.length_mm, "mm")
    too_long = max(0, size.length_mm - longest.value)
    return GoesUp(
        what=what,
        passes=passes(way, size),
        longest_mm=longest,
        too_long_mm=Figure(
            "too long by",
            too_long,
            "mm",
            Working("length − longest that goes up, or 0 where less", (length, worked_out(longest)), SOURCE),
        ),
        too_wide_mm=_too_wide(way, size),
        tilt_degrees=_tilt(way, size),
        room_above_mm=way.above,
        over_hatch_mm=way.over_hatch,
    )


def _along(way: WayUp, size: Size) -> Given:
    """The side along which a thing tilts."""
    return way.long if size.width_mm <= whole_mm(way.short) else way.short


def _on_the_skew(way: WayUp, size: Size) -> bool:
    """Whether a thing wider than both sides goes through from corner to corner."""
    wider = size.width_mm > whole_mm(way.long)
    return wider and passes_on_the_skew(way.sides_mm, size.width_mm, size.thickness_mm)


def _longest(way: WayUp, size: Size) -> Figure[int]:
    name = "longest that goes up"
    width = from_price_book("width", size.width_mm, "mm")
    thickness = from_price_book("thickness", size.thickness_mm, "mm")
    if _on_the_skew(way, size):
        upright = (way.below, worked_out(way.above), width, thickness, way.long, way.short)
        formula = (
            "the least of floor to ceiling and room above the lining, upright, because width and thickness "
            "go through long side and short side on the skew only"
        )
        return Figure(name, way.lowest_room_mm, "mm", Working(formula, upright, SOURCE))
    side = _along(way, size)
    slot = way.slot_along(side)
    longest = floor(longest_that_passes_mm(slot, size.thickness_mm))
    if longest < size.length_mm and passes_on_the_tilt(slot, size.length_mm, size.thickness_mm):
        longest = size.length_mm  # the search is close to a millimetre, and this much is sure
    if side is way.long:
        because, other = "width is within short side", way.short
    elif size.width_mm <= whole_mm(way.long):
        because, other = "width is more than that", side
    else:
        because, other = "once width is cut to long side", way.long
    rooms: tuple[Given, ...] = (way.below, worked_out(way.above))
    cleared = "floor to ceiling and room above the lining"
    if way.clear_floor:
        rooms, cleared = (way.clear_floor, *rooms), f"clear floor, {cleared}"
    inputs = (*dict.fromkeys((width, thickness, side, other, way.shaft, *rooms)),)
    formula = (
        f"the greatest length that tilts along {side.name} ({because}), by thickness through depth of the "
        f"lining, and clears {cleared} at every place on its way; up to {LONGEST_MM / 1000:.0f} m is tried"
    )
    return Figure(name, longest, "mm", Working(formula, inputs, SOURCE))


def _too_wide(way: WayUp, size: Size) -> Figure[int]:
    width = from_price_book("width", size.width_mm, "mm")
    if _on_the_skew(way, size):
        thickness = from_price_book("thickness", size.thickness_mm, "mm")
        formula = "0: width and thickness go through long side and short side on the skew"
        working = Working(formula, (width, thickness, way.long, way.short), SOURCE)
        return Figure("too wide by", 0, "mm", working)
    working = Working("width − long side, or 0 where less", (width, way.long), SOURCE)
    return Figure("too wide by", max(0, size.width_mm - whole_mm(way.long)), "mm", working)


def _tilt(way: WayUp, size: Size) -> Figure[Decimal]:
    name = "largest tilt from upright"
    if _on_the_skew(way, size):
        inputs = (from_price_book("width", size.width_mm, "mm"), way.long, way.short)
        formula = "0: upright, because width goes through long side and short side on the skew only"
        return Figure(name, Decimal(0), "°", Working(formula, inputs, SOURCE))
    side = _along(way, size)
    tilt = largest_tilt_degrees(whole_mm(side), whole_mm(way.shaft), size.thickness_mm)
    working = Working(
        f"the tilt at which thickness / cos(tilt) + depth of the lining × tan(tilt) = {side.name}",
        (from_price_book("thickness", size.thickness_mm, "mm"), way.shaft, side),
        SOURCE,
    )
    return Figure(name, Decimal(f"{tilt or 0:.1f}"), "°", working)
