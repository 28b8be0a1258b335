"""Every pattern that a layout within a cost could have: enumeration by prices."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Iterator, Sequence

from estimating.design.boards.solving.certify import Prices
from estimating.design.boards.solving.patterns import Pattern
from estimating.design.boards.solving.places import Place
from estimating.design.boards.solving.run_classes import FULL, GROOVE, NEITHER, TONGUE


def all_patterns(
    pieces: Collection[Place], prices: Prices, boards: Sequence[tuple[int, int]], room_mm: int, most: int
) -> list[Pattern] | None:
    """List every pattern worth at least a limit that no longer or further piece could be added to.

    A pattern worth less cannot be part of a layout within the cost that the limits stand for.

    Args:
        pieces: Every piece that may be wanted. Collection of records. [mm]
        prices: The prices. Record. [-]
        boards: The capacity of each source, and what a board of it must be worth at least. Sequence. [mm]
        room_mm: What two strips side by side may be wide together. Scalar. [mm]
        most: How many patterns at most. Scalar. [-]

    Returns:
        The patterns, or None when there are more. List. [-]

    Source:
        Reduced costs in linear programming; enumeration.
    """
    longest = max(capacity for capacity, _ in boards)
    enumeration = _Enumeration(pieces, prices, longest)
    pairs = _widths_side_by_side(pieces, room_mm)
    found: dict[Pattern, None] = {}
    for source, (capacity, limit) in enumerate(boards):
        for full, left, earned in enumeration.crosscut(capacity, limit):
            for widths in pairs:
                for groove, in_groove in enumeration.strips(GROOVE, widths[0], left):
                    for tongue, in_tongue in enumeration.strips(TONGUE, widths[1], left):
                        over = left - max(sum(groove), sum(tongue))
                        enough = earned + in_groove + in_tongue >= limit
                        if enough and not _may_grow(full, enumeration.whole, over):
                            found[Pattern(source, full, groove, tongue, *widths)] = None
                        if len(found) > most:
                            return None
    return list(found)


class _Enumeration:
    """Fills lengths of board with pieces, leaving out early what is worth too little."""

    def __init__(self, pieces: Collection[Place], prices: Prices, longest: int) -> None:
        self._pieces = pieces
        self._worth, self._by_kind = prices.worth(longest), prices.by_kind(longest)
        self._strips: dict[tuple[int, int, int], list[tuple[tuple[int, ...], int]]] = {}
        self.whole = sorted({takes for kind, takes, _ in pieces if kind == FULL})

    def crosscut(self, capacity: int, limit: int) -> Iterator[tuple[tuple[int, ...], int, int]]:
        """Crosscut pieces, the capacity left for strips and what the pieces are worth."""
        items, prices, board = self.whole, self._by_kind[FULL], self._worth.board
        groove, tongue = self._worth.groove, self._worth.tongue
        waiting: list[tuple[int, int, int, tuple[int, ...]]] = [(len(items), capacity, 0, ())]
        while waiting:
            below, left, earned, pieces = waiting.pop()
            if earned + groove[left] + tongue[left] >= limit:
                yield pieces[::-1], left, earned
            for place in range(below):
                takes = items[place]
                if takes > left:
                    break
                worth = earned + prices[takes]
                if worth + board[left - takes] >= limit:
                    waiting.append((place + 1, left - takes, worth, (*pieces, takes)))

    def strips(self, kind: int, width: int, left: int) -> list[tuple[tuple[int, ...], int]]:
        """Every way to fill a strip that has no room for more, and what its pieces are worth."""
        key = (kind, width, left)
        if key not in self._strips:
            items = sorted(
                {takes for of, takes, wide in self._pieces if of in (kind, NEITHER) and wide <= width}
            )
            prices = self._by_kind[kind]
            self._strips[key] = [
                (lane, sum(prices[takes] for takes in lane)) for lane in _full_strips(items, left)
            ]
        return self._strips[key]


def _full_strips(items: Sequence[int], capacity: int) -> Iterator[tuple[int, ...]]:
    waiting: list[tuple[int, int, tuple[int, ...]]] = [(len(items), capacity, ())]
    while waiting:
        below, left, pieces = waiting.pop()
        if not _may_grow(pieces, items, left):
            yield pieces[::-1]
        for place in range(below):
            if items[place] > left:
                break
            waiting.append((place + 1, left - items[place], (*pieces, items[place])))


def _widths_side_by_side(pieces: Collection[Place], room_mm: int) -> list[tuple[int, int]]:
    """The widths of two strips of one board: of each pair, neither could be wider without a wider piece."""
    groove, tongue = (
        sorted({0} | {width for of, _, width in pieces if of in (kind, NEITHER)}) for kind in (GROOVE, TONGUE)
    )
    pairs = [(one, max(other for other in tongue if one + other <= room_mm or not one)) for one in groove]
    return [
        pair
        for pair in pairs
        if not any(other != pair and other[0] >= pair[0] and other[1] >= pair[1] for other in pairs)
    ]


def _may_grow(pieces: Sequence[int], items: Sequence[int], left: int) -> bool:
    """Whether there is room for another piece, or for a longer one in place of one."""
    if not items:
        return False
    if items[0] <= left:
        return True
    places = (bisect_right(items, takes) for takes in set(pieces))
    return any(at < len(items) and items[at] - items[at - 1] <= left for at in places)
