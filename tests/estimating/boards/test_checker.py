"""Our checker sees what is wrong with a layout, and so does the independent one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import accumulate

import pytest

from estimating.design.boards import Layout, NoLayout, Piece, lay_boards
from estimating.design.boards.checking.checker import deck_faults, faults
from estimating.design.boards.layout import LaidDeck, OpenedBoard
from estimating.design.boards.problem import DeckTask, source_of
from estimating.layout_json import layout_as_json, problem_from_json
from tests.estimating.boards.problems import LONG_BOARD, case, deck
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
    boards = max(piece.board for piece in layout.pieces)
    for piece in [piece for piece in layout.pieces if piece.row == 0]:
        boards += 1
        y0, y1 = piece.y0 + 600, piece.y1 + 600
        number = 1000 + piece.number
        rest.append(replace(piece, number=number, row=1, y0=y0, y1=y1, board=boards, board_x=0, board_y=0))
    return replace(layout, boards=boards, pieces=tuple(rest), opened=())


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
    spoilt = replace(layout, pieces=pieces, boards=1, opened=())
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


NEW = source_of(LONG_BOARD)
AT_HAND = replace(NEW, code="from the store", at_hand=1)
PLAIN = deck(4200, 600, first_joist_mm=0, board=LONG_BOARD)


def _row(*cut: tuple[int, int, int]) -> tuple[Piece, ...]:
    """Pieces of row 0 by length, board and where they begin in it."""
    lines = [0, *accumulate(length for length, _, _ in cut)]
    return tuple(
        Piece(n + 1, 0, lines[n], lines[n] + length, 0, 600, board, board_x, 0)
        for n, (length, board, board_x) in enumerate(cut)
    )


def _zone(*cut: tuple[int, int, int], opened: tuple[OpenedBoard, ...], boards: int) -> Layout:
    return Layout("a zone", boards, _row(*cut), (), opened)


def _bought(number: int) -> OpenedBoard:
    return OpenedBoard(number, NEW.code, 2400, True)


HELD = OpenedBoard(2, AT_HAND.code, 2400, False)
# the first zone takes a board at hand to finish; what is left of a bought board goes to the second zone
FIRST = _zone((2400, 2, 0), (1800, 1, 0), opened=(HELD, _bought(1)), boards=1)
SECOND = _zone((2400, 3, 0), (1794, 4, 0), opened=(_bought(3), _bought(4)), boards=2)


def _says(task: DeckTask, *zones: Layout | NoLayout, cost: int = 3) -> str:
    return "; ".join(fault.says for fault in deck_faults(task, LaidDeck(zones, cost, None)))


def test_zones_that_share_boards_are_checked_together():
    task = DeckTask((PLAIN, PLAIN), (NEW, AT_HAND))
    second = _zone((2400, 3, 0), (1800, 4, 0), opened=(_bought(3), _bought(4)), boards=2)
    assert _says(task, FIRST, second) == ""
    assert _says(task, NoLayout("a zone", None, "Why not."), second, cost=2) == ""
    shared = _zone((2400, 3, 0), (1800, 1, 0), opened=(_bought(3), _bought(1)), boards=1)
    assert "leave no room for the saw between them in board 1" in _says(task, FIRST, shared)
    assert "more than are bought" in _says(task, FIRST, replace(second, boards=1))
    assert "the boards cost 3" in _says(task, FIRST, second, cost=2)
    other = OpenedBoard(1, AT_HAND.code, 2400, False)
    renamed = _zone((2400, 3, 0), (600, 1, 1800), opened=(_bought(3), other), boards=1)
    assert "board 1 is not the same in two zones" in _says(task, FIRST, renamed)
    assert "board 4 is not among those opened" in _says(task, FIRST, replace(second, opened=(_bought(3),)))


def test_a_fault_names_its_zone():
    task = DeckTask((PLAIN, PLAIN), (NEW, AT_HAND))
    found = deck_faults(task, LaidDeck((FIRST, SECOND), 3, None))
    assert {(fault.rule, fault.zone) for fault in found} == {("cover", 1)}


def test_no_more_boards_are_taken_from_the_store_than_are_there():
    task = DeckTask((PLAIN, PLAIN), (NEW, AT_HAND))
    twice = replace(FIRST, opened=(HELD, replace(HELD, number=1)), boards=0)
    assert "2 boards are taken from 1 at hand" in _says(task, twice, SECOND)
    longer = replace(FIRST, opened=(HELD, replace(_bought(1), length_mm=3000)))
    assert "board 1 is not one that can be had" in _says(task, longer, SECOND)


def test_a_piece_longer_than_its_own_board_is_found_out():
    short = replace(AT_HAND, cover_length_mm=1797)
    task = DeckTask((PLAIN,), (NEW, short))
    opened = (_bought(1), OpenedBoard(2, short.code, 1797, False))
    assert "does not fit in board 2" in _says(
        task, _zone((2400, 1, 0), (1800, 2, 0), opened=opened, boards=1)
    )
    assert _says(task, _zone((2400, 1, 0), (1797, 2, 0), opened=opened, boards=1)) == ""


def test_an_offcut_has_no_factory_end_to_meet_on():
    rules = replace(PLAIN.rules, end_joint="tg")
    opened = (_bought(1), HELD)
    layout = _zone((2400, 1, 0), (1800, 2, 0), opened=opened, boards=1)
    zones = (replace(PLAIN, rules=rules),)
    assert _says(DeckTask(zones, (NEW, AT_HAND)), layout) == ""
    assert "meet with a cut end" in _says(DeckTask(zones, (NEW, replace(AT_HAND, cut=True))), layout)
