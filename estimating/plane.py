"""Plane geometry on whole millimetres, exact for right-angled shapes and for slanted edges alike.

Everything rests on one cut: a region is sliced at every corner into trapezoids with upright sides.
Areas, overlaps, rows of boards and the stretch of a joist under the deck are all read off those.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import hypot
from typing import NamedTuple

from estimating.refusals import Refusal

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


def _sides(polygon: Polygon) -> Iterator[tuple[Point, Point]]:
    return zip(polygon, (*polygon[1:], polygon[0]), strict=True)


def _edges(polygon: Polygon) -> list[_Edge]:
    return [
        _Edge(*a, *b) if a[0] < b[0] else _Edge(*b, *a)  # an upright side bounds no slice from above or below
        for a, b in _sides(polygon)
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


def area_mm2(polygon: Polygon) -> Fraction:
    """Return the area of a simple polygon, exactly.

    Args:
        polygon: The corners, either way round. Polygon. [mm]

    Returns:
        The area. Scalar. [mm2]

    Source:
        Geometry (the surveyor's formula).
    """
    return Fraction(abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in _sides(polygon))), 2)


def _area_of(slices: Iterable[Trapezoid]) -> Fraction:
    return sum(
        (
            Fraction(s.right - s.left) * (s.high_left - s.low_left + s.high_right - s.low_right) / 2
            for s in slices
        ),
        Fraction(0),
    )


def overlap_area_mm2(one: Polygon, other: Polygon) -> Fraction:
    """Return the area two simple polygons have in common, exactly.

    Args:
        one: The first polygon. Polygon. [mm]
        other: The second polygon. Polygon. [mm]

    Returns:
        The common area. Scalar. [mm2]

    Source:
        Geometry: the first polygon less what is left of it outside the second.
    """
    if not _boxes_meet(one, other):
        return Fraction(0)
    return area_mm2(one) - _area_of(trapezoids(one, (other,)))


def _boxes_meet(one: Polygon, other: Polygon) -> bool:
    ax0, ay0, ax1, ay1 = bounds(one)
    bx0, by0, bx1, by1 = bounds(other)
    return ax0 < bx1 and bx0 < ax1 and ay0 < by1 and by0 < ay1


def bounds(polygon: Polygon) -> tuple[int, int, int, int]:
    """Return the least upright rectangle around a polygon, as left, low, right, high.

    Args:
        polygon: The corners. Polygon. [mm]

    Returns:
        Left x, low y, right x, high y. Tuple of 4. [mm]

    Source:
        Geometry.
    """
    xs, ys = [x for x, _ in polygon], [y for _, y in polygon]
    return min(xs), min(ys), max(xs), max(ys)


def _turn(a: Point, b: Point, c: Point) -> int:
    """Positive when a, b, c turn left, negative when right, 0 when in line."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _on_side(point: Point, a: Point, b: Point) -> bool:
    in_box = min(a[0], b[0]) <= point[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= point[1] <= max(a[1], b[1])
    return in_box and _turn(a, b, point) == 0


def _sides_touch(a: Point, b: Point, c: Point, d: Point) -> bool:
    if _on_side(a, c, d) or _on_side(b, c, d) or _on_side(c, a, b) or _on_side(d, a, b):
        return True
    return (_turn(a, b, c) > 0) != (_turn(a, b, d) > 0) and (_turn(c, d, a) > 0) != (_turn(c, d, b) > 0)


def is_simple(polygon: Polygon) -> bool:
    """Say whether a polygon is one plain shape: no side crosses, touches or runs back along another.

    Args:
        polygon: The corners. Polygon. [mm]

    Returns:
        Whether it is simple and encloses something. Scalar. [-]

    Source:
        Geometry.
    """
    if len(polygon) < 3 or len(set(polygon)) != len(polygon) or area_mm2(polygon) == 0:
        return False
    sides = list(_sides(polygon))
    for number, (a, b) in enumerate(sides):
        for later in range(number + 1, len(sides)):
            c, d = sides[later]
            if b == c or a == d:  # neighbours share a corner and must not fold back
                far, other = (d, a) if b == c else (c, b)
                if _on_side(far, a, b) or _on_side(other, c, d):
                    return False
            elif _sides_touch(a, b, c, d):
                return False
    return True


def contains(polygon: Polygon, point: Point) -> bool:
    """Say whether a point lies in a polygon or on its edge.

    Args:
        polygon: The corners of a simple polygon. Polygon. [mm]
        point: The point. Point. [mm]

    Returns:
        Whether it is inside or on the edge. Scalar. [-]

    Source:
        Geometry (crossing count).
    """
    inside = False
    for a, b in _sides(polygon):
        if _on_side(point, a, b):
            return True
        if (a[1] > point[1]) != (b[1] > point[1]):
            left_of = _turn(a, b, point) if b[1] > a[1] else _turn(b, a, point)
            inside ^= left_of > 0
    return inside


def quarter_turned(polygon: Polygon, turns: int) -> Polygon:
    """Turn a polygon anticlockwise about the origin by quarter turns; undo it with the turns negated.

    Boards have a groove side and a tongue side, so a zone whose joists run the other way is turned, never
    mirrored: a mirror image could not be laid from the same boards.

    Args:
        polygon: The corners. Polygon. [mm]
        turns: Quarter turns, anticlockwise when positive. Scalar. [-]

    Returns:
        The turned polygon. Polygon. [mm]

    Source:
        Geometry.
    """
    for _ in range(turns % 4):
        polygon = tuple((-y, x) for x, y in polygon)
    return polygon


def inset_at_walls(polygon: Polygon, walls: Polygon, gap_mm: int) -> Polygon:
    """Keep a deck the perimeter gap away from the walls, moving only the edges that come too near.

    Chipboard swells, so it needs room where it meets a wall; an edge in the open loft needs none. A corner
    between slanted edges is rounded to the millimetre.

    Args:
        polygon: The deck as wished. Polygon. [mm]
        walls: The outline of the loft. Polygon. [mm]
        gap_mm: The perimeter gap. Scalar. [mm]

    Returns:
        The finished edge of the deck. Polygon. [mm]

    Raises:
        Refusal: Nothing is left of the deck.

    Source:
        Gap kept at walls: LABC Warranty and NHBC Standards 6.4.19, floor decking; geometry.
    """
    sides = list(_sides(polygon))
    twice_area = sum(ax * by - bx * ay for (ax, ay), (bx, by) in sides)
    inward = 1 if twice_area > 0 else -1
    moved = [(a, b, _short_of_gap(a, b, walls, gap_mm), inward) for a, b in sides]
    corners: list[Point] = []
    for before, after in zip((moved[-1], *moved[:-1]), moved, strict=True):
        corners += _new_corner(before, after)
    inset = tuple(
        point for point, last in zip(corners, (corners[-1], *corners[:-1]), strict=True) if point != last
    )
    kept_way = sum(ax * by - bx * ay for (ax, ay), (bx, by) in _sides(inset)) * inward > 0 if inset else False
    if not kept_way or not is_simple(inset):
        raise Refusal("outline", f"leaves no deck once the {gap_mm} mm gap at the walls is taken off")
    return inset


_MovedSide = tuple[Point, Point, float, int]


def _short_of_gap(a: Point, b: Point, walls: Polygon, gap_mm: int) -> float:
    """How far the side a-b must move inward to stand the gap away from every wall along it."""
    length = hypot(b[0] - a[0], b[1] - a[1])
    along = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    short = 0.0
    for c, d in _sides(walls):
        wall = hypot(d[0] - c[0], d[1] - c[1])
        away = [abs(_turn(c, d, point)) / wall for point in (a, b)]
        reach = sorted(along[0] * (p[0] - a[0]) + along[1] * (p[1] - a[1]) for p in (c, d))
        if max(away) < gap_mm and reach[0] < length and reach[1] > 0:
            short = max(short, gap_mm - min(away))
    return short


def _new_corner(before: _MovedSide, after: _MovedSide) -> list[Point]:
    """Where two moved sides meet; a step of two corners when they lie in one line but moved unequally."""
    (a, b, _, _), (_, c, _, _) = before, after
    one, other = (_moved_line(side) for side in (before, after))
    cross = one[2] * other[3] - one[3] * other[2]
    if _turn(a, b, c) == 0:
        return [
            (round(b[0] + line[0] - side[0][0]), round(b[1] + line[1] - side[0][1]))
            for line, side in ((one, before), (other, after))
        ]
    reach = ((other[0] - one[0]) * other[3] - (other[1] - one[1]) * other[2]) / cross
    return [(round(one[0] + one[2] * reach), round(one[1] + one[3] * reach))]


def _moved_line(side: _MovedSide) -> tuple[float, float, float, float]:
    (ax, ay), (bx, by), move, inward = side
    length = hypot(bx - ax, by - ay)
    x = ax - inward * (by - ay) / length * move
    y = ay + inward * (bx - ax) / length * move
    return x, y, bx - ax, by - ay
