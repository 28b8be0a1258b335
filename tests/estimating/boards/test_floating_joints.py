"""End joints that float between joists: factory ends only, apart from those of the next row, no bay twice.

That the maker's data must allow it comes before all of this; the measures are common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from estimating.design.boards import Layout, LayoutProblem, NoLayout, Piece, lay_boards
from estimating.design.boards.checking.checker import faults
from estimating.design.boards.floating_places import MOST_PLACES
from estimating.design.boards.joint_places import (
    FLOATING,
    joint_places,
    lies_on_joist,
    places_barred_by,
)
from estimating.design.boards.lay import Effort
from estimating.design.boards.problem import LayingRules
from estimating.layout_json import layout_as_json, problem_from_json
from estimating.refusals import Refusal
from tests.estimating.boards.problems import LONG_BOARD, SHORT_BOARD, any_problem, deck, keep_out
from tests.published.layout_validator import validate

MAY_FLOAT = LayingRules(end_joint="floating")
RARELY = settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)


def _first(problem: LayoutProblem) -> Layout:
    layout = lay_boards(problem, Effort.FIRST)
    assert isinstance(layout, Layout)
    return layout


@RARELY
@given(any_problem())
def test_any_deck_is_laid_with_floating_joints_by_every_rule_or_explained(data):
    data["rules"]["end_joint"] = "floating"
    problem = problem_from_json(data)
    answer = lay_boards(problem, Effort.FIRST)
    if isinstance(answer, NoLayout):
        assert answer.why.endswith(".")
        return
    assert faults(problem, answer) == ()
    # the published validator does not know joints between joists; it must miss nothing else
    assert {error["code"] for error in validate(data, layout_as_json(answer))["errors"]} <= {"JOINT"}


@RARELY
@given(any_problem())
def test_floating_joints_are_between_factory_ends(data):
    data["rules"]["end_joint"] = "floating"
    problem = problem_from_json(data)
    answer = lay_boards(problem, Effort.FIRST)
    if isinstance(answer, NoLayout):
        return
    at = {(piece.row, piece.x0): piece for piece in answer.pieces}
    before = {second: first for first, second in pairwise(answer.pieces) if first.row == second.row}
    for joint in answer.joints:
        assert (joint.joist == FLOATING) == (not lies_on_joist(problem, joint.x))
        if joint.joist == FLOATING:
            right = at[joint.row, joint.x]
            left = before[right]
            assert left.board_x + left.length_mm == problem.product.cover_length_mm
            assert right.board_x == 0


@pytest.mark.parametrize("centres_mm", [400, 450, 600])
@pytest.mark.parametrize("board", [SHORT_BOARD, LONG_BOARD])
def test_joints_that_may_float_never_take_more_boards(board, centres_mm):
    butt = deck(7300, 4200, board=board, centres_mm=centres_mm, keep_outs=(keep_out(3000, 2000, 3560, 2730),))
    on_joists = lay_boards(butt, Effort.FIRST)
    floating = lay_boards(replace(butt, rules=MAY_FLOAT), Effort.FIRST)
    if isinstance(on_joists, Layout):
        assert isinstance(floating, Layout)
        assert floating.boards <= on_joists.boards


def test_short_boards_on_wide_centres_are_saved_by_floating_joints():
    # 1220 mm boards on 450 mm centres reach two bays of the two and two thirds they are long
    butt = deck(8000, 3200, board=SHORT_BOARD, centres_mm=450)
    assert _first(replace(butt, rules=MAY_FLOAT)).boards <= 0.85 * _first(butt).boards


@RARELY
@given(any_problem(), st.sampled_from(["butt", "tg"]))
def test_joints_that_may_not_float_are_on_joists_and_bar_their_own_and_all_too_near(data, end_joint):
    data["rules"]["end_joint"] = end_joint
    problem = problem_from_json(data)
    assert joint_places(problem) == problem.joist_lines
    for joist, barred in enumerate(places_barred_by(problem)):
        near = {
            other
            for other, line in enumerate(problem.joist_lines)
            if other == joist or abs(line - problem.joist_lines[joist]) < problem.rules.min_stagger_mm
        }
        assert barred == sum(1 << other for other in near)


@RARELY
@given(any_problem())
def test_places_of_floating_joints_are_few_and_bar_each_other(data):
    data["rules"] |= {"end_joint": "floating", "joint_tol": 0}
    problem = problem_from_json(data)
    places, barred = joint_places(problem), places_barred_by(problem)
    assert len(set(places) - set(problem.joist_lines)) <= 2 * MOST_PLACES
    for one, x in enumerate(places):
        for other, y in enumerate(places):
            low, high = min(x, y), max(x, y)
            one_bay = not any(low <= line <= high for line in problem.joist_lines)
            near = high - low < problem.rules.min_stagger_mm or one == other
            assert (barred[one] >> other & 1) == (near or one_bay)


def test_no_stagger_of_floating_joints_is_told_by_place_and_never_claimed_to_be_proved():
    problem = deck(
        7300, 2400, board=SHORT_BOARD, keep_outs=(keep_out(3000, 900, 3560, 1630),), rules=MAY_FLOAT
    )
    answer = lay_boards(problem, Effort.FIRST)
    assert isinstance(answer, NoLayout)
    assert answer.at_least == 0
    assert answer.why.startswith("No layout was found that keeps")
    assert len(answer.line_ups) == answer.stagger_breaks


def test_square_ends_cannot_float():
    square = replace(LONG_BOARD, ends="square")
    with pytest.raises(Refusal, match="tongued and grooved"):
        deck(4800, 1200, board=square, rules=MAY_FLOAT)


def _two_rows(*joints: int, right_ends: tuple[int, int] = (0, 0)) -> Layout:
    """Two rows of two pieces each, with a joint in each row, every piece from a board of its own.

    Each left piece ends at its board's right factory end unless it is cut short there.
    """
    pieces = []
    for row, (joint, cut) in enumerate(zip(joints, right_ends, strict=True)):
        board = 2 * row + 1
        y0, y1 = row * 600, row * 600 + 600
        pieces.append(Piece(board, row, 0, joint, y0, y1, board, 2400 - cut - joint, 0))
        pieces.append(Piece(board + 1, row, joint, 3600, y0, y1, board + 1, 0, 0))
    return Layout("two rows", 4, tuple(pieces), ())


TWO_ROWS = deck(3600, 1200, first_joist_mm=0, board=LONG_BOARD, rules=MAY_FLOAT)


def _says(*joints: int, right_ends: tuple[int, int] = (0, 0)) -> list[str]:
    return [fault.says for fault in faults(TWO_ROWS, _two_rows(*joints, right_ends=right_ends))]


def test_our_checker_knows_where_joints_may_float():
    assert _says(1400, 2000) == []
    assert _says(1200, 1900) == []  # one on a joist, one between
    assert _says(1400, 1650) == ["joints of rows 1 and 2 are 250 mm apart"]
    assert _says(1210, 1790) == ["joints of rows 1 and 2 are in one bay"]
    assert _says(1800, 1800) == ["joints of rows 1 and 2 are 0 mm apart"]


def test_a_cut_end_may_meet_on_a_joist_but_not_between():
    assert _says(1400, 2000, right_ends=(0, 100)) == ["meet with a cut end"]
    assert _says(1400, 1800, right_ends=(0, 100)) == []


def test_joints_on_one_joist_are_a_fault_however_they_lie_on_it():
    wide = replace(TWO_ROWS, rules=replace(MAY_FLOAT, joint_tolerance_mm=25, min_stagger_mm=0))
    says = [fault.says for fault in faults(wide, _two_rows(1790, 1815))]
    assert says == ["joints of rows 1 and 2 are on one joist"]
