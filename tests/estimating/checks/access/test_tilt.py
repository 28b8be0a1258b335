"""Boards through hatches: geometry against a motion tried step by step, and what must always hold."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.access.tilt import (
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
def test_a_larger_opening_or_a_higher_room_never_hinders(
    slot: Slot, length: float, thickness: float, by: float
) -> None:
    if passes_on_the_tilt(slot, length, thickness):
        for name in ("length_mm", "room_below_mm", "room_above_mm"):
            larger = replace(slot, **{name: getattr(slot, name) + by})
            assert passes_on_the_tilt(larger, length, thickness)


@given(slots, thicknesses)
@settings(max_examples=40)
def test_the_longest_board_passes_and_a_longer_one_does_not(slot: Slot, thickness: float) -> None:
    longest = longest_that_passes_mm(slot, thickness)
    if 0 < longest < 12_000:
        assert passes_on_the_tilt(slot, longest, thickness)
        assert not passes_on_the_tilt(slot, longest + 2, thickness)


@given(slots, lengths, thicknesses)
@settings(max_examples=15)
def test_what_passes_can_be_moved_up_step_by_step(slot: Slot, length: float, thickness: float) -> None:
    """Another way to see it: a chain of tilted places, each clear of floor, shaft and roof."""
    ours = passes_on_the_tilt(replace(slot, clear_floor_mm=None), length, thickness)
    if ours:
        assert moves_through(slot, length, thickness)
    if not moves_through(slot, length * 0.95, thickness):
        assert not ours


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
    """Whether a board whose lowest corner is at a height, 0 at the ceiling, touches nothing."""
    top = foot + height_of(length, thickness, tilt)
    if top > slot.shaft_mm + slot.room_above_mm:
        return False
    low, high = max(foot, 0.0), min(top, slot.shaft_mm)
    if top <= 0 or foot >= slot.shaft_mm:
        return True
    inside = min(high - low, length * cos(tilt))
    return thickness / cos(tilt) + inside * sin(tilt) / cos(tilt) <= slot.length_mm + 1e-6
