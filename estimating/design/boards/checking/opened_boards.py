"""The checker's look at the boards of a whole deck: are they to be had, and is each counted once?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from estimating.design.boards.checking.fault import Fault
from estimating.design.boards.layout import Layout, OpenedBoard
from estimating.design.boards.problem import BoardSource, DeckTask


class BoardInHand(NamedTuple):
    """A board about to be cut: how long it is and whether its ends are still the factory's."""

    length_mm: int
    factory_ends: bool


def boards_in_hand(task: DeckTask, zones: Sequence[Layout]) -> Mapping[int, BoardInHand]:
    """Give every opened board by its number in the deck.

    Args:
        task: The zones and the boards to cut from. Record. [mm]
        zones: The zones that are laid. Sequence of records. [mm]

    Returns:
        The boards by number. Mapping. [mm]

    Source:
        Own definition.
    """
    cut = {_kind(source) for source in task.sources if source.cut}
    return {
        board.number: BoardInHand(board.length_mm, _opened_kind(board) not in cut)
        for zone in zones
        for board in zone.opened
    }


def opened_board_faults(task: DeckTask, zones: Sequence[Layout], cost: int) -> Iterator[Fault]:
    """Check that every opened board can be had, is the same in every zone, and is paid for.

    Args:
        task: The zones and the boards to cut from. Record. [mm]
        zones: The zones that are laid. Sequence of records. [mm]
        cost: What the deck is said to cost: boards where one length is on sale, else pence. Scalar. [-]

    Returns:
        The faults. Iterator of records. [-]

    Source:
        Arithmetic.
    """
    opened: dict[int, OpenedBoard] = {}
    for zone in zones:
        for board in zone.opened:
            if opened.setdefault(board.number, board) != board:
                yield Fault("numbers", (), f"board {board.number} is not the same in two zones")
    on_sale = {_kind(source): source.price_pence for source in task.sources if source.at_hand is None}
    at_hand = {_kind(source): source.at_hand for source in task.sources if source.at_hand is not None}
    for board in opened.values():
        if _opened_kind(board) not in (on_sale if board.bought else at_hand):
            yield Fault("numbers", (), f"board {board.number} is not one that can be had")
    taken = Counter(_opened_kind(board) for board in opened.values() if not board.bought)
    for kind, most in at_hand.items():
        if taken[kind] > most:
            yield Fault("numbers", (), f"{taken[kind]} boards are taken from {most} at hand of {kind.code}")
    bought = [board for board in opened.values() if board.bought]
    if sum(zone.boards for zone in zones) < len(bought):
        yield Fault("numbers", (), f"{len(bought)} boards are cut, more than are bought")
    least = sum(1 if len(on_sale) == 1 else on_sale.get(_opened_kind(board), 0) for board in bought)
    if cost < least:
        yield Fault("numbers", (), f"the boards cost {least}, more than is said")


class _Kind(NamedTuple):
    code: str
    length_mm: int


def _kind(source: BoardSource) -> _Kind:
    return _Kind(source.code, source.cover_length_mm)


def _opened_kind(board: OpenedBoard) -> _Kind:
    return _Kind(board.code, board.length_mm)
