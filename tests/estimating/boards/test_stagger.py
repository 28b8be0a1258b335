"""Joints of adjacent rows keep apart, and where they cannot, the fewest line-ups is really the fewest."""

from __future__ import annotations

from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.design.boards import BoardProduct, LayingRules, Layout, LayoutProblem, NoLayout, lay_boards
from estimating.design.boards.rows import DeckRows
from estimating.design.boards.solving.stagger import Staggering, line_ups_two_by_two
from estimating.design.boards.steps import RUN_END, RunSteps, steps_of_every_run
from tests.estimating.boards.problems import LONG_BOARD, deck, keep_out


def _joints_of_every_path(run: RunSteps, line: int = 0) -> set[int]:
    if line == len(run.steps):
        return {0}
    return {
        later | (0 if step.joist == RUN_END else 1 << step.joist)
        for step in run.steps[line]
        for later in _joints_of_every_path(run, step.to)
    }


def fewest_by_trying_everything(problem: LayoutProblem) -> int:
    """Every way to lay every row, each against every way to lay the row below."""
    by_row: dict[int, list[set[int]]] = {}
    for run in steps_of_every_run(problem, DeckRows(problem)):
        by_row.setdefault(run.run.row, []).append(_joints_of_every_path(run))
    near = Staggering.of(problem).near
    best = {0: 0}
    for row in sorted(by_row):
        ways = {sum(joints) for joints in product(*by_row[row])}
        best = {
            way: min(
                met + sum((near[joist] & below).bit_count() for joist in range(len(near)) if way >> joist & 1)
                for below, met in best.items()
            )
            for way in ways
        }
    return min(best.values())


@st.composite
def small_decks(draw: st.DrawFn) -> LayoutProblem:
    width, rows = draw(st.integers(1500, 4300)), draw(st.integers(2, 4))
    holes = []
    for _ in range(draw(st.integers(0, 2))):
        x, y = draw(st.integers(0, width - 300)), draw(st.integers(0, rows - 1)) * 320
        holes.append(keep_out(x, y, x + draw(st.integers(200, 900)), y + 320))
    return deck(
        width,
        rows * 320,
        centres_mm=draw(st.sampled_from([400, 600])),
        first_joist_mm=draw(st.integers(5, 300)),
        keep_outs=tuple(holes),
        rules=LayingRules(min_stagger_mm=draw(st.sampled_from([300, 450, 700])), min_supports=1),
    )


@settings(max_examples=25, deadline=None, derandomize=True)
@given(small_decks())
def test_the_fewest_line_ups_agree_with_trying_everything(problem):
    answer = lay_boards(problem)
    if isinstance(answer, Layout):
        assert fewest_by_trying_everything(problem) == 0
    elif answer.stagger_breaks is not None:
        assert answer.stagger_breaks == fewest_by_trying_everything(problem)
        assert answer.at_least <= answer.stagger_breaks


@settings(max_examples=25, deadline=None, derandomize=True)
@given(small_decks())
def test_runs_two_by_two_never_claim_more_line_ups_than_there_must_be(problem):
    runs = steps_of_every_run(problem, DeckRows(problem))
    if all(run.can_be_laid for run in runs):
        assert line_ups_two_by_two(problem, runs) <= fewest_by_trying_everything(problem)


def test_a_joist_that_every_row_must_joint_on_is_named():
    # 1220 boards on 600 centres reach two bays; the last joist is too near the edge to end a piece on
    answer = lay_boards(deck(20_000, 3 * 320, centres_mm=600, first_joist_mm=15))
    assert isinstance(answer, NoLayout)
    assert (answer.stagger_breaks, answer.at_least) == (2, 2)
    assert "rows 1 and 2 on the joist at 19215 mm; rows 2 and 3 on the joist at 19215 mm" in answer.why
    assert "300 mm apart" in answer.why


@pytest.mark.parametrize("apart_mm", [300, 450, 700])
def test_joints_of_adjacent_rows_are_at_least_the_stagger_apart(apart_mm):
    rules = LayingRules(min_stagger_mm=apart_mm)
    problem = deck(7000, 6 * 600, centres_mm=400, board=LONG_BOARD, rules=rules)
    answer = lay_boards(problem)
    assert isinstance(answer, Layout)
    for row in range(6):
        here = [joint.x for joint in answer.joints if joint.row == row]
        above = [joint.x for joint in answer.joints if joint.row == row + 1]
        assert all(abs(a - b) >= apart_mm for a in here for b in above)


def test_rows_with_no_deck_between_them_need_no_stagger():
    # the middle row is all hatch, so the outer rows may joint alike
    problem = deck(1830, 3 * 320, centres_mm=600, first_joist_mm=15, keep_outs=(keep_out(0, 320, 1830, 640),))
    answer = lay_boards(problem)
    assert isinstance(answer, Layout)
    assert {piece.row for piece in answer.pieces} == {0, 2}


def test_a_stretch_that_no_piece_can_cover_is_explained_without_line_ups():
    answer = lay_boards(deck(1400, 640, centres_mm=1300, first_joist_mm=50))
    assert isinstance(answer, NoLayout)
    assert answer.stagger_breaks is None
    assert answer.why.startswith(
        "Row 1 cannot be boarded from 0 mm to 1400 mm: joists 1300 mm apart are too far"
    )


def test_factory_ends_only_needs_a_whole_number_of_bays():
    rules = LayingRules(end_joint="tg")
    short = lay_boards(deck(7000, 960, centres_mm=600, rules=rules))
    assert isinstance(short, NoLayout)
    assert "only factory ends may meet" in short.why


def test_factory_ends_only_lays_whole_boards_between_the_ends_of_a_run():
    board = BoardProduct(code="1200 x 320", cover_length_mm=1200, cover_width_mm=320, thickness_mm=18)
    rules = LayingRules(end_joint="tg")
    answer = lay_boards(deck(6100, 960, centres_mm=600, first_joist_mm=320, board=board, rules=rules))
    assert isinstance(answer, Layout)
    for row in range(3):
        pieces = sorted(piece for piece in answer.pieces if piece.row == row)
        assert len(pieces) > 2
        for left, right in pairwise(pieces):
            assert left.board_x + left.length_mm == 1200
            assert right.board_x == 0
