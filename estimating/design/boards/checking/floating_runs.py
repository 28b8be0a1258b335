"""What a run is worth where its end joints may float: the cheapest laying over every whole millimetre.

A piece with floating joints at both ends is a whole board; any other has an end on a joist or at an end of
the run. Where a rule would only forbid pieces it is left out, so that nothing legal is missed.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from math import ceil
from operator import add

from estimating.design.boards.checking.fault import SLACK_MM
from estimating.design.boards.checking.possible_pieces import Stop, may_be_carried, stops_of
from estimating.design.boards.checking.row_shapes import Kept, RowPart, RowRun, least_kept
from estimating.design.boards.problem import LayoutProblem

Prices = Callable[[Kept], Sequence[int]]


class FloatingRun:
    """One run, with what pieces of it must keep told apart by where they begin and end."""

    def __init__(self, problem: LayoutProblem, run: RowRun) -> None:
        self._problem, self._run = problem, run
        self._stops = stops_of(problem, run)
        gap = problem.rules.gap_tolerance_mm
        inside = sorted({ceil(x) for part in run.parts for x in (part.left, part.right)})
        self._borders = [run.left, *(x for x in inside if run.left < x < run.right), run.right]
        self._begins = [x - SLACK_MM - 1 - gap for x in self._borders[1:-1]]
        self._ends = [x + SLACK_MM + 2 + gap for x in self._borders[1:-1]]
        self._kept: dict[tuple[int, int], Kept] = {}

    def every_kept(self) -> Iterator[Kept]:
        """Whatever pieces of the run may have to keep."""
        cells = range(len(self._borders) - 1)
        yield from (self._kept_between(i, j) for i in cells for j in cells if i <= j)

    def worth(self, prices: Prices, unreached: int) -> int:
        """The worth of the cheapest laying."""
        return _Cheapest(self, self._problem, self._stops, prices, unreached).worth()

    def kept(self, x0: int, x1: int) -> Kept:
        """What a piece between two lines must keep, even if it is cut short by the gap at either end."""
        return self._kept_between(bisect_right(self._begins, x0), bisect_right(self._ends, x1))

    def alike(self, first: int, last: int, begins_before: int) -> Iterator[tuple[int, int]]:
        """Parts of a stretch of right ends whose pieces keep the same, begun so far before them."""
        changes = {*self._ends, *(x + begins_before for x in self._begins)}
        lines = [first, *sorted(x for x in changes if first < x <= last), last + 1]
        yield from ((a, b - 1) for a, b in pairwise(lines) if a < b)

    def _kept_between(self, begins: int, ends: int) -> Kept:
        key = (begins, ends)
        if key not in self._kept:
            if begins > ends:
                self._kept[key] = Kept("neither", 1)
            else:
                left, right = self._borders[begins], self._borders[ends + 1]
                inner = self._borders[begins + 1], self._borders[ends]
                # of a slanted part, the piece may cover the lower end alone
                parts = tuple(
                    part
                    for part in self._run.parts
                    if _is_level(part) or (part.left >= inner[0] and part.right <= inner[1])
                )
                run = self._run._replace(parts=parts)
                self._kept[key] = least_kept(self._problem, run, left, right)
        return self._kept[key]


def _is_level(part: RowPart) -> bool:
    return part.low_left == part.low_right and part.high_left == part.high_right


class _Cheapest:
    """Walks a run from left to right: joists one by one, and between them every millimetre."""

    def __init__(
        self,
        run: FloatingRun,
        problem: LayoutProblem,
        stops: Sequence[Stop],
        prices: Prices,
        unreached: int,
    ) -> None:
        rules = problem.rules
        self._run, self._problem, self._stops, self._prices = run, problem, stops, prices
        self._least, self._gap = rules.min_piece_mm, rules.gap_tolerance_mm
        self._length, self._kerf = problem.product.cover_length_mm, rules.kerf_mm
        self._first, self._last = stops[0].last + self._least, stops[-1].first - self._least
        self._floating = [unreached] * max(0, self._last - self._first + 1)
        self._unreached = unreached
        self._by_span: dict[int, list[int]] = {}

    def worth(self) -> int:
        costs = [0]
        done = self._first - 1
        self._begin_at(self._stops[0], 0)
        for to in range(1, len(self._stops)):
            stop = self._stops[to]
            self._lay_whole_boards(done + 1, min(stop.last, self._last))
            done = max(done, min(stop.last, self._last))
            cost = self._end_at(stop)
            for start, reached in zip(self._stops, costs, strict=False):
                cost = min(cost, reached + self._between(start, stop))
            costs.append(cost)
            self._begin_at(stop, cost)
        return costs[-1]

    def _spans(self, kept: Kept) -> list[int]:
        """Prices by span, for pieces that keep so much; shorter ones than the least cost as much as it."""
        prices = self._prices(kept)
        if id(prices) not in self._by_span:
            short = self._kerf - self._gap
            self._by_span[id(prices)] = [
                prices[max(max(span, self._least) + short, self._kerf + 1)]
                for span in range(self._length + self._gap + 1)
            ]
        return self._by_span[id(prices)]

    def _between(self, start: Stop, stop: Stop) -> int:
        span = max(stop.first - start.last, 1)
        whole = (start, stop) == (self._stops[0], self._stops[-1])
        if span > self._length + self._gap or not may_be_carried(self._problem, start, stop):
            return self._unreached
        kept = self._run.kept(start.last, stop.first)
        if whole and span < self._least:
            return self._prices(kept)[max(span + self._kerf - self._gap, self._kerf + 1)]
        return self._spans(kept)[span]

    def _begin_at(self, stop: Stop, cost: int) -> None:
        """Pieces from a stop to every floating joint they may reach."""
        if cost >= self._unreached:
            return
        first = max(self._first, stop.first + self._least)
        last = min(self._last, stop.last + self._length + self._gap)
        first += bisect_left(range(first, last + 1), 1, key=lambda x: self._carried(stop, _at(x)))
        for a, b in self._run.alike(first, last, 0):
            by_span = self._spans(self._run.kept(stop.last, a))
            low, high = a - self._first, b - self._first + 1
            spans = by_span[max(a - stop.last, 0) : max(b - stop.last, 0) + 1]
            spans = spans[:1] * (b - a + 1 - len(spans)) + spans
            reached = [cost + price for price in spans]
            self._floating[low:high] = map(min, self._floating[low:high], reached)

    def _end_at(self, stop: Stop) -> int:
        """Pieces from every floating joint that may reach a stop; the least cost of all."""
        first = max(self._first, stop.first - self._length - self._gap)
        last = min(self._last, stop.last - self._least)
        past = bisect_left(range(first, last + 1), 1, key=lambda x: not self._carried(_at(x), stop))
        last = first + past - 1
        least = self._unreached
        for a, b in self._run.alike(first, last, 0):
            by_span = self._spans(self._run.kept(a, stop.first))
            spans = [by_span[max(stop.first - x, 0)] for x in range(a, b + 1)]
            least = min(least, *map(add, self._floating[a - self._first : b - self._first + 1], spans))
        return least

    def _lay_whole_boards(self, first: int, last: int) -> None:
        """Whole boards from one floating joint to the next, a board's length at a time."""
        for start in range(first, last + 1, self._length):
            end = min(start + self._length - 1, last)
            for span in range(self._length, self._length + self._gap + 1):
                for a, b in self._run.alike(max(start, self._first + span), end, span):
                    price = self._prices(self._run.kept(a - span, a))[self._length + self._kerf]
                    low, high = a - self._first, b - self._first + 1
                    reached = [cost + price for cost in self._floating[low - span : high - span]]
                    self._floating[low:high] = map(min, self._floating[low:high], reached)

    def _carried(self, start: Stop, stop: Stop) -> bool:
        return may_be_carried(self._problem, start, stop)


def _at(x: int) -> Stop:
    return Stop(0, x, x)
