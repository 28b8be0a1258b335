"""The ways a deck might be boarded: each board of the price book, and two lengths of one board together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, fields, replace
from itertools import combinations

from estimating.design.boards.problem import BoardSource
from estimating.price_book import Board, Product
from estimating.stored_boards import StoredBoards

_HOW_IT_IS_SOLD = frozenset(each.name for each in fields(Product))


@dataclass(frozen=True, slots=True)
class AlikeBoards:
    """Products that are the same board and differ only in how they are sold, in the order of the book."""

    products: tuple[Board, ...]

    @property
    def board(self) -> Board:
        return self.products[0]

    @property
    def source(self) -> BoardSource:
        """Boards on sale, at the price of one in the cheapest pack."""
        cheapest = min(each.pack_cost / each.pack_size for each in self.products)
        return BoardSource(
            code=self.board.code,
            cover_length_mm=self.board.cover_length_mm,
            price_pence=int(cheapest * 100),
        )


@dataclass(frozen=True, slots=True)
class WayToBoard:
    """One way: boards of one width and thickness, the longest first, on all joists or on fewer."""

    alike: tuple[AlikeBoards, ...]
    joists_left_out: int = 0

    @property
    def board(self) -> Board:
        """The longest board, with the centres that all of them allow."""
        allowed = min(each.board.max_joist_centres_mm for each in self.alike)
        return replace(self.alike[0].board, max_joist_centres_mm=allowed)

    @property
    def codes(self) -> tuple[str, ...]:
        return tuple(each.board.code for each in self.alike)

    @property
    def is_mixed(self) -> bool:
        return len(self.alike) > 1

    @property
    def description(self) -> str:
        return " with ".join(each.board.description for each in self.alike)


def alike_boards(boards: Iterable[Board]) -> tuple[AlikeBoards, ...]:
    """Take together the products that are one board in packs of different sizes or from different suppliers.

    Args:
        boards: The boards of the price book. Sequence. [-]

    Returns:
        The boards, in the order of the book. Tuple of records. [-]

    Source:
        Own definition.
    """
    found: dict[tuple[object, ...], list[Board]] = {}
    for board in boards:
        found.setdefault(_what_it_is(board), []).append(board)
    return tuple(AlikeBoards(tuple(products)) for products in found.values())


def ways_to_board(boards: Sequence[AlikeBoards]) -> Iterator[WayToBoard]:
    """List the ways: each board by itself, then each two that differ in length alone.

    Two lengths cut from together waste less than either; three would hardly save more and take as long to
    look at as all the others.

    Args:
        boards: The boards that may be used. Sequence. [-]

    Returns:
        The ways. Iterator of records. [-]

    Source:
        Common practice, no source.
    """
    yield from (WayToBoard((each,)) for each in boards)
    for pair in combinations(boards, 2):
        one, other = (each.board for each in pair)
        if _but_for_length(one) == _but_for_length(other):
            yield WayToBoard(tuple(sorted(pair, key=lambda each: -each.board.cover_length_mm)))


def sources_of(
    way: WayToBoard, boards: Iterable[Board], store: Iterable[StoredBoards]
) -> tuple[BoardSource, ...]:
    """List what a way is cut from: its boards on sale, and what is at hand and differs in length alone.

    What is at hand costs nothing, so that it is used first. A code that the price book no longer holds says
    nothing about width and profile, so such boards stay in the store. Where some of one length are cut, all
    are taken to be, because a cutting list cannot say which is meant.

    Args:
        way: The way. Record. [mm]
        boards: The boards of the price book. Sequence. [mm]
        store: What is at hand. Sequence. [mm]

    Returns:
        The sources, those on sale first. Tuple of records. [mm]

    Source:
        Own definition.
    """
    serve = {board.code for board in boards if _but_for_length(board) == _but_for_length(way.board)}
    alike: dict[tuple[str, int], list[StoredBoards]] = {}
    for each in store:
        if each.board_code in serve and each.length_mm <= way.board.cover_length_mm:
            alike.setdefault((each.board_code, each.length_mm), []).append(each)
    at_hand = (
        BoardSource(
            code=code,
            cover_length_mm=length,
            price_pence=0,
            at_hand=sum(each.count for each in found),
            cut=any(each.cut for each in found),
        )
        for (code, length), found in sorted(alike.items())
    )
    return (*(each.source for each in way.alike), *at_hand)


def _what_it_is(board: Board) -> tuple[object, ...]:
    return tuple(getattr(board, each.name) for each in fields(board) if each.name not in _HOW_IT_IS_SOLD)


def _but_for_length(board: Board) -> tuple[object, ...]:
    """Two lengths may allow different centres; together they then allow the lesser."""
    return _what_it_is(replace(board, cover_length_mm=1, max_joist_centres_mm=1))
