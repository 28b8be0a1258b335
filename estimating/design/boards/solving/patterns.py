"""Patterns: ways to cut one board, as columns of a programme."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Iterator, Sequence
from typing import NamedTuple

from estimating.design.boards.solving.certify import Prices
from estimating.design.boards.solving.run_classes import FULL, GROOVE, NEITHER, TONGUE
from estimating.design.boards.solving.worth import Rise, pieces_of, rises

ANY_WIDTH = 1_000_000


class Place(NamedTuple):
    """Room for a piece: which edge it keeps, what it takes and how wide it may be (a full one has no say)."""

    kind: int
    takes: int
    width: int


class Pattern(NamedTuple):
    """The pieces of one board by what they take: crosscut ones, and two strips of the rest, so and so wide.

    Patterns met while pricing do not know widths; their strips serve pieces of any.
    """

    source: int
    full: tuple[int, ...]
    groove: tuple[int, ...] = ()
    tongue: tuple[int, ...] = ()
    groove_width: int = ANY_WIDTH
    tongue_width: int = ANY_WIDTH

    def places(self) -> Iterator[Place]:
        """Room for each piece."""
        yield from (Place(FULL, takes, 0) for takes in self.full)
        yield from (Place(GROOVE, takes, self.groove_width) for takes in self.groove)
        yield from (Place(TONGUE, takes, self.tongue_width) for takes in self.tongue)


def first_patterns(items: Sequence[Sequence[int]], capacities: Sequence[int]) -> list[Pattern]:
    """Give patterns of one piece each, as often as it fits, so that every piece can be cut.

    Args:
        items: What pieces take, for each kind, rising. Sequence of sequences. [mm]
        capacities: The capacity of each source. Sequence. [mm]

    Returns:
        The patterns. List. [-]

    Source:
        Own definition.
    """
    found = []
    for source, capacity in enumerate(capacities):
        for kind in range(3):
            for takes in items[kind]:
                if takes <= capacity:
                    found.append(_lane_replaced(Pattern(source, ()), kind, (takes,) * (capacity // takes)))
    return found


def better_patterns(prices: Prices, capacities: Sequence[int], limits: Sequence[int]) -> list[Pattern]:
    """Find patterns worth more than their board may be.

    Args:
        prices: The prices to beat. Record. [-]
        capacities: The capacity of each source. Sequence. [mm]
        limits: What a board of each source may be worth. Sequence. [-]

    Returns:
        Patterns worth more, for each source the best with each piece and each ripped rest. List. [-]

    Source:
        Column generation: P. C. Gilmore and R. E. Gomory, Operations Research 9 (1961) 849-859.
    """
    longest = max(capacities)
    tables = [rises(each, longest) for each in (prices.full, prices.groove, prices.tongue)]
    lanes = sorted({rise.capacity for table in tables[1:] for rise in table})
    found: dict[Pattern, None] = {}
    for source, capacity in enumerate(capacities):
        for lane in lanes:
            if lane <= capacity:
                at = [_last(tables[0], capacity - lane), _last(tables[1], lane), _last(tables[2], lane)]
                worth = sum(table[number].worth for table, number in zip(tables, at, strict=True))
                if worth > limits[source]:
                    full, groove, tongue = (
                        tuple(sorted(pieces_of(table, number)))
                        for table, number in zip(tables, at, strict=True)
                    )
                    found[Pattern(source, full, groove, tongue)] = None
        for takes, price in prices.full:
            if takes <= capacity:
                number = _last(tables[0], capacity - takes)
                if price + tables[0][number].worth > limits[source]:
                    pieces = tuple(sorted((takes, *pieces_of(tables[0], number))))
                    found[Pattern(source, pieces)] = None
    return list(found)


def _last(table: Sequence[Rise], capacity: int) -> int:
    low, high = 0, len(table)
    while high - low > 1:
        middle = (low + high) // 2
        if table[middle].capacity <= capacity:
            low = middle
        else:
            high = middle
    return low


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


def with_fewer_pieces(patterns: Sequence[Pattern], most: int) -> list[Pattern]:
    """Add patterns with pieces left out, because where a cut counts a place unused is not for nothing.

    Args:
        patterns: Patterns. Sequence. [-]
        most: How many to stop at. Scalar. [-]

    Returns:
        The patterns, and those with fewer pieces. List. [-]

    Source:
        Own definition.
    """
    found = dict.fromkeys(patterns)
    waiting = list(found)
    for pattern in waiting:
        for lane in range(3):
            pieces = (pattern.full, pattern.groove, pattern.tongue)[lane]
            for piece in sorted(set(pieces)):
                place = pieces.index(piece)
                left = pieces[:place] + pieces[place + 1 :]
                fewer = _lane_replaced(pattern, lane, left)
                if any(fewer[1:4]) and fewer not in found and len(found) < most:
                    found[fewer] = None
                    waiting.append(fewer)
    return list(found)


def _lane_replaced(pattern: Pattern, kind: int, pieces: tuple[int, ...]) -> Pattern:
    if kind == FULL:
        return pattern._replace(full=pieces)
    return pattern._replace(groove=pieces) if kind == GROOVE else pattern._replace(tongue=pieces)
