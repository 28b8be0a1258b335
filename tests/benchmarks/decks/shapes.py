"""Outlines of decks: a plain rectangle, an L or a T under a cross gable, corners trimmed under hips."""

from __future__ import annotations

from math import sqrt
from random import Random
from typing import NamedTuple

from estimating.plane import Polygon, area_mm2

MEASURED_TO_MM = 5


class Shape(NamedTuple):
    """An outline whose lowest left corner of the box around it is 0, 0, and what to call it."""

    name: str
    outline: Polygon


def drawn_shape(chance: Random, area_m2: float) -> Shape:
    """Draw an outline of about so much area: half of them plain rectangles, as lofts are."""
    name = chance.choice(("rectangle", "rectangle", "rectangle", "L", "L", "T", "corners", "corners"))
    depth_by_width = chance.uniform(0.28, 0.75)
    corners = {"rectangle": _rectangle, "L": _ell, "T": _tee, "corners": _trimmed}[name](chance)
    fraction = area_mm2(tuple((round(x * 1000), round(y * 1000)) for x, y in corners)) / 1_000_000
    width_mm = 1000 * sqrt(area_m2 / float(fraction) / depth_by_width)
    depth_mm = width_mm * depth_by_width
    if chance.random() < 0.5:
        corners = [(1 - x, y) for x, y in reversed(corners)]
    if chance.random() < 0.5:
        corners = [(x, 1 - y) for x, y in reversed(corners)]
    return Shape(name, tuple((_measured(x * width_mm), _measured(y * depth_mm)) for x, y in corners))


def _measured(length_mm: float) -> int:
    return round(length_mm / MEASURED_TO_MM) * MEASURED_TO_MM


Unit = list[tuple[float, float]]


def _rectangle(_chance: Random) -> Unit:
    return [(0, 0), (1, 0), (1, 1), (0, 1)]


def _ell(chance: Random) -> Unit:
    across, along = chance.uniform(0.35, 0.65), chance.uniform(0.35, 0.65)
    return [(0, 0), (1, 0), (1, along), (across, along), (across, 1), (0, 1)]


def _tee(chance: Random) -> Unit:
    wide, along = chance.uniform(0.3, 0.5), chance.uniform(0.4, 0.65)
    left = chance.uniform(0.15, 0.85 - wide)
    right = left + wide
    return [(0, 0), (1, 0), (1, along), (right, along), (right, 1), (left, 1), (left, along), (0, along)]


def _trimmed(chance: Random) -> Unit:
    """One end of the loft is hipped: its corners are trimmed, one of them or both."""
    across, along = chance.uniform(0.08, 0.2), chance.uniform(0.2, 0.4)
    if chance.random() < 0.5:
        return [(0, 0), (1, 0), (1, 1 - along), (1 - across, 1), (0, 1)]
    return [(0, 0), (1 - across, 0), (1, along), (1, 1 - along), (1 - across, 1), (0, 1)]
