"""Boards through hatches: geometry against a motion tried step by step, and what must always hold."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.access.tilt import (
    LONGEST_MM,
    Slot,
    largest_tilt_degrees,
    longest_that_passes_mm,
    passes_on_the_skew,
    passes_on_the_tilt,
)
from estimating.refusals import Refusal

slots = st.builds(
    Slot,
    st.floats(400, 1200),
    st.floats(0, 400),
    st.floats(1800, 3000),
    st.floats(400, 2500),
    st.none() | st.floats(500, 4000),
)
lengths, thicknesses = st.floats(600, 4000), st.floats(15, 120)
more = st.floats(0, 500)


def test_the_largest_tilt_is_where_the_board_touches_both_sides_of_the_shaft() -> None:
    """Geometry: 18 mm in an opening of 726 mm and a shaft of 150 mm."""
    tilt = largest_tilt_degrees(726, 150, 18)
    assert tilt is not None
    radians = tilt * pi / 180
    assert 18 / cos(radians) + 150 * sin(radians) / cos(radians) == pytest.approx(726)
    assert largest_tilt_degrees(400, 100, 401) is None


def test_a_board_shorter_than_both_rooms_needs_no_tilt() -> None:
    assert passes_on_the_tilt(Slot(560, 300, 2400, 1300, 200), 1220, 22)


def test_a_board_longer_than_the_rooms_is_stopped_by_a_deep_shaft() -> None:
    shallow, deep = Slot(560, 120, 2400, 900), Slot(560, 900, 2400, 900)
    assert passes_on_the_tilt(shallow, 2400, 22)
    assert not passes_on_the_tilt(deep, 2400, 22)


def test_little_floor_below_stops_what_must_be_tilted() -> None:
    wide, narrow = Slot(726, 150, 2300, 2300, 2000), Slot(726, 150, 2300, 2300, 500)
    assert passes_on_the_tilt(wide, 2400, 22)
    assert not passes_on_the_tilt(narrow, 2400, 22)


@given(slots, lengths, thicknesses, more)
@settings(max_examples=60)
def test_a_shorter_or_thinner_board_passes_where_a_longer_one_does(
    slot: Slot, length: float, thickness: float, less: float
) -> None:
    if passes_on_the_tilt(slot, length, thickness):
        assert passes_on_the_tilt(slot, max(1, length - less), thickness)
        assert passes_on_the_tilt(slot, length, max(1, thickness - less / 10))


@given(slots, lengths, thicknesses, more)
@settings(max_examples=60)
def test_a_larger_opening_a_shallower_lining_or_a_higher_room_never_hinders(
    slot: Slot, length: float, thickness: float, by: float
) -> None:
    if passes_on_the_tilt(slot, length, thickness):
        for name in ("length_mm", "room_below_mm", "room_above_mm"):
            larger = replace(slot, **{name: getattr(slot, name) + by})
            assert passes_on_the_tilt(larger, length, thickness)
        shallower = replace(slot, shaft_mm=max(0.0, slot.shaft_mm - by))
        assert passes_on_the_tilt(shallower, length, thickness)


@given(slots, thicknesses, more)
@settings(max_examples=30)
def test_the_longest_board_is_never_shorter_through_a_shallower_lining(
    slot: Slot, thickness: float, by: float
) -> None:
    shallower = replace(slot, shaft_mm=max(0.0, slot.shaft_mm - by))
    assert longest_that_passes_mm(shallower, thickness) >= longest_that_passes_mm(slot, thickness)


@given(slots, thicknesses)
@settings(max_examples=40)
def test_the_longest_board_passes_and_a_longer_one_does_not(slot: Slot, thickness: float) -> None:
    longest = longest_that_passes_mm(slot, thickness)
    if 0 < longest < LONGEST_MM:
        assert passes_on_the_tilt(slot, longest, thickness)
        assert not passes_on_the_tilt(slot, longest + 2, thickness)


@given(slots, lengths, thicknesses)
@settings(max_examples=15)
def test_what_passes_can_be_moved_up_step_by_step(slot: Slot, length: float, thickness: float) -> None:
    """Another way to see it: a chain of tilted places, each clear of floor, shaft and roof.

    There the board has its true corners, so that ours is on the cautious side by less than its thickness.
    """
    free = replace(slot, clear_floor_mm=None)
    if passes_on_the_tilt(free, length, thickness):
        assert moves_through(free, length * 0.98, thickness * 0.95)
    roomier = replace(
        free,
        length_mm=slot.length_mm + thickness,
        room_below_mm=slot.room_below_mm + thickness,
        room_above_mm=slot.room_above_mm + thickness,
    )
    if moves_through(free, length, thickness):
        assert passes_on_the_tilt(roomier, length * 0.98, thickness)


@given(st.floats(300, 1200), st.floats(300, 1200), st.floats(100, 1500), st.floats(10, 60))
@settings(max_examples=60)
def test_the_skew_is_what_turning_a_rectangle_finds(a: float, b: float, width: float, thick: float) -> None:
    turns = [number * pi / 2 / 2000 for number in range(2001)]
    turned = [
        (width * cos(turn) + thick * sin(turn), width * sin(turn) + thick * cos(turn)) for turn in turns
    ]
    found = any(across <= a and along <= b for across, along in turned)
    ours = passes_on_the_skew((a, b), width, thick)
    if found:
        assert ours
    elif ours:  # between two of the turns tried
        assert any(across <= a * 1.01 and along <= b * 1.01 for across, along in turned)


def test_a_board_as_thick_as_the_opening_goes_up_upright_only() -> None:
    assert largest_tilt_degrees(400, 100, 400) == pytest.approx(0)
    assert passes_on_the_tilt(Slot(400, 100, 2400, 2400), 2400, 400)
    assert not passes_on_the_tilt(Slot(400, 100, 2400, 2399), 2400, 400)


def test_what_a_hatch_cannot_be_is_refused_by_name() -> None:
    with pytest.raises(Refusal) as refused:
        Slot(0, -1, 2400, 0)
    assert [each.field for each in refused.value.each] == ["length_mm", "room_above_mm", "shaft_mm"]


def moves_through(slot: Slot, length: float, thickness: float, *, steps: int = 90) -> bool:
    """Walk a grid of places from the floor up: the height of the lowest corner, and the tilt from upright."""
    tilts = [number * (pi / 2 - 0.01) / steps for number in range(steps + 1)]

    def clear(foot: float) -> set[int]:
        return {place for place, tilt in enumerate(tilts) if is_clear(slot, length, thickness, foot, tilt)}

    bottom = -slot.room_below_mm
    reached = {place for place in clear(bottom) if bottom + height_of(length, thickness, tilts[place]) <= 0}
    for number in range(steps + 1):
        foot = bottom + (slot.shaft_mm - bottom) * number / steps
        reached = with_neighbours(reached, clear(foot))
        if not reached:
            return False
    return True


def with_neighbours(reached: set[int], clear: set[int]) -> set[int]:
    """All clear tilts that can be come to by turning from those reached, or one step beside them."""
    found = {place for place in clear if {place - 1, place, place + 1} & reached}
    waiting = list(found)
    while waiting:
        place = waiting.pop()
        for beside in (place - 1, place + 1):
            if beside in clear and beside not in found:
                found.add(beside)
                waiting.append(beside)
    return found


def height_of(length: float, thickness: float, tilt: float) -> float:
    return length * cos(tilt) + thickness * sin(tilt)


def is_clear(slot: Slot, length: float, thickness: float, foot: float, tilt: float) -> bool:
    """Whether a board whose lowest corner is so high over the ceiling touches neither roof nor lining."""
    along, across = (sin(tilt), cos(tilt)), (cos(tilt), -sin(tilt))
    rise = foot + thickness * sin(tilt)
    corners = [
        (out * along[0] + side * across[0], rise + out * along[1] + side * across[1])
        for out, side in ((0.0, 0.0), (length, 0.0), (length, thickness), (0.0, thickness))
    ]
    if max(y for _, y in corners) > slot.shaft_mm + slot.room_above_mm:
        return False
    inside = [x for x, y in corners if 0 <= y <= slot.shaft_mm]
    for (x0, y0), (x1, y1) in zip(corners, corners[1:] + corners[:1], strict=True):
        inside += [
            x0 + (x1 - x0) * (level - y0) / (y1 - y0)
            for level in (0.0, slot.shaft_mm)
            if min(y0, y1) < level < max(y0, y1)
        ]
    return not inside or max(inside) - min(inside) <= slot.length_mm + 1e-6
