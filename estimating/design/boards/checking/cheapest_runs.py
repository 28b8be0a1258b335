"""What all runs are worth by a certificate's prices, however they are laid."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from operator import add

from estimating.design.boards.checking.floating_runs import FloatingRun
from estimating.design.boards.checking.possible_pieces import (
    RUN_END,
    Between,
    PossiblePieces,
    possible_pieces,
)
from estimating.design.boards.checking.row_shapes import Kept, runs_by_row
from estimating.design.boards.layout import Certificate
from estimating.design.boards.problem import LayoutProblem

PriceList = tuple[tuple[int, int], ...]

UNREACHED = 1 << 200  # more than any sum of prices


def worth_of_runs(zones: Sequence[LayoutProblem], certificate: Certificate, capacity: int) -> int:
    """Add up what the runs of all zones are worth at least, less what their joists are paid for at most.

    A run that cannot be laid by the rules adds nothing, since no layout then needs a bound.

    Args:
        zones: The zones that share boards. Sequence of records. [mm]
        certificate: The prices. Record. [-]
        capacity: Length of the longest board and one saw cut. Scalar. [mm]

    Returns:
        The worth, in the certificate's unit. Scalar. [-]

    Source:
        Shortest paths; joints of adjacent rows are on different joists: NHBC Standards 6.4.19.
    """
    laid = [_ZoneRuns(zone) for zone in zones]
    strips = {kept for zone in laid for kept in zone.every_kept()}
    kerf = min(zone.rules.kerf_mm for zone in zones)
    table = _PriceTable(certificate, capacity, _shareable(strips, zones[0].product.cover_width_mm, kerf))
    return sum(
        zone.worth(table, {joist: price for at, joist, price in certificate.joists if at == number})
        for number, zone in enumerate(laid)
    )


def rising_prices(prices: PriceList) -> list[tuple[int, int]]:
    """Keep the prices that are higher than those of all smaller pieces; the others decide nothing.

    Args:
        prices: Pairs of capacity and price. Tuple of pairs. [mm]

    Returns:
        Pairs rising in both. List of pairs. [mm]

    Source:
        Arithmetic.
    """
    rising: list[tuple[int, int]] = []
    for capacity, price in sorted(prices):
        if price > (rising[-1][1] if rising else 0):
            if rising and rising[-1][0] == capacity:
                rising.pop()
            rising.append((capacity, price))
    return rising


def _shareable(strips: set[Kept], width: int, kerf: int) -> frozenset[Kept]:
    """The strips that some other strip could be ripped beside from the same width of board.

    A board has one groove edge and one tongue edge, so that two strips with the same edge never share.
    """
    return frozenset(
        one
        for one in strips
        if one.edges != "both edges"
        and any(
            one.height_mm + kerf + other.height_mm <= width
            for other in strips
            if other.edges != "both edges" and (other.edges != one.edges or one.edges == "neither")
        )
    )


class _PriceTable:
    """The price of a piece by the capacity it takes, for each kind of piece."""

    def __init__(self, certificate: Certificate, capacity: int, shareable: frozenset[Kept]) -> None:
        self._full = _by_capacity(certificate.full, capacity)
        self._strips = {
            "groove": _by_capacity(certificate.groove, capacity),
            "tongue": _by_capacity(certificate.tongue, capacity),
            "neither": [0] * (capacity + 1),
        }
        self._shareable = shareable

    def of(self, kept: Kept) -> Sequence[int]:
        """The prices of pieces that keep so much; one that takes a board's whole width is a full one."""
        return self._strips[kept.edges] if kept in self._shareable else self._full


def _by_capacity(prices: PriceList, capacity: int) -> list[int]:
    rising = rising_prices(prices)
    least = [size for size, _ in rising]
    value = [0, *(price for _, price in rising)]
    return [value[bisect_right(least, each)] for each in range(capacity + 1)]


class _ZoneRuns:
    """The runs of one zone and the pieces each might be laid in; runs that lie alike are looked at once."""

    def __init__(self, zone: LayoutProblem) -> None:
        self._zone = zone
        self._rows = runs_by_row(zone)
        alike = {run for row in self._rows for run in row}
        floats = zone.rules.end_joint == "floating"
        self._floating = {run: FloatingRun(zone, run) for run in alike} if floats else {}
        self._possible = {} if floats else {run: possible_pieces(zone, run) for run in alike}

    def every_kept(self) -> Iterator[Kept]:
        """Whatever pieces of the zone may have to keep."""
        for floating in self._floating.values():
            yield from floating.every_kept()
        for possible in self._possible.values():
            yield from (piece.kept for piece in possible.pieces)

    def worth(self, table: _PriceTable, joist_prices: Mapping[int, int]) -> int:
        """The least worth of every run, with its joists, less the most that joists can be paid for."""
        rules = self._zone.rules
        if self._floating or 2 * rules.joint_tolerance_mm >= rules.min_piece_mm:
            joist_prices = {}  # joints need no joist, or two of a row might be on one
        values = {run: each.worth(table.of, UNREACHED) for run, each in self._floating.items()}
        for run, possible in self._possible.items():
            values[run] = self._cheapest(possible, table, joist_prices)
        total = sum(values[run] for row in self._rows for run in row if values[run] < UNREACHED)
        for joist, price in joist_prices.items():
            rows = [
                number
                for number, row in enumerate(self._rows)
                if any(stop.joist == joist for run in row for stop in self._possible[run].stops)
            ]
            total -= price * _most_not_adjacent(rows)
        return total

    def _cheapest(self, possible: PossiblePieces, table: _PriceTable, joist_prices: Mapping[int, int]) -> int:
        """The worth of the cheapest laying, over every whole millimetre where ends may meet."""
        costs = [[UNREACHED] * (stop.last - stop.first + 1) for stop in possible.stops]
        costs[0] = [0]
        for piece in possible.pieces:
            joist = possible.stops[piece.to].joist
            joint = 0 if joist == RUN_END else joist_prices.get(joist, 0)
            self._extend(costs, possible, piece, table.of(piece.kept), joint)
        return costs[-1][0]

    def _extend(
        self,
        costs: list[list[int]],
        possible: PossiblePieces,
        piece: Between,
        prices: Sequence[int],
        joint: int,
    ) -> None:
        """Let every end of a piece be reached from every start that leaves it a possible span."""
        rules = self._zone.rules
        short = rules.kerf_mm - rules.gap_tolerance_mm
        left, right = possible.stops[piece.start], possible.stops[piece.to]
        before, at = costs[piece.start], costs[piece.to]
        if min(before) + prices[max(piece.shortest + short, rules.kerf_mm + 1)] + joint >= max(at):
            return
        # by span, the widest first, so that starts from left to right meet a slice of it in order
        by_span = [
            prices[max(span + short, rules.kerf_mm + 1)]
            if piece.shortest <= span <= piece.longest
            else UNREACHED
            for span in range(right.last - left.first, right.first - left.last - 1, -1)
        ]
        for end in range(len(at)):
            skipped = len(at) - 1 - end
            cost = joint + min(map(add, before, by_span[skipped : skipped + len(before)]))
            at[end] = min(at[end], cost)


def _most_not_adjacent(rows: Sequence[int]) -> int:
    """The most of these rows that can be taken without two that lie against each other."""
    taken, last = 0, -2
    for row in rows:
        if row > last + 1:
            taken, last = taken + 1, row
    return taken
