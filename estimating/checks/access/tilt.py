"""A board through a hatch: how far it may tilt in the opening, and how long it may be for the rooms.

Seen from the side, a hatch is a slot of some length through a shaft of some depth, with a room below and one
above. A board that is longer than a room is high must tilt to clear it; the slot says how far it may. While
only its tip is in the shaft it may tilt further, so that the whole motion is looked at, not its middle alone.
The tip is taken to be as thick as the board wherever it is in the shaft: on the cautious side, by less height
than the board is thick.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, atan2, cos, degrees, hypot, sin, sqrt

from estimating.refusals import Requirements

LEAST_STEP_MM = 1
CLOSE_ENOUGH_MM = 1.0
LONGEST_MM = 6_000.0
"""Nothing longer is carried into a loft: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Slot:
    """A hatch seen from the side in which a board tilts; `clear_floor_mm` is None where none was measured."""

    length_mm: float
    shaft_mm: float
    room_below_mm: float
    room_above_mm: float
    clear_floor_mm: float | None = None

    def __post_init__(self) -> None:
        needs = Requirements()
        for name in ("length_mm", "room_below_mm", "room_above_mm"):
            needs.require(getattr(self, name) > 0, name, "must be more than 0 mm")
        needs.require(self.shaft_mm >= 0, "shaft_mm", "must not be less than 0 mm")
        floor = self.clear_floor_mm
        needs.require(floor is None or floor > 0, "clear_floor_mm", "must be more than 0 mm")
        needs.settle()


def largest_tilt_degrees(opening_mm: float, shaft_mm: float, thickness_mm: float) -> float | None:
    """Give how far from upright a board may tilt in a shaft.

    Args:
        opening_mm: Clear length of the opening. Scalar. [mm]
        shaft_mm: Depth of the shaft. Scalar. [mm]
        thickness_mm: Thickness of the board. Scalar. [mm]

    Returns:
        The tilt; None where the board is thicker than the opening is long. Scalar. [degrees]

    Raises:
        Refusal: Opening or thickness is not more than 0, or the depth less.

    Source:
        Geometry: thickness / cos(tilt) + depth × tan(tilt) = opening.
    """
    needs = Requirements()
    needs.require(opening_mm > 0, "opening_mm", "must be more than 0 mm")
    needs.require(shaft_mm >= 0, "shaft_mm", "must not be less than 0 mm")
    needs.require(thickness_mm > 0, "thickness_mm", "must be more than 0 mm")
    needs.settle()
    tilt = _largest_tilt(opening_mm, shaft_mm, thickness_mm)
    return None if tilt < 0 else degrees(tilt)


def passes_on_the_tilt(slot: Slot, length_mm: float, thickness_mm: float) -> bool:
    """Tell whether a board of a length goes up through a hatch, end first.

    Args:
        slot: The hatch from the side. Record. [mm]
        length_mm: Length of the board. Scalar. [mm]
        thickness_mm: Thickness of the board. Scalar. [mm]

    Returns:
        Whether it does. Flag. [-]

    Raises:
        Refusal: Length or thickness is not more than 0.

    Source:
        Geometry.
    """
    needs = Requirements()
    needs.require(length_mm > 0, "length_mm", "must be more than 0 mm")
    needs.require(thickness_mm > 0, "thickness_mm", "must be more than 0 mm")
    needs.settle()
    if thickness_mm > slot.length_mm:
        return False
    if not all(
        _enters(slot, room_mm, length_mm, thickness_mm)
        for room_mm in (slot.room_below_mm, slot.room_above_mm)
    ):
        return False
    tilt = _tilt_for_room(slot.room_below_mm, length_mm, thickness_mm)
    floor_mm = length_mm * sin(tilt) + thickness_mm * cos(tilt)
    return slot.clear_floor_mm is None or floor_mm <= slot.clear_floor_mm


def longest_that_passes_mm(slot: Slot, thickness_mm: float) -> float:
    """Give the longest board of a thickness that goes up through a hatch.

    Args:
        slot: The hatch from the side. Record. [mm]
        thickness_mm: Thickness of the board. Scalar. [mm]

    Returns:
        The length, 0 where none does, 6 m where any would. Scalar. [mm]

    Raises:
        Refusal: The thickness is not more than 0.

    Source:
        Geometry; halving.
    """
    low, high = 0.0, LONGEST_MM
    if passes_on_the_tilt(slot, high, thickness_mm):
        return high
    while high - low > CLOSE_ENOUGH_MM:
        middle = (low + high) / 2
        if passes_on_the_tilt(slot, middle, thickness_mm):
            low = middle
        else:
            high = middle
    return low


def passes_on_the_skew(opening_mm: tuple[float, float], width_mm: float, thickness_mm: float) -> bool:
    """Tell whether a board goes through an opening upright, its width turned towards the diagonal.

    Args:
        opening_mm: Both clear sides. Pair. [mm]
        width_mm: Width of the board. Scalar. [mm]
        thickness_mm: Thickness of the board. Scalar. [mm]

    Returns:
        Whether it does. Flag. [-]

    Source:
        Geometry: a rectangle in a rectangle, by J. Carver, American Mathematical Monthly 64 (1957) 114-116.
    """
    long, short = max(opening_mm), min(opening_mm)
    broad, thin = max(width_mm, thickness_mm), min(width_mm, thickness_mm)
    if broad <= long and thin <= short:
        return True
    if thin > short or broad <= long:
        return False
    diagonal = broad**2 + thin**2
    over = sqrt(diagonal - long**2)
    return short >= (2 * broad * thin * long + (broad**2 - thin**2) * over) / diagonal


def _largest_tilt(opening_mm: float, shaft_mm: float, thickness_mm: float) -> float:
    """Less than 0 where the board is thicker than the opening is long."""
    if thickness_mm > opening_mm:
        return -1.0
    return max(0.0, acos(thickness_mm / hypot(opening_mm, shaft_mm)) - atan2(shaft_mm, opening_mm))


def _enters(slot: Slot, room_mm: float, length_mm: float, thickness_mm: float) -> bool:
    """Whether a board in a room can be brought wholly into the shaft, its tip first.

    The further it is in, the less of it the room must hold and the less it may tilt in the shaft, so that
    every depth on the way must leave it a tilt. Leaving the shaft into a room is the same seen backwards.
    Between two depths the tilt that the upper one needs and the lower one allows will do; where it does not,
    the depths between are looked at, down to the least step and to the cautious side of it. Depths lie on
    one grid whatever the shaft, so that a shallower one never hinders.
    """
    whole = LEAST_STEP_MM
    while whole < slot.shaft_mm:
        whole *= 2
    waiting = [(0, whole)]
    while waiting:
        start, end = waiting.pop()
        needed = _tilt_for_room(room_mm + start, length_mm, thickness_mm)
        within = min(float(end), slot.shaft_mm)
        if needed <= _largest_tilt(slot.length_mm, within, thickness_mm):
            continue
        if end - start <= LEAST_STEP_MM or needed > _largest_tilt(slot.length_mm, start, thickness_mm):
            return False
        middle = (start + end) // 2
        waiting.append((start, middle))
        if middle < slot.shaft_mm:
            waiting.append((middle, end))
    return True


def _tilt_for_room(height_mm: float, length_mm: float, thickness_mm: float) -> float:
    """The least tilt at which a board takes no more height than there is."""
    if length_mm <= height_mm:
        return 0.0
    corner = atan2(thickness_mm, length_mm)
    reach = hypot(length_mm, thickness_mm)
    return acos(min(1.0, height_mm / reach)) + corner
