"""A region of the plane cut into upright slices, exact for right-angled shapes and slanted edges alike.

Areas, overlaps, rows of boards and the stretch of a joist under the deck are all read off these slices,
because within one slice no two edges cross.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

Point = tuple[int, int]
Polygon = tuple[Point, ...]
Exact = int | Fraction


class Trapezoid(NamedTuple):
    """A slice of a region between two upright lines: its lower and upper edge at either side."""

    left: Exact
    right: Exact
    low_left: Exact
    low_right: Exact
    high_left: Exact
    high_right: Exact


class _Edge(NamedTuple):
    left: int
    left_y: int
    right: int
    right_y: int

    def at(self, x: Exact) -> Exact:
        if self.left_y == self.right_y:
            return self.left_y
        rise = (self.right_y - self.left_y) * (x - self.left)
        return self.left_y + Fraction(rise) / (self.right - self.left)


def sides_of(polygon: Polygon) -> Iterator[tuple[Point, Point]]:
    """Walk round a polygon side by side.

    Args:
        polygon: The corners. Polygon. [mm]

    Returns:
        Each side from corner to corner. Iterator of pairs. [mm]

    Source:
        Geometry.
    """
    return zip(polygon, (*polygon[1:], polygon[0]), strict=True)


def _edges(polygon: Polygon) -> list[_Edge]:
    return [
        _Edge(*a, *b) if a[0] < b[0] else _Edge(*b, *a)  # an upright side bounds no slice from above or below
        for a, b in sides_of(polygon)
        if a[0] != b[0]
    ]


def _crossings(edges: Sequence[_Edge]) -> Iterator[Exact]:
    """Where edges cross strictly inside one another; level edges never cross each other."""
    for number, one in enumerate(edges):
        if one.left_y == one.right_y:
            continue
        for other in (*edges[:number], *(edge for edge in edges[number:] if edge.left_y == edge.right_y)):
            left, right = max(one.left, other.left), min(one.right, other.right)
            if left >= right:
                continue
            before, after = one.at(left) - other.at(left), one.at(right) - other.at(right)
            if before * after < 0:
                yield left + Fraction(before) / (before - after) * (right - left)


_Band = tuple[Exact, _Edge, Exact, _Edge]


def _bands(edges: Iterable[_Edge], left: Exact, right: Exact) -> list[_Band]:
    """The parts of a slice inside one polygon, each as (key, lower edge, key, upper edge)."""
    across = sorted(
        (edge.at(left) + edge.at(right), edge) for edge in edges if edge.left <= left and edge.right >= right
    )
    return [(*low, *high) for low, high in zip(across[0::2], across[1::2], strict=True)]


def _without(bands: list[_Band], hole: list[_Band]) -> list[_Band]:
    for low, low_edge, high, high_edge in hole:
        kept: list[_Band] = []
        for band in bands:
            if high <= band[0] or low >= band[2]:
                kept.append(band)
                continue
            if band[0] < low:
                kept.append((band[0], band[1], low, low_edge))
            if high < band[2]:
                kept.append((high, high_edge, band[2], band[3]))
        bands = kept
    return sorted(bands)


def trapezoids(outline: Polygon, holes: Sequence[Polygon] = ()) -> tuple[Trapezoid, ...]:
    """Cut a region into trapezoids with upright sides, from left to right and from low to high.

    Within one slice no two edges cross, so every question about the region becomes arithmetic.

    Args:
        outline: The outer edge, simple, either way round. Polygon. [mm]
        holes: What is taken out; may overlap each other and the outline. Sequence of polygons. [mm]

    Returns:
        The slices. Tuple of trapezoids. [mm]

    Source:
        Geometry (slab decomposition).
    """
    outer = _edges(outline)
    inner = [_edges(hole) for hole in holes]
    every = [*outer, *(edge for edges in inner for edge in edges)]
    lines = sorted({x for edge in every for x in (edge.left, edge.right)} | set(_crossings(every)))
    slices: list[Trapezoid] = []
    for left, right in pairwise(lines):
        bands = _bands(outer, left, right)
        for edges in inner:
            if bands:
                bands = _without(bands, _bands(edges, left, right))
        slices += [
            Trapezoid(left, right, low.at(left), low.at(right), high.at(left), high.at(right))
            for _, low, _, high in bands
        ]
    return tuple(slices)
