"""Joists may be left out only where the board reaches over them. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.choices import RaiseWith
from estimating.design.carried import carried_lines
from estimating.design.zones import ZoneFrame, zone_frames
from estimating.price_book import Board
from estimating.survey import evenly_spaced
from tests.estimating.lofts import choices, price_book, trussed_loft


def frame_on(lines: tuple[int, ...], raise_with: RaiseWith = RaiseWith.PEDESTALS) -> ZoneFrame:
    survey = trussed_loft()
    joists = replace(survey.joist_fields[0], centre_lines_mm=lines)
    return zone_frames(replace(survey, joist_fields=(joists,)), choices(raise_with=raise_with))[0]


def board(thickness_mm: int = 22, greatest_mm: int = 600) -> Board:
    known = price_book().product("B22")
    assert isinstance(known, Board)
    return replace(known, thickness_mm=thickness_mm, max_joist_centres_mm=greatest_mm)


@pytest.mark.parametrize(
    ("centres_mm", "greatest_mm", "steps"),
    [(600, 600, {1}), (400, 600, {1}), (300, 600, {1, 2}), (200, 600, {1, 2, 3}), (300, 450, {1})],
)
def test_as_many_joists_are_left_out_as_the_board_spans(
    centres_mm: int, greatest_mm: int, steps: set[int]
) -> None:
    """Carry step = floor(the board's span limit / centres): common practice, no source."""
    frame = frame_on(evenly_spaced(first_mm=1500, centres_mm=centres_mm, count=5400 // centres_mm + 1))
    found = carried_lines(frame, board(greatest_mm=greatest_mm))
    assert found[0] == frame.joist_lines
    assert {lines[1] - lines[0] for lines in found} == {step * centres_mm for step in steps}


def test_the_published_table_holds_where_the_board_claims_more() -> None:
    """NHBC Standards 6.4.19 Table 7: 450 mm for 18 mm boards."""
    frame = frame_on(evenly_spaced(first_mm=1500, centres_mm=300, count=19))
    assert carried_lines(frame, board(thickness_mm=18, greatest_mm=600)) == (frame.joist_lines,)


def test_a_board_that_may_not_span_one_bay_leaves_no_joist_out() -> None:
    frame = frame_on((1600, 1700, 2500, 2600, 3400, 4200))
    assert carried_lines(frame, board()) == (frame.joist_lines,)


def test_the_odd_one_of_uneven_joists_is_left_out() -> None:
    frame = frame_on((1600, 2150, 2190, 2700, 3290))
    assert carried_lines(frame, board()) == (frame.joist_lines, (1600, 2190, 2700, 3290))


def test_battens_lie_on_every_joist() -> None:
    frame = frame_on(evenly_spaced(first_mm=1500, centres_mm=300, count=19), RaiseWith.BATTENS)
    assert carried_lines(frame, board()) == (frame.joist_lines,)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(1500, 6900), min_size=2, max_size=40, unique=True), st.sampled_from([300, 450, 600])
)
def test_both_outer_joists_carry_and_no_bay_is_wider_than_the_board_spans(
    lines: list[int], greatest_mm: int
) -> None:
    frame = frame_on(tuple(sorted(lines)))
    every, *fewer = carried_lines(frame, board(greatest_mm=greatest_mm))
    assert every == frame.joist_lines
    for few in fewer:
        assert (few[0], few[-1]) == (every[0], every[-1])
        assert set(few) < set(every)
        assert max(after - before for before, after in pairwise(few)) <= greatest_mm
