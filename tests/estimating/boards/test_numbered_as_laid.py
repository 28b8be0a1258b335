"""Boards are numbered in the order the crew opens them, through all zones."""

from __future__ import annotations

from estimating.design.boards.layout import LaidDeck, Layout, NoLayout, OpenedBoard, Piece
from estimating.design.boards.numbered_as_laid import numbered_as_laid


def piece(number: int, board: int) -> Piece:
    return Piece(number, 0, number * 100, number * 100 + 100, 0, 600, board, 0, 0)


def board(number: int, *, bought: bool = True) -> OpenedBoard:
    return OpenedBoard(number, "B", 2400, bought)


def two_zones() -> LaidDeck:
    """Board 2 is opened in the first zone and finished in the second; board 4 was at hand."""
    first = Layout("A", 2, (piece(1, 1), piece(2, 2)), (), (board(1), board(2)))
    second = Layout(
        "B", 1, (piece(1, 3), piece(2, 4), piece(3, 2)), (), (board(2), board(3), board(4, bought=False))
    )
    return LaidDeck((first, second), 3, None)


def test_the_board_laid_first_is_board_1() -> None:
    found = numbered_as_laid(two_zones(), [(2, 1), (3, 1, 2)], [1, 0])
    assert [[each.board for each in zone.pieces] for zone in found.zones] == [[4, 1], [2, 3, 1]]  # type: ignore[union-attr]


def test_a_shared_board_counts_once_for_the_zone_that_is_laid_first() -> None:
    found = numbered_as_laid(two_zones(), [(2, 1), (3, 1, 2)], [1, 0])
    assert [zone.boards for zone in found.zones] == [1, 2]  # type: ignore[union-attr]
    assert found.boards == two_zones().boards


def test_each_zone_lists_the_boards_its_pieces_come_from_by_rising_number() -> None:
    found = numbered_as_laid(two_zones(), [(2, 1), (3, 1, 2)], [1, 0])
    assert [[(each.number, each.bought) for each in zone.opened] for zone in found.zones] == [  # type: ignore[union-attr]
        [(1, True), (4, True)],
        [(1, True), (2, True), (3, False)],
    ]


def test_a_zone_without_boards_is_left_as_it_is() -> None:
    nothing = NoLayout("C", None, "Row 1 cannot be boarded.")
    found = numbered_as_laid(LaidDeck((nothing,), 0, None), [()], [0])
    assert found.zones == (nothing,)
