"""The edges of the deck that stand free, and so may take a trim."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from math import hypot

from estimating.amounts import PENNY
from estimating.plane import Point, Polygon, contains
from estimating.survey import Survey
from estimating.working import Figure, Working, measured

_AT_A_WALL_MM = 25
Side = tuple[Point, Point]


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
    free = 0.0
    for zone in survey.zones:
        others = [side for other in survey.zones if other is not zone for side in _sides(other.outline)]
        free += sum(_uncovered_mm(side, [*walls, *others]) for side in _sides(zone.outline))
    hatch = sum(_length(side) for side in _sides(survey.hatch.outline) if _under_deck(side, survey))
    edges, opening = (_metres(length) for length in (free, hatch))
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


def _under_deck(side: Side, survey: Survey) -> bool:
    middle = ((side[0][0] + side[1][0]) // 2, (side[0][1] + side[1][1]) // 2)
    return any(_strictly_inside(zone.outline, middle) for zone in survey.zones)


def _strictly_inside(polygon: Polygon, point: Point) -> bool:
    return contains(polygon, point) and not any(_on(side, point) for side in _sides(polygon))


def _on(side: Sequence[Point], point: Point) -> bool:
    (ax, ay), (bx, by) = side
    return (bx - ax) * (point[1] - ay) == (by - ay) * (point[0] - ax)
