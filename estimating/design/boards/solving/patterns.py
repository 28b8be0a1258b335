"""Patterns: ways to cut one board, as columns of a programme."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from estimating.design.boards.solving.certify import Prices
from estimating.design.boards.solving.worth import Rise, pieces_of, rises


class Pattern(NamedTuple):
    """The pieces of one board by what they take: crosscut ones, and two strips of the rest."""

    source: int
    full: tuple[int, ...]
    groove: tuple[int, ...] = ()
    tongue: tuple[int, ...] = ()

    def counted(self) -> Iterator[tuple[int, int, int]]:
        """Each kind of piece with what it takes and how many there are."""
        for kind, pieces in enumerate((self.full, self.groove, self.tongue)):
            for takes, count in sorted(Counter(pieces).items()):
                yield kind, takes, count


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
                    lanes: list[tuple[int, ...]] = [(), (), ()]
                    lanes[kind] = (takes,) * (capacity // takes)
                    found.append(Pattern(source, *lanes))
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
                    parts = (
                        tuple(sorted(pieces_of(table, number)))
                        for table, number in zip(tables, at, strict=True)
                    )
                    found[Pattern(source, *parts)] = None
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
    items: Sequence[Sequence[int]],
    prices: Prices,
    capacities: Sequence[int],
    limits: Sequence[int],
    most: int,
) -> list[Pattern] | None:
    """List every pattern worth at least a limit that no longer or further piece could be added to.

    A pattern worth less cannot be part of a layout within the cost that the limits stand for.

    Args:
        items: What full, groove, tongue and neither pieces take, rising. Sequence of sequences. [mm]
        prices: The prices. Record. [-]
        capacities: The capacity of each source. Sequence. [mm]
        limits: What a board of each source must be worth at least. Sequence. [-]
        most: How many patterns at most. Scalar. [-]

    Returns:
        The patterns, or None when there are more. List. [-]

    Source:
        Reduced costs in linear programming; enumeration.
    """
    longest = max(capacities)
    worth, by_kind = prices.worth(longest), prices.by_kind(longest)
    strips = [sorted({*items[kind], *items[3]}) for kind in (1, 2)]
    found: dict[Pattern, None] = {}
    for source, capacity in enumerate(capacities):
        for full, used in _fillings(items[0], capacity, by_kind[0], worth.board, limits[source]):
            rest = capacity - used
            earned = sum(by_kind[0][takes] for takes in full)
            lanes = [
                [lane for lane, _ in _fillings(strips[place], rest, by_kind[1 + place], ceiling, 0)]
                for place, ceiling in enumerate((worth.groove, worth.tongue))
            ]
            for groove in lanes[0]:
                for tongue in lanes[1]:
                    extra = sum(by_kind[1][each] for each in groove) + sum(
                        by_kind[2][each] for each in tongue
                    )
                    if earned + extra < limits[source]:
                        continue
                    if not groove and not tongue and items[0] and rest >= items[0][0]:
                        continue  # another piece would fit
                    found[Pattern(source, full, groove, tongue)] = None
                    if len(found) > most:
                        return None
    return list(found)


def _fillings(
    items: Sequence[int], capacity: int, prices: Sequence[int], ceiling: Sequence[int], limit: int
) -> Iterator[tuple[tuple[int, ...], int]]:
    """Every multiset of pieces that fits and may still reach the limit, longest pieces first."""

    def fill(last: int, left: int, earned: int) -> Iterator[tuple[int, ...]]:
        yield ()
        for place in range(last, -1, -1):
            takes = items[place]
            if takes <= left and earned + prices[takes] + ceiling[left - takes] >= limit:
                for others in fill(place, left - takes, earned + prices[takes]):
                    yield (takes, *others)

    for pieces in fill(len(items) - 1, capacity, 0):
        yield tuple(sorted(pieces)), sum(pieces)


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
                lanes = [pattern.full, pattern.groove, pattern.tongue]
                place = pieces.index(piece)
                lanes[lane] = pieces[:place] + pieces[place + 1 :]
                fewer = Pattern(pattern.source, *lanes)
                if any(lanes) and fewer not in found and len(found) < most:
                    found[fewer] = None
                    waiting.append(fewer)
    return list(found)
