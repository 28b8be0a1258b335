"""A free end further than the greatest overhang from its joist gets an edge bearer; a joint never does."""

from __future__ import annotations

from estimating.design.boards import Layout, LayoutProblem, lay_boards
from estimating.design.boards.bearers import EdgeBearer, edge_bearers
from tests.estimating.boards.problems import LONG_BOARD, deck


def _bearers(problem: LayoutProblem) -> tuple[EdgeBearer, ...]:
    layout = lay_boards(problem)
    assert isinstance(layout, Layout)
    return edge_bearers(problem, layout)


def test_edges_on_their_joists_need_none():
    assert _bearers(deck(6040, 1200, board=LONG_BOARD)) == ()


def test_an_edge_far_past_its_last_joist_needs_one_in_every_row():
    problem = deck(6320, 1200, board=LONG_BOARD)
    bearers = _bearers(problem)
    found = [(bearer.y0, bearer.y1, bearer.levers_on) for bearer in bearers]
    assert found == [(0, 600, 6020), (600, 1200, 6020)]
    # a piece cut from half a board ends a saw's width short of the edge
    assert all(0 <= 6320 - bearer.x <= problem.rules.gap_tolerance_mm for bearer in bearers)


def test_an_edge_within_the_overhang_needs_none():
    assert _bearers(deck(6170, 1200, board=LONG_BOARD)) == ()
    assert _bearers(deck(6180, 1200, first_joist_mm=150, board=LONG_BOARD)) == ()
