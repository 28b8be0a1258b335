"""What lengths of board are worth when no prices are known."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from estimating.design.boards.solving.worth import BoardWorth


def worth_by_length(takes: Iterable[int], capacity: int) -> tuple[BoardWorth, int]:
    """Say what lengths of board are worth when no prices are known: the most of them that pieces can use.

    A fifth is taken off, because an offcut kept may never be wanted; otherwise offcuts would be hoarded and
    new boards bought beside them. A strip is worth a quarter of its length.

    Args:
        takes: What pieces take. Iterable. [mm]
        capacity: What a new board has. Scalar. [mm]

    Returns:
        The worths, and what a new board costs in them. Pair. [mm]

    Source:
        Own rule, tried on some eighty decks.
    """
    fits, within = 1, (1 << (capacity + 1)) - 1
    for take in sorted(set(takes)):
        before = 0
        while fits != before:
            before, fits = fits, (fits | fits << take) & within
    used = [length for length in range(capacity + 1) if fits >> length & 1]
    worth: list[int] = []
    for length, following in pairwise((*used, capacity + 1)):
        worth += [length * 4 // 5] * (following - length)
    strips = [length // 4 for length in range(capacity + 1)]
    return BoardWorth(worth, strips, strips, worth), capacity
