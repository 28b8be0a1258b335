"""The deck seen as rows: which stretches of each row are deck, and what a piece there must be.

A row is a band one cover width high. Where the deck fills less than the band a piece may be ripped; where it
only dips into the band a piece is notched; where it is absent the row falls into separate runs.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import ceil, floor
from typing import Literal, NamedTuple

from estimating.design.boards.problem import LayoutProblem
from estimating.plane import Exact, Trapezoid, bounds, trapezoids

Kind = Literal["full", "groove", "tongue", "neither"]

EDGE_SLACK_MM = 1  # a slanted edge seldom meets a whole millimetre


class Stretch(NamedTuple):
    """A part of a row with one deck shape along it, and the lowest and highest deck in it.

    It is whole when deck fills it from its lowest to its highest, all along.
    """

    left: Exact
    right: Exact
    low: Exact
    high: Exact
    whole: bool
    parts: tuple[Trapezoid, ...]

    def hull_between(self, x0: int, x1: int) -> tuple[Exact, Exact]:
        """The lowest and the highest deck between two lines, which at a slant is not that of the whole."""
        left, right = max(self.left, x0), min(self.right, x1)
        ends = [_between(part, left, right) for part in self.parts]
        return (
            min(min(part.low_left, part.low_right) for part in ends),
            max(max(part.high_left, part.high_right) for part in ends),
        )

    def fills(self, low: int, high: int) -> bool:
        """Whether deck fills this part between two heights, but for the odd millimetre."""
        return self.whole and self.low <= low + EDGE_SLACK_MM and self.high >= high - EDGE_SLACK_MM


class Run(NamedTuple):
    """An unbroken stretch of one row to be boarded from end to end."""

    row: int
    x0: int
    x1: int


class Blank(NamedTuple):
    """What a piece must be: which long edges it keeps, and the band of the deck it covers."""

    kind: Kind
    y0: int
    y1: int


@dataclass(frozen=True)
class DeckRows:
    """The rows of a layout problem. Not slotted: the rows are worked out once, on first use."""

    problem: LayoutProblem

    @cached_property
    def slices(self) -> tuple[Trapezoid, ...]:
        """The deck cut into upright slices."""
        return trapezoids(self.problem.outline, [keep_out.outline for keep_out in self.problem.keep_outs])

    @cached_property
    def count(self) -> int:
        """How many rows the outline reaches."""
        top = bounds(self.problem.outline)[3]
        return ceil((top - self.problem.row_origin_mm) / self.problem.product.cover_width_mm)

    def band(self, row: int) -> tuple[int, int]:
        """The lower and upper edge of a row."""
        width = self.problem.product.cover_width_mm
        low = self.problem.row_origin_mm + row * width
        return low, low + width

    @cached_property
    def stretches(self) -> tuple[tuple[Stretch, ...], ...]:
        """The stretches of each row, left to right."""
        return tuple(tuple(self._stretches(row)) for row in range(self.count))

    def _stretches(self, row: int) -> Iterable[Stretch]:
        low, high = self.band(row)
        cut: dict[tuple[Exact, Exact], list[Trapezoid]] = {}
        for piece in self.slices:
            if max(piece.high_left, piece.high_right) > low and min(piece.low_left, piece.low_right) < high:
                for part in _split_at(piece, self._bends(row, piece.left, piece.right)):
                    cut.setdefault((part.left, part.right), []).append(part)
        for (left, right), parts in sorted(cut.items()):
            inside = [part for part in (_clipped(part, low, high) for part in parts) if part is not None]
            if inside:
                yield Stretch(
                    left,
                    right,
                    min(min(part.low_left, part.low_right) for part in inside),
                    max(max(part.high_left, part.high_right) for part in inside),
                    len(inside) == 1 and _is_level(inside[0]),
                    tuple(inside),
                )

    def _bends(self, row: int, left: Exact, right: Exact) -> list[Exact]:
        """Where slanted edges cross the seams of a row within a slice."""
        bends: set[Exact] = set()
        for piece in self.slices:
            if piece.left == left:
                for start, end in ((piece.low_left, piece.low_right), (piece.high_left, piece.high_right)):
                    for seam in self.band(row):
                        if (start - seam) * (end - seam) < 0:
                            bends.add(left + (right - left) * Fraction(seam - start) / (end - start))
        return sorted(bends)

    @cached_property
    def runs(self) -> tuple[Run, ...]:
        """Every run that needs boards, row by row and left to right.

        A run no wider than a gap may stay open, and so may one a millimetre high.
        """
        return tuple(run for run, boarded in self._every_run() if boarded)

    @cached_property
    def leaves_slivers(self) -> bool:
        """Whether some stretch of deck is so small that it may stay open."""
        return not all(boarded for _, boarded in self._every_run())

    def _every_run(self) -> Iterable[tuple[Run, bool]]:
        for row, stretches in enumerate(self.stretches):
            ends: list[list[Exact]] = []
            for stretch in stretches:
                tall = stretch.high - stretch.low > EDGE_SLACK_MM
                if ends and ends[-1][1] == stretch.left:
                    ends[-1][1], ends[-1][2] = stretch.right, ends[-1][2] or tall
                else:
                    ends.append([stretch.left, stretch.right, tall])
            for left, right, tall_enough in ends:
                run = Run(row, floor(left), ceil(right))
                yield run, bool(tall_enough and run.x1 - run.x0 > self.problem.rules.gap_tolerance_mm)

    def reaches_seam(self, row: int, x0: int, x1: int, *, top: bool) -> bool:
        """Whether a row has deck up to its top (or bottom) seam somewhere between two lines."""
        if not 0 <= row < self.count:
            return False
        low, high = self.band(row)
        return any(
            min(x1, s.right) - max(x0, s.left) > EDGE_SLACK_MM
            and (s.high >= high - EDGE_SLACK_MM if top else s.low <= low + EDGE_SLACK_MM)
            for s in self.stretches[row]
        )

    @cached_property
    def _clear_runs(self) -> frozenset[Run]:
        """The runs whose row the deck fills from end to end; most are."""
        return frozenset(
            run
            for run in self.runs
            if all(
                s.fills(*self.band(run.row))
                for s in self.stretches[run.row]
                if s.right > run.x0 and s.left < run.x1
            )
        )

    def is_clear(self, run: Run) -> bool:
        """Whether deck fills the row all along a run, so that every piece of it is whole."""
        return run in self._clear_runs

    def blank(self, run: Run, x0: int, x1: int) -> Blank:
        """What a piece between two lines of a run must be: full width, or ripped keeping which edge."""
        if run in self._clear_runs:
            return Blank("full", *self.band(run.row))
        under = [s for s in self.stretches[run.row] if s.right > x0 and s.left < x1]
        return self._blank(run.row, (x0, x1), min(s.low for s in under), max(s.high for s in under))

    def least_blank(self, run: Run, x0: int, x1: int) -> Blank:
        """What deck asks of a piece at the very least, cut as close to a slant as can be."""
        if run in self._clear_runs:
            return Blank("full", *self.band(run.row))
        x0, x1 = min(x0, x1 - 1), max(x0 + 1, x1)
        hulls = [s.hull_between(x0, x1) for s in self.stretches[run.row] if s.right > x0 and s.left < x1]
        return self._blank(run.row, (x0, x1), min(low for low, _ in hulls), max(high for _, high in hulls))

    @cached_property
    def slants(self) -> bool:
        """Whether some edge is slanted, so that a piece may be narrower than its stretch of the row."""
        return any(not _is_level(part) for row in self.stretches for s in row for part in s.parts)

    def _blank(self, row: int, span: tuple[int, int], deck_low: Exact, deck_high: Exact) -> Blank:
        low, high = self.band(row)
        if deck_high - deck_low >= high - low - EDGE_SLACK_MM:
            return Blank("full", low, high)
        y0, y1 = floor(deck_low), ceil(deck_high)
        if self.problem.product.sides == "square":
            return Blank("neither", y0, y1)
        groove = deck_low <= low + EDGE_SLACK_MM and self.reaches_seam(row - 1, *span, top=True)
        tongue = deck_high >= high - EDGE_SLACK_MM and self.reaches_seam(row + 1, *span, top=False)
        if groove and tongue:
            return Blank("full", low, high)
        if groove:
            return Blank("groove", low, y1)
        return Blank("tongue", y0, high) if tongue else Blank("neither", y0, y1)


def _split_at(piece: Trapezoid, lines: list[Exact]) -> Iterable[Trapezoid]:
    left = piece.left
    for line in (*lines, piece.right):
        if left < line:
            yield _between(piece, left, line)
            left = line


def _between(piece: Trapezoid, left: Exact, right: Exact) -> Trapezoid:
    if left == piece.left and right == piece.right:
        return piece

    def at(x: Exact, start: Exact, end: Exact) -> Exact:
        if start == end:
            return start
        return start + Fraction(end - start) * (x - piece.left) / (piece.right - piece.left)

    low, high = (piece.low_left, piece.low_right), (piece.high_left, piece.high_right)
    return Trapezoid(left, right, at(left, *low), at(right, *low), at(left, *high), at(right, *high))


def _clipped(piece: Trapezoid, low: int, high: int) -> Trapezoid | None:
    """The part of a slice inside a row, which no edge of it crosses."""
    low_left, low_right = (min(max(y, low), high) for y in (piece.low_left, piece.low_right))
    high_left, high_right = (min(max(y, low), high) for y in (piece.high_left, piece.high_right))
    if low_left >= high_left and low_right >= high_right:
        return None
    return Trapezoid(piece.left, piece.right, low_left, low_right, high_left, high_right)


def _is_level(piece: Trapezoid) -> bool:
    return (
        -EDGE_SLACK_MM <= piece.low_right - piece.low_left <= EDGE_SLACK_MM
        and -EDGE_SLACK_MM <= piece.high_right - piece.high_left <= EDGE_SLACK_MM
    )
