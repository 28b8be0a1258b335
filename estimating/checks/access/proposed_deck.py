"""A deck proposed where there is headroom: the largest rectangle clear of all that stands there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations, pairwise
from typing import NamedTuple

from estimating.plane import area_mm2, bounds, overlap_area_mm2
from estimating.survey import Polygon

USUAL_DECK_TOP_MM = 300
"""From joists to the top of a deck over full insulation, before anything is designed; common practice, no
source."""


class _Grid(NamedTuple):
    """Every line that an edge of the deck may lie on, and which cells between them are free."""

    xs: list[int]
    ys: list[int]
    free: list[list[bool]]


def proposed_deck(
    area: Polygon,
    hatch: Polygon,
    keep_outs: Sequence[Polygon],
    strip: tuple[int, int] | None = None,
    *,
    from_hatch: bool = True,
) -> Polygon | None:
    """Propose the largest rectangle that a deck could fill and be stepped on to from the hatch.

    Its edges lie in line with corners of the loft, of what stands there, of the hatch, or with the ends of
    the headroom. The hatch may lie in it, since a deck is laid round a hatch.

    Args:
        area: Where a deck may lie: the loft, or the part of it over one joist field. Polygon. [mm]
        hatch: The opening. Polygon. [mm]
        keep_outs: What must stay free. Sequence of polygons. [mm]
        strip: From and to in y, between which there is headroom; None where it is not looked at. Pair. [mm]
        from_hatch: Whether it must reach the hatch. Flag. [-]

    Returns:
        The rectangle; None where there is none. Polygon. [mm]

    Source:
        Geometry; that a deck begins at the hatch: common practice, no source.
    """
    grid = _grid(area, hatch, keep_outs, strip)
    best: tuple[int, Polygon] | None = None
    for left, right in combinations(range(len(grid.xs)), 2):
        for low, high in combinations(range(len(grid.ys)), 2):
            width, depth = grid.xs[right] - grid.xs[left], grid.ys[high] - grid.ys[low]
            if best is not None and width * depth <= best[0]:
                continue
            free = all(grid.free[column][row] for column in range(left, right) for row in range(low, high))
            rectangle = _rectangle(grid.xs[left], grid.ys[low], grid.xs[right], grid.ys[high])
            if free and (not from_hatch or _reaches(rectangle, hatch)):
                best = width * depth, rectangle
    return best[1] if best else None


def _grid(
    area: Polygon, hatch: Polygon, keep_outs: Sequence[Polygon], strip: tuple[int, int] | None
) -> _Grid:
    left, front, right, back = bounds(area)
    low, high = (front, back) if strip is None else (max(front, strip[0]), min(back, strip[1]))
    shapes = (area, hatch, *keep_outs)
    xs = _within((x for shape in shapes for x, _ in shape), left, right)
    ys = _within((y for shape in shapes for _, y in shape), low, high)
    free = [
        [_is_free(_rectangle(x0, y0, x1, y1), area, keep_outs) for y0, y1 in pairwise(ys)]
        for x0, x1 in pairwise(xs)
    ]
    return _Grid(xs, ys, free)


def _within(lines: Iterable[int], low: int, high: int) -> list[int]:
    """The lines between two ends, with the ends; nothing where they leave no room."""
    if low >= high:
        return []
    return sorted({low, high} | {line for line in lines if low < line < high})


def _is_free(cell: Polygon, area: Polygon, keep_outs: Sequence[Polygon]) -> bool:
    inside = overlap_area_mm2(cell, area) == area_mm2(cell)
    return inside and not any(overlap_area_mm2(cell, keep_out) for keep_out in keep_outs)


def _reaches(rectangle: Polygon, hatch: Polygon) -> bool:
    """Whether the hatch lies in a rectangle or along an edge of it."""
    left, low, right, high = bounds(rectangle)
    return bool(overlap_area_mm2(_rectangle(left - 1, low - 1, right + 1, high + 1), hatch))


def _rectangle(left: int, low: int, right: int, high: int) -> Polygon:
    return ((left, low), (right, low), (right, high), (left, high))
