"""Pedestals where the rule alone puts none, and none where it could not stand. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from estimating.design.boards import Layout, LayoutProblem, PedestalRule, lay_boards
from estimating.design.boards.bearers import edge_bearers
from estimating.design.boards.lay import Effort
from estimating.design.boards.layout import OpenedBoard, Piece
from estimating.design.boards.pedestal_grid import pedestal_points
from estimating.design.boards.rows import DeckRows
from estimating.design.boards.standing import (
    AT_AN_EDGE_BEARER,
    AT_THE_HATCH,
    BY_RULE,
    UNDER_A_CUT_END,
    Standing,
    bases_clear_of_each_other,
    stand_pedestals,
)
from estimating.layout_json import problem_from_json
from estimating.plane import contains
from tests.estimating.boards.problems import LONG_BOARD, any_problem, deck, keep_out

BASE_MM = 90
BY_SPACING = PedestalRule(per_seam=False)


def stood(problem: LayoutProblem, layout: Layout | None = None) -> tuple[Standing, ...]:
    return stand_pedestals(problem, layout, BASE_MM)


def laid(problem: LayoutProblem) -> Layout:
    layout = lay_boards(problem, Effort.FIRST)
    assert isinstance(layout, Layout), layout
    return layout


def along(x: int, pedestals: tuple[Standing, ...]) -> list[int]:
    return [each.y for each in pedestals if each.x == x]


def test_a_clear_rectangle_has_as_many_as_the_rule_counts():
    problem = deck(4840, 9 * 320, centres_mm=400)
    found = stood(problem, laid(problem))
    assert len(found) == len(pedestal_points(problem)) == 13 * 10
    assert {each.why for each in found} == {BY_RULE}


def test_end_bases_stand_under_the_deck_and_seam_bases_half_under_each_row():
    problem = deck(840, 3 * 320, centres_mm=400)
    assert along(20, stood(problem)) == [45, 320, 640, 960 - 45]


def test_no_base_stands_in_a_chimney():
    problem = deck(1640, 960, centres_mm=400, keep_outs=(keep_out(300, 230, 900, 700),))
    assert along(420, stood(problem)) == [45, 230 - 45, 700 + 45, 960 - 45]


@pytest.mark.parametrize(
    ("ys", "length", "expected"),
    [
        ((0, 400), 400, (45, 355)),
        ((0, 100, 400), 400, (45, 135, 355)),
        ((0, 300, 400), 400, (45, 265, 355)),
        ((0, 150), 150, (75,)),
        ((0, 100, 200), 200, (45, 155)),
        ((0,), 70, (35,)),
    ],
)
def test_bases_move_until_they_are_clear(ys, length, expected):
    assert bases_clear_of_each_other(ys, 0, length, BASE_MM) == expected


def test_joists_beside_a_hatch_have_a_pedestal_level_with_each_trimmer():
    hatch = keep_out(1840, 900, 2400, 1500)
    problem = deck(4840, 2400, board=LONG_BOARD, keep_outs=(hatch,))
    found = stood(problem, laid(problem))
    extra = [(each.x, each.y) for each in found if each.why == AT_THE_HATCH]
    assert extra == [(1820, 900 - 45), (1820, 1500 + 45), (2420, 900 - 45), (2420, 1500 + 45)]


def test_a_hatch_level_with_the_seams_needs_no_more():
    problem = deck(4840, 2400, board=LONG_BOARD, keep_outs=(keep_out(1840, 600, 2400, 1200),))
    assert {each.why for each in stood(problem, laid(problem))} == {BY_RULE}


def test_a_hatch_beside_the_deck_counts_and_one_far_off_does_not():
    problem = deck(4840, 2400, board=LONG_BOARD)
    beside, far = keep_out(-560, 900, -10, 1500).outline, keep_out(-3000, 900, -2400, 1500).outline
    hatched = stand_pedestals(problem, None, BASE_MM, beside)
    assert [(each.x, each.y) for each in hatched if each.why] == [(20, 855), (20, 1545)]
    assert not any(each.why for each in stand_pedestals(problem, None, BASE_MM, far))


def test_a_board_end_levers_on_a_pedestal_at_both_ends_of_its_edge_bearer():
    """By spacing alone the rows' seams at 600, 1200 and 1800 lie between pedestals."""
    problem = deck(6320, 1950, board=LONG_BOARD, pedestals=BY_SPACING)
    layout = laid(problem)
    assert {bearer.levers_on for bearer in edge_bearers(problem, layout)} == {6020}
    found = stood(problem, layout)
    extra = [each.y for each in found if each.x == 6020 and each.why == AT_AN_EDGE_BEARER]
    assert extra == [600, 1200, 1800]
    assert {each.x for each in found if each.why == AT_AN_EDGE_BEARER} == {6020}


def test_a_cut_end_that_would_rest_on_no_pedestal_has_one_in_its_middle():
    """Rows of 320 on pedestals 567 mm apart: the row from 960 to 1280 lies between 567 and 1133."""
    problem = deck(2440, 1700, board=replace(LONG_BOARD, cover_width_mm=320), pedestals=BY_SPACING)
    pieces = (
        Piece(0, 1, 0, 1220, 320, 640, 0, 0, 0),
        Piece(1, 1, 1220, 2440, 320, 640, 0, 1220, 0),
        Piece(2, 2, 0, 1220, 640, 960, 1, 0, 0),
        Piece(3, 2, 1220, 2440, 640, 960, 1, 1220, 0),
    )
    layout = Layout("test deck", 2, pieces, (), tuple(OpenedBoard(n, "b", 2440, True) for n in (0, 1)))
    extra = [each for each in stood(problem, layout) if each.why]
    assert extra == [Standing(1220, 800, UNDER_A_CUT_END)]


def test_a_factory_end_needs_no_more_than_the_rule():
    problem = deck(4840, 1700, board=replace(LONG_BOARD, cover_width_mm=320), pedestals=BY_SPACING)
    pieces = (Piece(0, 2, 20, 2420, 640, 960, 0, 0, 0), Piece(1, 2, 2420, 4820, 640, 960, 1, 0, 0))
    layout = Layout("test deck", 2, pieces, (), tuple(OpenedBoard(n, "b", 2400, True) for n in (0, 1)))
    assert not any(each.why for each in stood(problem, layout))


@settings(max_examples=60, deadline=None)
@given(any_problem(), st.booleans(), st.sampled_from([60, 90, 125]))
def test_no_two_bases_meet_and_none_stands_off_the_deck(drawn, per_seam, base_mm):
    problem = problem_from_json(drawn)
    problem = replace(problem, pedestals=replace(problem.pedestals, per_seam=per_seam))
    assume(DeckRows(problem).runs)
    layout = lay_boards(problem, Effort.FIRST)
    found = stand_pedestals(problem, layout if isinstance(layout, Layout) else None, base_mm)
    assert found == tuple(sorted(found))
    for one, other in pairwise(found):
        apart = one.x != other.x or other.y - one.y >= base_mm
        assert apart, (one, other)
    slices = DeckRows(problem).slices
    for x, y, _ in found:
        assert contains(problem.outline, (x, y))
        assert any(
            piece.left <= x <= piece.right
            and min(piece.low_left, piece.low_right) <= y <= max(piece.high_left, piece.high_right)
            for piece in slices
        )
