"""Our checker sees what is wrong with a layout, and so does the independent one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from estimating.design.boards import Layout, Piece, lay_boards
from estimating.design.boards.checking.checker import faults
from estimating.layout_json import layout_as_json, problem_from_json
from tests.estimating.boards.problems import case
from tests.published.layout_validator import validate


@pytest.fixture(scope="module")
def laid():
    layout = lay_boards(problem_from_json(case("v02")["problem_data"]))
    assert isinstance(layout, Layout)
    return layout


def _with(layout: Layout, changed: int, /, **changes: int) -> Layout:
    pieces = (replace(p, **changes) if p.number == changed else p for p in layout.pieces)
    return replace(layout, pieces=tuple(pieces))


def _without(layout: Layout, number: int) -> Layout:
    return replace(layout, pieces=tuple(p for p in layout.pieces if p.number != number))


def _ends_of(layout: Layout) -> tuple[Piece, Piece]:
    """Two pieces that meet in row 0."""
    first, second, *_ = (piece for piece in layout.pieces if piece.row == 0)
    return first, second


def _joint_off_its_joist(layout: Layout) -> Layout:
    first, second = _ends_of(layout)
    moved = _with(layout, first.number, x1=first.x1 + 50)
    return _with(moved, second.number, x0=second.x0 + 50)


def _sliver(layout: Layout) -> Layout:
    first, second = _ends_of(layout)
    moved = _with(layout, first.number, x1=first.x0 + 48)
    return _with(moved, second.number, x0=first.x0 + 48)


def _last_row_turned(layout: Layout) -> Layout:
    last = layout.pieces[-1]
    return _with(layout, last.number, board_y=600 - last.width_mm)


def _same_place_twice(layout: Layout) -> Layout:
    first, _ = _ends_of(layout)
    return _with(layout, first.number, board=next(p.board for p in layout.pieces if p.board != first.board))


def _row_copied_from_below(layout: Layout) -> Layout:
    """Row 1 laid exactly as row 0, each piece from a board of its own."""
    rest = [piece for piece in layout.pieces if piece.row != 1]
    boards = layout.boards
    for piece in [piece for piece in layout.pieces if piece.row == 0]:
        boards += 1
        y0, y1 = piece.y0 + 600, piece.y1 + 600
        number = 1000 + piece.number
        rest.append(replace(piece, number=number, row=1, y0=y0, y1=y1, board=boards, board_x=0, board_y=0))
    return replace(layout, boards=boards, pieces=tuple(rest))


SPOILT: list[tuple[str, str, Callable[[Layout], Layout]]] = [
    ("cover", "COVER", lambda layout: _without(layout, layout.pieces[3].number)),
    ("cover", "COVER", lambda layout: _with(layout, 1, x1=layout.pieces[0].x1 - 4)),
    ("joint", "JOINT", _joint_off_its_joist),
    ("short", "SHORT", _sliver),
    ("row", "ROW", lambda layout: _with(layout, 1, y0=-10)),
    ("row", "ROW", lambda layout: _with(layout, layout.pieces[-1].number, x1=layout.pieces[-1].x1 + 20)),
    ("edge", "EDGE", _last_row_turned),
    ("board", "BOARD", _same_place_twice),
    ("board", "BOARD", lambda layout: _with(layout, 1, board_x=2000)),
    ("numbers", "COUNT", lambda layout: replace(layout, boards=layout.boards - 1)),
    ("numbers", "FORMAT", lambda layout: _with(layout, 2, number=1)),
    ("stagger", "STAGGER", _row_copied_from_below),
]


@pytest.mark.parametrize(("rule", "code", "spoil"), SPOILT)
def test_a_spoilt_layout_is_found_out_by_both_checkers(laid, rule, code, spoil):
    data = case("v02")["problem_data"]
    spoilt = spoil(laid)
    assert rule in {fault.rule for fault in faults(problem_from_json(data), spoilt)}
    assert code in {error["code"] for error in validate(data, layout_as_json(spoilt))["errors"]}


def test_pieces_that_cannot_be_sawn_apart_are_found_out():
    data = case("v02")["problem_data"]
    problem = problem_from_json(data)
    layout = lay_boards(problem)
    assert isinstance(layout, Layout)
    # four pieces around a pinwheel: none of the straight cuts goes through
    wheel = [(0, 0, 1500, 200), (1503, 0, 2400, 397), (900, 400, 2400, 600), (0, 203, 897, 600)]
    pieces = tuple(
        Piece(number, 0, x0, x1, y0, y1, 1, x0, y0) for number, (x0, y0, x1, y1) in enumerate(wheel, start=1)
    )
    spoilt = replace(layout, pieces=pieces, boards=1)
    assert any("straight cuts" in fault.says for fault in faults(problem, spoilt))


def test_a_cut_end_at_a_joint_is_a_fault_when_only_factory_ends_may_meet(laid):
    data = case("v02")["problem_data"]
    problem = problem_from_json({**data, "rules": {**data["rules"], "end_joint": "tg"}})
    assert "factory end" in {fault.rule for fault in faults(problem, laid)}


def test_a_piece_on_too_few_joists_is_a_fault(laid):
    data = case("v02")["problem_data"]
    problem = problem_from_json({**data, "rules": {**data["rules"], "min_supports": 4}})
    assert "supports" in {fault.rule for fault in faults(problem, laid)}


def test_a_piece_inside_the_hatch_covers_no_deck(laid):
    problem = problem_from_json(case("v02")["problem_data"])
    stray = Piece(999, 5, 4900, 5300, 3000, 3500, 1, 0, 0)
    found = faults(problem, replace(laid, pieces=(*laid.pieces, stray)))
    assert "useless" in {fault.rule for fault in found}
