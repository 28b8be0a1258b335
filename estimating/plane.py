"""Plane geometry on whole millimetres: areas, overlaps, turns, and the gap a deck keeps at walls."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import hypot
from typing import NamedTuple

from estimating.refusals import Refusal
from estimating.slices import Exact, Point, Polygon, Trapezoid, sides_of, trapezoids

__all__ = [
    "Exact",
    "Point",
    "Polygon",
    "Trapezoid",
    "area_mm2",
    "bounds",
    "contains",
    "inset_at_walls",
    "is_simple",
    "overlap_area_mm2",
    "quarter_turned",
    "trapezoids",
]


def area_mm2(polygon: Polygon) -> Fraction:
    """Return the area of a simple polygon, exactly.

    Args:
        polygon: The corners, either way round. Polygon. [mm]

    Returns:
        The area. Scalar. [mm2]

    Source:
        Geometry (the surveyor's formula).
    """
    return Fraction(abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in sides_of(polygon))), 2)


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
    sides = list(sides_of(polygon))
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
    for a, b in sides_of(polygon):
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
    inward = 1 if sum(ax * by - bx * ay for (ax, ay), (bx, by) in sides_of(polygon)) > 0 else -1
    sides = [_MovedSide(a, b, _short_of_gap(a, b, walls, gap_mm) * inward) for a, b in sides_of(polygon)]
    while len(sides) > 2:
        corners = [_new_corner(*pair) for pair in zip((sides[-1], *sides[:-1]), sides, strict=True)]
        ends = zip(corners, (*corners[1:], corners[0]), strict=True)
        kept = [side for side, (start, end) in zip(sides, ends, strict=True) if side.still_runs(start, end)]
        if len(kept) == len(sides):
            inset = tuple(dict.fromkeys(point for corner in corners for point in corner))
            if is_simple(inset) and area_mm2(inset) <= area_mm2(polygon):
                return inset
            break
        sides = kept  # a side shorter than the gap takes off is gone, and its neighbours meet instead
    raise Refusal("outline", f"leaves no deck once the {gap_mm} mm gap at the walls is taken off")


class _MovedSide(NamedTuple):
    """A side as it was, and how far its line moves to its left."""

    a: Point
    b: Point
    move: float

    @property
    def line(self) -> tuple[float, float, float, float]:
        """A point of the moved line and its direction."""
        along_x, along_y = self.b[0] - self.a[0], self.b[1] - self.a[1]
        share = self.move / hypot(along_x, along_y)
        return self.a[0] - along_y * share, self.a[1] + along_x * share, along_x, along_y

    def still_runs(self, start: list[Point], end: list[Point]) -> bool:
        """Whether between its new corners the side runs the way it ran before."""
        if not start or not end:
            return False
        run_x, run_y = end[0][0] - start[-1][0], end[0][1] - start[-1][1]
        return run_x * (self.b[0] - self.a[0]) + run_y * (self.b[1] - self.a[1]) > 0


def _short_of_gap(a: Point, b: Point, walls: Polygon, gap_mm: int) -> float:
    """How far the side a-b must move inward to stand the gap away from every wall along it."""
    length = hypot(b[0] - a[0], b[1] - a[1])
    along = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    short = 0.0
    for c, d in sides_of(walls):
        wall = hypot(d[0] - c[0], d[1] - c[1])
        away = [abs(_turn(c, d, point)) / wall for point in (a, b)]
        reach = sorted(along[0] * (p[0] - a[0]) + along[1] * (p[1] - a[1]) for p in (c, d))
        if max(away) < gap_mm and reach[0] < length and reach[1] > 0:
            short = max(short, gap_mm - min(away))
    return short


def _new_corner(before: _MovedSide, after: _MovedSide) -> list[Point]:
    """Where two moved sides meet; a step of two corners when they lie in one line but moved unequally.

    Sides that run against each other meet nowhere.
    """
    one, other = before.line, after.line
    cross = one[2] * other[3] - one[3] * other[2]
    if cross == 0:
        if one[2] * other[2] + one[3] * other[3] < 0:
            return []
        return [
            (round(line[0] + after.a[0] - side.a[0]), round(line[1] + after.a[1] - side.a[1]))
            for line, side in ((one, before), (other, after))
        ]
    reach = ((other[0] - one[0]) * other[3] - (other[1] - one[1]) * other[2]) / cross
    return [(round(one[0] + one[2] * reach), round(one[1] + one[3] * reach))]
