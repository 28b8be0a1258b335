"""What the firm has at hand is used first, and is not bought again."""

from __future__ import annotations

from collections import Counter

import pytest

from estimating.choices import RaiseWith
from estimating.design.boards.checking.checker import deck_faults
from estimating.design.boards.layout import LaidDeck
from estimating.design.boards.problem import DeckTask
from estimating.design.deck import first_layout
from estimating.estimate import Estimate, estimate
from estimating.refusals import Refusal
from estimating.stored_boards import StoredBoards
from estimating.ways_to_board import alike_boards, sources_of, ways_to_board
from tests.estimating.lofts import bungalow_loft, choices, price_book, trussed_loft
from tests.estimating.test_alternatives import SHORT, board

STORE = (
    StoredBoards(board_code="B22", length_mm=2400, count=2),
    StoredBoards(board_code="B22", length_mm=1830, count=1, cut=True),
    StoredBoards(board_code="B18N", length_mm=1220, count=40),
)


class Remembering:
    """Lays like the first layout, and remembers what came of it."""

    def __init__(self) -> None:
        self.laid: list[tuple[DeckTask, LaidDeck]] = []

    def __call__(self, task: DeckTask) -> LaidDeck:
        self.laid.append((task, first_layout(task)))
        return self.laid[-1][1]


def worked(store: tuple[StoredBoards, ...], **changes: object) -> Estimate:
    return estimate(trussed_loft(), price_book(), choices(board_code="B22", store=store, **changes))


def boards_bought(result: Estimate) -> int:
    return sum(int(each.needed.value) for each in result.quantities.purchases if each.role == "board")


@pytest.mark.parametrize("raise_with", RaiseWith)
def test_boards_at_hand_are_used_before_any_is_bought(raise_with: RaiseWith) -> None:
    without, with_them = worked((), raise_with=raise_with), worked(STORE, raise_with=raise_with)
    assert without.quantities.from_store == ()
    taken = {(each.board_code, each.length_mm): each.count for each in with_them.quantities.from_store}
    assert taken["B22", 2400] == 2
    assert boards_bought(with_them) <= boards_bought(without) - 2
    assert with_them.price.cost.value < without.price.cost.value


def test_what_is_taken_is_what_the_cutting_list_cuts_and_is_not_bought() -> None:
    result = worked(STORE)
    cut = Counter(each.length_mm for each in result.design.cuts if not each.bought)
    assert {each.length_mm: each.count for each in result.quantities.from_store} == cut
    assert boards_bought(result) == sum(each.bought for each in result.design.cuts)


def test_no_more_is_taken_than_is_there() -> None:
    for each in worked(STORE).quantities.from_store:
        assert each.count <= sum(
            held.count
            for held in STORE
            if (held.board_code, held.length_mm) == (each.board_code, each.length_mm)
        )


def test_layouts_from_the_store_keep_every_laying_rule() -> None:
    lay = Remembering()
    estimate(bungalow_loft(), price_book(), choices(store=STORE), lay=lay)
    assert any(source.at_hand for task, _ in lay.laid for source in task.sources)
    assert [deck_faults(task, laid) for task, laid in lay.laid] == [()] * len(lay.laid)


def test_no_piece_of_a_cut_offcut_has_a_factory_end() -> None:
    offcuts = (StoredBoards(board_code="B22", length_mm=1830, count=4, cut=True),)
    pieces = [piece for each in worked(offcuts).design.cuts if not each.bought for piece in each.pieces]
    assert pieces
    assert not any(piece.factory_left or piece.factory_right for piece in pieces)


def test_only_boards_that_differ_in_length_alone_serve_a_way() -> None:
    boards = (board("B22"), SHORT, board("B18N"))
    store = (
        *STORE,
        StoredBoards(board_code="B22S", length_mm=1200, count=3),
        StoredBoards(board_code="gone", length_mm=900, count=1),
    )
    ways = {way.codes: way for way in ways_to_board(alike_boards(boards))}
    at_hand = {
        codes: [
            (each.code, each.cover_length_mm, each.at_hand)
            for each in sources_of(way, boards, store)
            if each.at_hand
        ]
        for codes, way in ways.items()
    }
    assert at_hand == {
        ("B22",): [("B22", 1830, 1), ("B22", 2400, 2), ("B22S", 1200, 3)],
        ("B22S",): [("B22S", 1200, 3)],  # a board longer than those on sale stays where it is
        ("B18N",): [("B18N", 1220, 40)],
        ("B22", "B22S"): [("B22", 1830, 1), ("B22", 2400, 2), ("B22S", 1200, 3)],
    }


def test_boards_of_one_length_count_as_cut_if_any_is() -> None:
    (way,) = ways_to_board(alike_boards((board("B22"),)))
    store = tuple(StoredBoards(board_code="B22", length_mm=1200, count=1, cut=cut) for cut in (True, False))
    (found,) = (each for each in sources_of(way, (board("B22"),), store) if each.at_hand)
    assert (found.at_hand, found.cut) == (2, True)


def test_what_cannot_be_in_a_store_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        StoredBoards(board_code=" ", length_mm=299, count=0)
    assert {each.field for each in refused.value.each} == {"board_code", "length_mm", "count"}
