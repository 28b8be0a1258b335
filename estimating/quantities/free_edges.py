"""The edges of the deck that stand free, and so may take a trim."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from math import hypot

from estimating.amounts import PENNY
from estimating.plane import Exact, Point, Polygon, contains
from estimating.survey import Survey
from estimating.working import Figure, Working, measured

_AT_A_WALL_MM = 25
Spot = tuple[Exact, Exact]
Side = tuple[Spot, Spot]


def free_edge_m(survey: Survey) -> Figure[Decimal]:
    """Give the length of deck edge at neither wall nor zone, and of the hatch's edge within the deck.

    Args:
        survey: The zones, the loft outline and the hatch. Record. [mm]

    Returns:
        The length to trim. Scalar. [m]

    Source:
        Geometry.
    """
    walls = list(_sides(survey.outline))
    hatch_sides = list(_sides(survey.hatch.outline))
    free = opened = 0.0
    for zone in survey.zones:
        zone_sides = list(_sides(zone.outline))
        others = [side for other in survey.zones if other is not zone for side in _sides(other.outline)]
        for part in _cut_where_crossed(zone_sides, hatch_sides):
            if not _along_inside(part, zone.outline, survey.hatch.outline):
                free += _uncovered_mm(part, [*walls, *others])
    zones_sides = [side for zone in survey.zones for side in _sides(zone.outline)]
    for part in _cut_where_crossed(hatch_sides, zones_sides):
        if all(_in_a_zone(point, survey) for point in _either_side(part)):
            opened += _length(part)
    edges, opening = (_metres(length) for length in (free, opened))
    inputs = (
        measured("edges at neither wall nor zone", edges, "m"),
        measured("hatch edges in the deck", opening, "m"),
    )
    working = Working("edges at neither wall nor zone + hatch edges in the deck", inputs, "geometry")
    return Figure("free edge of the deck", edges + opening, "m", working)


def _sides(polygon: Polygon) -> Iterator[Side]:
    return zip(polygon, (*polygon[1:], polygon[0]), strict=True)


def _length(side: Side) -> float:
    (ax, ay), (bx, by) = side
    return hypot(bx - ax, by - ay)


def _metres(length_mm: float) -> Decimal:
    return (Decimal(round(length_mm)) / 1000).quantize(PENNY)


def _uncovered_mm(side: Side, others: Iterable[Side]) -> float:
    """The length of a side along which no other side runs."""
    (ax, ay), _ = side
    length = _length(side)
    ux, uy = (side[1][0] - ax) / length, (side[1][1] - ay) / length
    covered = []
    for other in others:
        away = max(abs(ux * (y - ay) - uy * (x - ax)) for x, y in other)
        if away <= _AT_A_WALL_MM:
            low, high = sorted(ux * (x - ax) + uy * (y - ay) for x, y in other)
            covered.append((max(0.0, low), min(length, high)))
    reached = bare = 0.0
    for low, high in sorted(covered):
        if high > low:
            bare += max(0.0, low - reached)
            reached = max(reached, high)
    return bare + max(0.0, length - reached)


def _cut_where_crossed(sides: Iterable[Side], others: Sequence[Side]) -> Iterator[Side]:
    """The sides in parts, so that each part lies wholly within or without what the others enclose."""
    for (ax, ay), (bx, by) in sides:
        ux, uy = bx - ax, by - ay
        cuts = {Fraction(0), Fraction(1)}
        for (cx, cy), (dx, dy) in others:
            across = ux * (dy - cy) - uy * (dx - cx)
            if across:
                cuts.add(Fraction((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / across)
        for low, high in pairwise(sorted(cut for cut in cuts if 0 <= cut <= 1)):
            yield (ax + ux * low, ay + uy * low), (ax + ux * high, ay + uy * high)


def _along_inside(part: Side, zone: Polygon, hatch: Polygon) -> bool:
    """Whether the hatch lies just inside a part of a zone's side: there is no deck there to trim."""
    return any(contains(zone, point) and contains(hatch, point) for point in _either_side(part))


def _either_side(part: Side) -> Iterator[Point]:
    """A point 2 mm to the left and one 2 mm to the right of a part's middle, in whole millimetres."""
    (ax, ay), (bx, by) = part
    nx, ny = (ay - by) / _length(part), (bx - ax) / _length(part)
    for away_mm in (2, -2):
        yield round((ax + bx) / 2 + away_mm * nx), round((ay + by) / 2 + away_mm * ny)


def _in_a_zone(point: Point, survey: Survey) -> bool:
    return any(contains(zone.outline, point) for zone in survey.zones)
