"""What stands in a loft and the deck goes round: hatch, chimney, tank stand, struts."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random
from typing import Any, NamedTuple

from estimating.plane import Polygon, bounds, overlap_area_mm2

HATCHES_MM = ((560, 730), (560, 1130), (600, 1000))  # opening and lining
CHIMNEYS_MM = ((560, 560), (790, 560), (1130, 660))  # stack and clearance
TANK_STANDS_MM = ((900, 700), (1200, 800))
STRUTS_MM = ((75, 100), (50, 100), (100, 100))
HALF_JOIST_MM = 25
CLEAR_MM = 350  # nothing stands so near to an edge or to another thing that only a sliver is left
TRIES = 60


class Box(NamedTuple):
    """An upright rectangle."""

    left: int
    low: int
    right: int
    high: int

    def grown(self, by_mm: int) -> Box:
        """The same rectangle, larger on every side."""
        return Box(self.left - by_mm, self.low - by_mm, self.right + by_mm, self.high + by_mm)

    @property
    def corners(self) -> Polygon:
        """As a polygon."""
        return (self.left, self.low), (self.right, self.low), (self.right, self.high), (self.left, self.high)


class Standing(NamedTuple):
    """One thing the deck goes round."""

    kind: str
    box: Box

    def as_keep_out(self, number: int) -> dict[str, Any]:
        """As it is written in a layout problem."""
        corners = [list(corner) for corner in self.box.corners]
        return {"id": f"{self.kind} {number}", "kind": self.kind, "poly": corners}


def drawn_things(chance: Random, outline: Polygon, lines: tuple[int, ...]) -> tuple[Standing, ...]:
    """Draw what stands in one loft; what finds no place in a few tries is left out."""
    placed: list[Standing] = []
    for kind, size_mm in _wanted(chance):
        for box in _tried(chance, outline, lines, kind, size_mm):
            if _fits(box, outline, kind) and not any(_meet(box.grown(CLEAR_MM), p.box) for p in placed):
                placed.append(Standing(kind, box))
                break
    return tuple(placed)


def _wanted(chance: Random) -> Iterator[tuple[str, tuple[int, int]]]:
    if chance.random() < 0.85:  # else the hatch is beside the deck
        wide, deep = chance.choice(HATCHES_MM)
        yield "hatch", (wide, deep) if chance.random() < 0.8 else (deep, wide)
    if chance.random() < 0.35:
        yield "chimney", chance.choice(CHIMNEYS_MM)
    if chance.random() < 0.25:
        yield "tank", chance.choice(TANK_STANDS_MM)
    if chance.random() < 0.3:
        for _ in range(chance.randint(1, 3)):
            yield "strut", chance.choice(STRUTS_MM)


def _tried(
    chance: Random, outline: Polygon, lines: tuple[int, ...], kind: str, size_mm: tuple[int, int]
) -> Iterator[Box]:
    left, low, right, high = bounds(outline)
    wide, deep = size_mm
    for _ in range(TRIES):
        x = chance.randrange(left, max(right - wide, left + 1), 10)
        if kind == "hatch":  # it opens between joists
            x = chance.choice(lines) + HALF_JOIST_MM
        y = chance.randrange(low, max(high - deep, low + 1), 10)
        if kind in ("tank", "chimney") and chance.random() < 0.5:  # against the eaves
            y = chance.choice((low, high - deep))
        yield Box(x, y, x + wide, y + deep)


def _fits(box: Box, outline: Polygon, kind: str) -> bool:
    """Whether it stands on the deck with room round it, or against an edge with room on three sides."""
    _, low, _, high = bounds(outline)
    room = box.grown(CLEAR_MM)
    if kind != "strut" and (box.low == low or box.high == high):
        room = room._replace(low=max(room.low, low), high=min(room.high, high))
    area = (room.right - room.left) * (room.high - room.low)
    return overlap_area_mm2(outline, room.corners) == area


def _meet(one: Box, other: Box) -> bool:
    return one.left < other.right and other.left < one.right and one.low < other.high and other.low < one.high
