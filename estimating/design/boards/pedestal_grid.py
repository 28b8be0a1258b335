"""Where pedestals stand: on the joists, at the ends and seams of the deck along them, never in a keep-out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import ceil
from typing import NamedTuple

from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.rows import DeckRows
from estimating.plane import Exact, Point, Trapezoid


class JoistStretch(NamedTuple):
    """A stretch of joist under deck: its line, both its ends, and where pedestals stand by the rule."""

    x: int
    low: Exact
    high: Exact
    ys: tuple[int, ...]


def pedestal_points(problem: LayoutProblem, joist_step: int = 1) -> tuple[Point, ...]:
    """Stand pedestals along every carried joist by the product's rule alone, joist by joist.

    Args:
        problem: The layout problem with its pedestal rule. Record. [mm]
        joist_step: 1 to carry every joist, 2 every second, and so on. Scalar. [-]

    Returns:
        The points pedestals stand on. Tuple of points. [mm]

    Source:
        Pedestals at every board edge line and a greatest spacing: common practice, no source.
    """
    return tuple((each.x, y) for each in joist_stretches(problem, joist_step) for y in each.ys)


def joist_stretches(
    problem: LayoutProblem, joist_step: int = 1, *, least_apart_mm: int = 0
) -> tuple[JoistStretch, ...]:
    """List the stretches of joist under the deck with the pedestals that the product's rule asks for.

    Each stretch has a pedestal at both ends. Under the per-seam rule every seam between rows has one too,
    unless it lies so near an end that the end's pedestal serves it. Extra ones keep every spacing within the
    greatest.

    Args:
        problem: The layout problem with its pedestal rule. Record. [mm]
        joist_step: 1 to carry every joist, 2 every second, and so on. Scalar. [-]
        least_apart_mm: How far pedestals stand apart at least, because their bases need room. Scalar. [mm]

    Returns:
        The stretches, joist by joist and upward along each. Tuple of records. [mm]

    Source:
        Pedestals at every board edge line and a greatest spacing: common practice, no source.
    """
    merge = max(problem.pedestals.merge_mm, least_apart_mm)
    slices = DeckRows(problem).slices
    return tuple(
        JoistStretch(x, low, high, tuple(round(y) for y in _along(problem, low, high, merge)))
        for x in problem.joist_lines[::joist_step]
        for low, high in stretches_under_deck(slices, x)
    )


def stretches_under_deck(slices: Sequence[Trapezoid], x: int) -> tuple[tuple[Exact, Exact], ...]:
    """Tell where a line along the joists runs under deck.

    A joist on an upright edge carries the deck at either side of it: the last joist of a deck that ends on
    its centre line needs its pedestals like any other.

    Args:
        slices: The deck cut into upright slices. Sequence of trapezoids. [mm]
        x: The line. Scalar. [mm]

    Returns:
        Start and end of each stretch, rising. Tuple of pairs. [mm]

    Source:
        Geometry.
    """
    found: list[tuple[Exact, Exact]] = []
    for low, high in sorted(_section(piece, x) for piece in slices if piece.left <= x <= piece.right):
        if low >= high:
            continue
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return tuple(found)


def _section(piece: Trapezoid, x: int) -> tuple[Exact, Exact]:
    along = Fraction(x - piece.left) / (piece.right - piece.left)
    return (
        piece.low_left + (piece.low_right - piece.low_left) * along,
        piece.high_left + (piece.high_right - piece.high_left) * along,
    )


def _along(problem: LayoutProblem, low: Exact, high: Exact, merge_mm: int) -> Iterator[Exact]:
    stops = [low, *_seams_between(problem, low + merge_mm, high - merge_mm)]
    if high - low > merge_mm:
        stops.append(high)
    for start, end in pairwise(stops):
        spacings = max(1, ceil(Fraction(end - start) / problem.pedestals.max_spacing_mm))
        for number in range(spacings):
            yield start + Fraction(end - start) * number / spacings
    yield stops[-1]


def _seams_between(problem: LayoutProblem, low: Exact, high: Exact) -> Iterator[int]:
    if problem.pedestals.per_seam:
        width = problem.product.cover_width_mm
        seam = problem.row_origin_mm + width
        while seam < high:
            if seam > low:
                yield seam
            seam += width
