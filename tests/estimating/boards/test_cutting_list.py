"""The crew can saw from the list: measures add up, factory ends are named, left-overs are judged."""

from __future__ import annotations

import pytest

from estimating.design.boards import KeepOutArea, Layout, LayoutProblem, lay_boards
from estimating.design.boards.cutting_list import BoardCuts, LeftOver, SawCut, cutting_list
from estimating.layout_json import problem_from_json
from tests.estimating.boards.problems import LONG_BOARD, case, deck, keep_out


def _laid(problem: LayoutProblem) -> Layout:
    layout = lay_boards(problem)
    assert isinstance(layout, Layout)
    return layout


def _sawn(problem: LayoutProblem) -> tuple[BoardCuts, ...]:
    return cutting_list([(problem, _laid(problem))])


def test_a_board_that_fills_its_row_is_not_cut():
    problem = deck(2400, 600, centres_mm=400, first_joist_mm=0, board=LONG_BOARD)
    (board,) = _sawn(problem)
    assert (board.cuts, board.left_over) == ((), ())
    (piece,) = board.pieces
    assert (piece.factory_left, piece.factory_right, piece.keeps_groove, piece.keeps_tongue) == (True,) * 4


def test_the_last_row_is_ripped_to_width_and_keeps_its_groove():
    problem = deck(2400, 850, centres_mm=400, first_joist_mm=0, board=LONG_BOARD)
    ripped = _sawn(problem)[1]
    assert ripped.cuts == (SawCut("rip", 250, "groove edge", 2400, 600, (1,)),)
    assert ripped.pieces[0].keeps_groove
    assert not ripped.pieces[0].keeps_tongue
    assert ripped.left_over == (LeftOver(2400, 600 - 250 - 3, True),)


def test_two_halves_come_from_one_board_although_the_saw_takes_its_kerf():
    problem = deck(1200, 1200, centres_mm=400, first_joist_mm=0, board=LONG_BOARD)
    (board,) = _sawn(problem)
    assert [(cut.kind, cut.at_mm) for cut in board.cuts] == [("crosscut", 1200)]
    assert sorted(piece.length_mm for piece in board.pieces) == [1197, 1200]
    assert board.left_over == ()


def test_a_left_over_too_short_or_too_narrow_is_waste():
    problem = deck(2200, 1730, centres_mm=400, first_joist_mm=0, board=LONG_BOARD)
    left = [each for board in _sawn(problem) for each in board.left_over]
    assert LeftOver(197, 600, False) in left
    assert LeftOver(2200, 67, False) in left


@pytest.mark.parametrize(
    "in_the_way",
    [
        keep_out(1000, 500, 1500, 700),  # a hatch over a seam
        keep_out(1000, 200, 1047, 320),  # a strut amid the row
        KeepOutArea("flue", "flue", ((2000, 300), (2200, 100), (2400, 300))),  # slanted sides
    ],
)
def test_a_piece_that_must_be_cut_to_shape_is_marked(in_the_way):
    problem = deck(2400, 1200, centres_mm=400, first_joist_mm=0, board=LONG_BOARD, keep_outs=(in_the_way,))
    pieces = [piece for board in _sawn(problem) for piece in board.pieces]
    low, high = min(y for _, y in in_the_way.outline), max(y for _, y in in_the_way.outline)
    for piece in pieces:
        assert piece.notched is (piece.row * 600 < high and low < piece.row * 600 + 600)


@pytest.mark.parametrize("name", ["v05", "v07", "v12"])
def test_every_piece_is_cut_once_and_nothing_is_longer_than_its_board(name):
    problem = problem_from_json(case(name)["problem_data"])
    layout = _laid(problem)
    boards = cutting_list([(problem, layout)])
    numbers = [piece.number for board in boards for piece in board.pieces]
    assert sorted(numbers) == [piece.number for piece in layout.pieces]
    for board in boards:
        used = sum(piece.length_mm * piece.width_mm for piece in board.pieces)
        used += sum(left.length_mm * left.width_mm for left in board.left_over)
        whole = problem.product.cover_length_mm * problem.product.cover_width_mm
        sawdust = len(board.cuts) * problem.rules.kerf_mm * problem.product.cover_length_mm
        assert whole - sawdust <= used <= whole
        for cut in board.cuts:
            measured = cut.part_length_mm if cut.kind == "crosscut" else cut.part_width_mm
            assert 0 < cut.at_mm < measured


@pytest.mark.parametrize("name", ["v05", "v07", "v12"])
def test_a_crosscut_that_frees_one_piece_is_measured_at_that_pieces_length(name):
    problem = problem_from_json(case(name)["problem_data"])
    for board in _sawn(problem):
        for cut in board.cuts:
            if cut.kind == "crosscut" and cut.measured_from == "left end" and len(cut.kept) == 1:
                assert cut.at_mm == board.pieces[cut.kept[0] - 1].length_mm
