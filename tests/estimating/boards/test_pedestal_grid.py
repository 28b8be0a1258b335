"""Pedestals as the trade counts them. Common practice, no source."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.design.boards import PedestalRule
from estimating.design.boards.pedestal_grid import pedestal_points
from tests.estimating.boards.problems import LONG_BOARD, SHORT_BOARD, deck, keep_out


@settings(max_examples=20, deadline=None)
@given(st.integers(3, 12), st.integers(2, 15))
def test_a_clear_rectangle_takes_joists_times_the_lines_along_them(joists, rows):
    problem = deck((joists - 1) * 400 + 40, rows * 320, centres_mm=400)
    assert len(pedestal_points(problem)) == joists * (rows + 1)


def test_narrow_boards_take_more_pedestals_than_wide_ones_under_the_seam_rule():
    narrow = pedestal_points(deck(4840, 4800, centres_mm=600, board=SHORT_BOARD))
    wide = pedestal_points(deck(4840, 4800, centres_mm=600, board=LONG_BOARD))
    assert len(narrow) == 9 * 16
    assert len(wide) == 9 * 9


def test_by_spacing_alone_pedestals_ignore_the_seams():
    rule = PedestalRule(max_spacing_mm=600, per_seam=False)
    points = pedestal_points(deck(840, 1700, centres_mm=400, pedestals=rule))
    assert [y for x, y in points if x == 20] == [0, 567, 1133, 1700]


def test_a_seam_near_an_end_is_served_by_the_end():
    points = pedestal_points(deck(840, 320 * 2 + 70, centres_mm=400))
    assert [y for x, y in points if x == 20] == [0, 320, 710]


def test_every_second_joist_when_the_boards_span_two_bays():
    problem = deck(1640, 640, centres_mm=400)
    assert sorted({x for x, _ in pedestal_points(problem, 2)}) == [20, 820, 1620]


def test_a_hatch_has_pedestals_at_its_edges_and_none_inside():
    problem = deck(1640, 960, centres_mm=400, keep_outs=(keep_out(300, 200, 900, 700),))
    assert [y for x, y in pedestal_points(problem) if x == 420] == [0, 200, 700, 960]


def test_a_joist_under_the_last_edge_of_the_deck_has_its_pedestals_too():
    problem = deck(1620, 640, centres_mm=400)
    assert problem.joist_lines[-1] == 1620
    assert len(pedestal_points(problem)) == len(problem.joist_lines) * 3
