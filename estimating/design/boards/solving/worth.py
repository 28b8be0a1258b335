"""What lengths of board are worth at given prices of pieces: knapsacks as rising steps.

Lengths are counted as capacity: a board has its length plus one kerf, a piece takes its least length plus one
kerf, so pieces fit one board exactly when what they take adds up to no more than the board has.
"""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heapify, heappop, heappush
from itertools import pairwise
from typing import NamedTuple

Price = tuple[int, int]  # pieces that take at least so much are worth so much


class Rise(NamedTuple):
    """A capacity from which on a length is worth more, the piece that makes it so and the rise before it."""

    capacity: int
    worth: int
    piece: int
    before: int


def rises(prices: Sequence[Price], capacity: int) -> tuple[Rise, ...]:
    """Give the greatest worth of any pieces that fit, for every capacity, where it rises.

    Args:
        prices: Pieces by what they take, each with its whole-number price. Sequence. [mm]
        capacity: The longest length. Scalar. [mm]

    Returns:
        The rises, the first at 0. Tuple of records. [mm]

    Source:
        Unbounded knapsack by dynamic programming over undominated sums.
    """
    best: dict[int, int] = {}
    for takes, price in prices:
        if price > 0 and takes <= capacity:
            best[takes] = max(best.get(takes, 0), price)
    kept: list[Price] = []
    for takes, price in sorted(best.items()):
        if not kept or price > kept[-1][1]:
            kept.append((takes, price))
    found = [Rise(0, 0, 0, 0)]
    waiting = [(takes, -price, takes, 0) for takes, price in kept]
    heapify(waiting)
    useful: list[Price] = []  # a piece that others together match is never needed
    while waiting:
        at, owed, takes, before = heappop(waiting)
        if -owed <= found[-1].worth:
            continue
        if before == 0:
            useful.append((takes, -owed))
            for number in range(1, len(found)):
                _push(waiting, found, number, useful[-1], capacity)
        found.append(Rise(at, -owed, takes, before))
        for piece in useful:
            _push(waiting, found, len(found) - 1, piece, capacity)
    return tuple(found)


def _push(
    waiting: list[tuple[int, int, int, int]], found: Sequence[Rise], number: int, piece: Price, capacity: int
) -> None:
    takes, price = piece
    rise = found[number]
    if rise.capacity + takes <= capacity:
        heappush(waiting, (rise.capacity + takes, -(rise.worth + price), takes, number))


def by_capacity(steps: Sequence[Rise], capacity: int) -> list[int]:
    """Write rises out as the worth of every capacity from 0 on.

    Args:
        steps: The rises. Sequence. [mm]
        capacity: The longest length. Scalar. [mm]

    Returns:
        Worth by capacity. List. [-]

    Source:
        Own definition.
    """
    worth: list[int] = []
    for rise, following in pairwise(steps):
        worth += [rise.worth] * (following.capacity - rise.capacity)
    return worth + [steps[-1].worth] * (capacity + 1 - len(worth))


def pieces_of(steps: Sequence[Rise], number: int) -> list[int]:
    """List what the pieces of one rise take, longest last found first.

    Args:
        steps: The rises. Sequence. [mm]
        number: Which rise. Scalar. [-]

    Returns:
        What each piece takes. List. [mm]

    Source:
        Own definition.
    """
    pieces: list[int] = []
    while number:
        pieces.append(steps[number].piece)
        number = steps[number].before
    return pieces


class BoardWorth(NamedTuple):
    """Worth by capacity of lengths of board: whole width, and strips that keep one long edge.

    `board` is that of a full-width length which may be crosscut first and the rest ripped into two strips.
    """

    full: list[int]
    groove: list[int]
    tongue: list[int]
    board: list[int]


def board_worth(
    full: Sequence[Price], groove: Sequence[Price], tongue: Sequence[Price], capacity: int
) -> BoardWorth:
    """Give the worth of every length of board at given prices.

    Args:
        full: Prices of full-width pieces. Sequence. [mm]
        groove: Prices of ripped pieces that keep the groove. Sequence. [mm]
        tongue: Prices of ripped pieces that keep the tongue. Sequence. [mm]
        capacity: The longest board. Scalar. [mm]

    Returns:
        Worth by capacity. Record. [-]

    Source:
        A board is crosscut pieces, then perhaps a rest ripped once: straight full cuts, common practice, no
        source.
    """
    whole, grooved, tongued = rises(full, capacity), rises(groove, capacity), rises(tongue, capacity)
    by_full = by_capacity(whole, capacity)
    by_groove, by_tongue = by_capacity(grooved, capacity), by_capacity(tongued, capacity)
    board = by_full
    if len(grooved) > 1 or len(tongued) > 1:
        board = list(by_full)
        lanes = sorted({rise.capacity for rise in (*grooved, *tongued)} - {0})
        for lane in lanes:
            gain = by_groove[lane] + by_tongue[lane]
            board[lane:] = [
                known if known > whole + gain else whole + gain
                for known, whole in zip(board[lane:], by_full, strict=False)
            ]
    return BoardWorth(by_full, by_groove, by_tongue, board)
