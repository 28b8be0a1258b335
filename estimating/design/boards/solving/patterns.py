"""Patterns: ways to cut one board, as columns of a programme."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from estimating.design.boards.solving.certify import Prices
from estimating.design.boards.solving.places import ANY_WIDTH, Place
from estimating.design.boards.solving.run_classes import FULL, GROOVE, TONGUE
from estimating.design.boards.solving.worth import Rise, pieces_of, rises


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
