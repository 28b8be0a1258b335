"""Joist lines under a deck: modern ones at even centres, old ones as the carpenter found them."""

from __future__ import annotations

from bisect import bisect_left
from random import Random

from estimating.plane import Polygon
from tests.benchmarks.decks.shapes import MEASURED_TO_MM

EVEN_CENTRES_MM = (400, 400, 450, 600, 600)
OLD_CENTRES_MM = (350, 480)
EDGE_ON_JOIST = 0.4  # of the edges that run along the joists; chosen, no source


def even_lines(chance: Random, width_mm: int) -> tuple[int, ...]:
    """Draw joists at even centres; on two decks in five the first stands under the edge."""
    centres = chance.choice(EVEN_CENTRES_MM)
    return tuple(range(_first(chance, centres), width_mm + 1, centres))


def old_lines(chance: Random, width_mm: int) -> tuple[int, ...]:
    """Draw joists at centres that differ from bay to bay."""
    least, most = OLD_CENTRES_MM
    lines = [_first(chance, least)]
    while lines[-1] + least <= width_mm:
        lines.append(lines[-1] + chance.randrange(least, most + 1, MEASURED_TO_MM))
    return tuple(line for line in lines if line <= width_mm)


def _first(chance: Random, centres_mm: int) -> int:
    on_joist = chance.random() < EDGE_ON_JOIST
    return 0 if on_joist else chance.randrange(MEASURED_TO_MM, centres_mm, MEASURED_TO_MM)


def edges_on_joists(chance: Random, outline: Polygon, lines: tuple[int, ...]) -> Polygon:
    """Move some of the edges that run along the joists onto the nearest joist, as a surveyor would."""
    moved = {}
    for x in sorted({x for x, _ in outline} - {0}):
        moved[x] = _nearest(lines, x) if chance.random() < EDGE_ON_JOIST else x
    return tuple((moved.get(x, x), y) for x, y in outline)


def _nearest(lines: tuple[int, ...], x: int) -> int:
    at = bisect_left(lines, x)
    return min(lines[max(0, at - 1) : at + 1], key=lambda line: abs(line - x))
