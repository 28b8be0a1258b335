"""The checker's own view of the runs of a row: where they are, and what a piece of one must at least keep."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from math import ceil, floor
from typing import Literal, NamedTuple

from estimating.design.boards.checking.fault import SLACK_MM, row_band, row_count
from estimating.design.boards.problem import LayoutProblem
from estimating.plane import Exact, Trapezoid, trapezoids

Keeps = Literal["both edges", "groove", "tongue", "neither"]

BEYOND_MM = SLACK_MM + 1  # how far past a seam deck is still told apart


class RowPart(NamedTuple):
    """The deck of one slice where it lies in a row, as heights above the row's lower seam.

    Heights further than two millimetres beyond a seam are cut off there, so that rows that lie alike are
    equal.
    """

    left: Exact
    right: Exact
    low_left: Exact
    low_right: Exact
    high_left: Exact
    high_right: Exact

    def between(self, x0: int, x1: int) -> RowPart | None:
        """The part between two lines, if it is wider than the slack there."""
        left, right = max(self.left, x0), min(self.right, x1)
        if right - left <= SLACK_MM:
            return None
        if self.low_left == self.low_right and self.high_left == self.high_right:
            return self._replace(left=left, right=right)
        low = [_at(self, x, self.low_left, self.low_right) for x in (left, right)]
        high = [_at(self, x, self.high_left, self.high_right) for x in (left, right)]
        return RowPart(left, right, low[0], low[1], high[0], high[1])

    def passes(self, seam: int) -> bool:
        """Whether deck lies on both sides of a seam at either end of the part."""
        return (self.low_left < seam - SLACK_MM and self.high_left > seam + SLACK_MM) or (
            self.low_right < seam - SLACK_MM and self.high_right > seam + SLACK_MM
        )


class RowRun(NamedTuple):
    """A stretch of a row that must be boarded from end to end, and the deck in it."""

    left: int
    right: int
    parts: tuple[RowPart, ...]


class Kept(NamedTuple):
    """What any piece between two lines must keep of its board's long edges, and its least height."""

    edges: Keeps
    height_mm: int


def runs_by_row(problem: LayoutProblem) -> tuple[tuple[RowRun, ...], ...]:
    """List the runs of every row, by looking at the deck and not at how the solver sees it.

    A run may stay open, and is left out, where nothing in it is both wider than a gap and taller than the
    slack.

    Args:
        problem: The layout problem. Record. [mm]

    Returns:
        The runs of each row, left to right. Tuple of tuples of records. [mm]

    Source:
        Own definition.
    """
    deck = trapezoids(problem.outline, [keep_out.outline for keep_out in problem.keep_outs])
    rows = (tuple(_parts(deck, *row_band(problem, row))) for row in range(row_count(problem)))
    return tuple(tuple(_runs(problem, parts)) for parts in rows)


def least_kept(problem: LayoutProblem, run: RowRun, x0: int, x1: int) -> Kept:
    """Say what a piece must at least keep when it covers all deck of a run between two lines.

    Args:
        problem: The layout problem. Record. [mm]
        run: The run. Record. [mm]
        x0: The left line. Scalar. [mm]
        x1: The right line. Scalar. [mm]

    Returns:
        The edges it cannot do without and its least height. Record. [mm]

    Source:
        Geometry of the profile: an edge against another board keeps its tongue or groove.
    """
    width = problem.product.cover_width_mm
    under = [part for part in (each.between(x0, x1) for each in run.parts) if part is not None]
    profiled = problem.product.sides == "tg"
    groove = profiled and any(part.passes(0) for part in under)
    tongue = profiled and any(part.passes(width) for part in under)
    if groove and tongue:
        return Kept("both edges", width)
    low = min((min(part.low_left, part.low_right) for part in under), default=0)
    high = max((max(part.high_left, part.high_right) for part in under), default=0)
    height = floor(min(high, width) - max(low, 0))
    if groove or tongue:
        return Kept("groove" if groove else "tongue", max(height - SLACK_MM, 1))
    return Kept("neither", max(height - 2 * SLACK_MM, 1))


def _parts(deck: Sequence[Trapezoid], low: int, high: int) -> Iterator[RowPart]:
    width = high - low
    for piece in deck:
        lows = _cut_off(piece.low_left - low, piece.low_right - low, width)
        highs = _cut_off(piece.high_left - low, piece.high_right - low, width)
        part = _where_in(RowPart(piece.left, piece.right, *lows, *highs), 0, width)
        if part is not None:
            yield part


def _cut_off(left: Exact, right: Exact, width: int) -> tuple[Exact, Exact]:
    """An edge that stays well beyond a seam counts as level there."""
    for side, limit in ((-1, -BEYOND_MM), (1, width + BEYOND_MM)):
        if side * left >= side * limit and side * right >= side * limit:
            return limit, limit
    return left, right


def _where_in(part: RowPart, low: int, high: int) -> RowPart | None:
    """The stretch of a part that has deck between two heights."""
    start, end = Fraction(0), Fraction(1)
    for first, last in (
        (part.high_left - low, part.high_right - low),
        (high - part.low_left, high - part.low_right),
    ):
        if first <= 0 and last <= 0:
            return None
        if first < 0:
            start = max(start, Fraction(first) / (first - last))
        elif last < 0:
            end = min(end, Fraction(first) / (first - last))
    if start >= end:
        return None
    if start == 0 and end == 1:
        return part
    across = part.right - part.left
    left, right = part.left + start * across, part.left + end * across
    low_left, low_right = (_at(part, x, part.low_left, part.low_right) for x in (left, right))
    high_left, high_right = (_at(part, x, part.high_left, part.high_right) for x in (left, right))
    return RowPart(left, right, low_left, low_right, high_left, high_right)


def _at(part: RowPart, x: Exact, left: Exact, right: Exact) -> Exact:
    """The height of an edge of a part at a line."""
    if left == right:
        return left
    return left + Fraction(right - left) * (x - part.left) / (part.right - part.left)


def _runs(problem: LayoutProblem, parts: Sequence[RowPart]) -> Iterator[RowRun]:
    for left, right in _joined((part.left, part.right) for part in parts):
        inside = tuple(part for part in parts if part.left >= left and part.right <= right)
        if _must_be_covered(problem, inside):
            yield RowRun(floor(left), ceil(right), inside)


def _must_be_covered(problem: LayoutProblem, parts: Sequence[RowPart]) -> bool:
    width = problem.product.cover_width_mm
    tall = [
        reaching
        for part in parts
        if max(
            min(part.high_left, width) - max(part.low_left, 0),
            min(part.high_right, width) - max(part.low_right, 0),
        )
        > SLACK_MM
        and (reaching := _where_in(part, SLACK_MM, width - SLACK_MM)) is not None
    ]
    stretches = _joined((part.left, part.right) for part in tall)
    return any(right - left > problem.rules.gap_tolerance_mm for left, right in stretches)


def _joined(stretches: Iterable[tuple[Exact, Exact]]) -> list[tuple[Exact, Exact]]:
    ends: list[tuple[Exact, Exact]] = []
    for left, right in sorted(stretches):
        if ends and left <= ends[-1][1]:
            ends[-1] = (ends[-1][0], max(ends[-1][1], right))
        else:
            ends.append((left, right))
    return ends
