"""A cure of a deck that cannot be boarded is a change after which it was boarded, and the least there is."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from estimating.design.boards import BoardProduct, Layout, LayoutProblem, NoLayout, lay_boards
from estimating.design.boards.changes import FURTHEST_MM
from estimating.design.boards.checking.checker import faults
from estimating.design.boards.cures import changed, with_cures
from estimating.design.boards.edges import edges_of, with_edge_moved
from estimating.design.boards.lay import Effort
from estimating.layout_json import problem_from_json
from tests.estimating.boards.problems import LONG_BOARD, any_problem, case, deck, keep_out


def refused(problem: LayoutProblem) -> NoLayout:
    answer = lay_boards(problem, Effort.FIRST)
    assert isinstance(answer, NoLayout)
    return answer


def cured(problem: LayoutProblem, *boards: BoardProduct) -> NoLayout:
    return with_cures(problem, refused(problem), others=[replace(problem, product=board) for board in boards])


@pytest.fixture(scope="module")
def published_case() -> LayoutProblem:
    """The published case without a layout: 1220 mm boards on 600 mm centres, between two tanks."""
    return problem_from_json(case("v14")["problem_data"])


def test_a_published_deck_is_cured_by_another_row_start_an_edge_or_another_board(published_case):
    found = cured(published_case, LONG_BOARD)
    start, edge, board = found.cures
    assert start.row_origin_mm is not None
    assert (edge.moves[0].edge, edge.moves[0].outward_mm) == ("front edge", -150)
    assert board.board_code == LONG_BOARD.code
    assert f"It can be laid with {start.words} ({start.boards} boards); or with the front edge" in found.why
    assert found.stagger_breaks == case("v14")["expect"]["fewest_stagger_breaks"]


def test_the_advice_to_move_an_edge_gives_way_to_the_edge_to_move():
    problem = deck(2002, 640, first_joist_mm=245)
    assert "Move an edge of the deck or choose another board." in refused(problem).why
    found = cured(problem)
    assert "Move an edge" not in found.why
    assert ". It can be laid with the left-hand edge moved out by 55 mm (" in found.why


def test_no_nearer_move_of_an_end_edge_would_do():
    problem = deck(4306, 640, first_joist_mm=136)
    (cure,) = cured(problem).cures
    (move,) = cure.moves
    for nearer in range(1, abs(move.outward_mm)):
        for edge in (edge for edge in edges_of(problem.outline) if edge.is_end):
            for outward in (nearer, -nearer):
                outline = with_edge_moved(problem.outline, edge, outward)
                assert outline is not None
                assert isinstance(
                    lay_boards(replace(problem, outline=outline, row_origin_mm=0), Effort.FIRST), NoLayout
                )


def test_an_edge_that_comes_to_lie_on_a_joist_says_on_which():
    # beside the chimney a piece has one joist under it, and 40 mm further out it would have two
    chimney = keep_out(2000, 0, 2700, 640)
    problem = deck(2860, 640, centres_mm=400, first_joist_mm=0, board=LONG_BOARD, keep_outs=(chimney,))
    problem = replace(problem, joist_lines=(*problem.joist_lines, 2900))
    found = cured(problem)
    assert found.stagger_breaks is None
    assert found.cures[0].words == "the right-hand edge moved out by 40 mm onto the joist at 2900 mm"


def test_a_strip_that_no_piece_can_cover_is_cured_by_the_edge_drawn_back_to_the_chimney():
    chimney = keep_out(2000, 0, 2880, 640)
    problem = deck(3000, 640, centres_mm=400, first_joist_mm=200, board=LONG_BOARD, keep_outs=(chimney,))
    assert cured(problem).cures[0].words == "the right-hand edge moved in by 120 mm"


def test_two_edges_move_together_where_one_is_not_enough():
    problem = deck(2562, 640, first_joist_mm=130)
    (cure,) = cured(problem).cures
    assert cure.words == "the right-hand edge moved in by 9 mm and the left-hand edge moved in by 107 mm"
    for move in cure.moves:
        alone = changed(problem, replace(cure, moves=(move,)))
        assert alone is not None
        assert isinstance(lay_boards(alone, Effort.FIRST), NoLayout)


def test_another_board_is_no_cure_unless_it_can_be_laid(published_case):
    alike = replace(published_case.product, code="thicker", thickness_mm=22)
    too_short = BoardProduct(code="short", cover_length_mm=500, cover_width_mm=320, thickness_mm=22)
    assert not any(cure.board_code for cure in cured(published_case, alike, too_short).cures)


def test_where_nothing_cures_another_board_is_advised():
    found = cured(deck(3000, 960, centres_mm=1300, first_joist_mm=50))
    assert found.cures == ()
    assert found.why.endswith("No cure was found in edges moved by up to 150 mm: choose another board.")


def test_the_same_deck_gets_the_same_cures(published_case):
    assert cured(published_case) == cured(published_case)


@settings(max_examples=20, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
@given(any_problem())
def test_a_cure_always_lays_the_deck_and_moves_nothing_too_far(data):
    problem = problem_from_json(data)
    answer = lay_boards(problem, Effort.FIRST)
    if isinstance(answer, Layout):
        return
    for cure in with_cures(problem, answer, others=[replace(problem, product=LONG_BOARD)]).cures:
        board = LONG_BOARD if cure.board_code else problem.product
        after = changed(replace(problem, product=board), cure)
        assert after is not None
        layout = lay_boards(after, Effort.FIRST)
        assert isinstance(layout, Layout)
        assert layout.boards == cure.boards
        assert faults(after, layout) == ()
        assert all(0 < abs(move.outward_mm) <= FURTHEST_MM for move in cure.moves)
        assert cure.words
