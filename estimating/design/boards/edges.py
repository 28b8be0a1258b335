"""The straight outer edges of a deck: which way each faces, what a surveyor calls it, the deck with it moved.

Only edges along or across the rows count: an end edge lies across them, a row edge along them.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from enum import IntEnum
from fractions import Fraction
from typing import NamedTuple

from estimating.plane import Point, Polygon, is_simple, quarter_turned


class Facing(IntEnum):
    """The way an edge faces in the zone's frame, by quarter turns from the right."""

    RIGHT = 0
    HIGH = 1
    LEFT = 2
    LOW = 3


_ON_PLAN = ("right-hand edge", "back edge", "left-hand edge", "front edge")


class Edge(NamedTuple):
    """One side of an outline, by its number: the way it faces, the line it lies on, and where it ends."""

    side: int
    facing: Facing
    at_mm: int
    low_mm: int
    high_mm: int

    @property
    def is_end(self) -> bool:
        """Whether it lies across the rows, so that boards end on it."""
        return self.facing in (Facing.LEFT, Facing.RIGHT)

    @property
    def outward(self) -> int:
        """Whether its line rises or falls as the edge is moved out."""
        return 1 if self.facing in (Facing.RIGHT, Facing.HIGH) else -1


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeMove:
    """One edge of a deck moved out, or in where the distance is negative, and what it then lies on."""

    side: int  # of the outline before the move
    edge: str
    outward_mm: int
    onto: str = ""

    @property
    def words(self) -> str:
        """What was moved, as half a sentence."""
        way = "out" if self.outward_mm > 0 else "in"
        onto = f" onto {self.onto}" if self.onto else ""
        return f"the {self.edge} moved {way} by {abs(self.outward_mm)} mm{onto}"


def edges_of(outline: Polygon) -> tuple[Edge, ...]:
    """List the edges of a deck that lie along the rows or across them.

    Args:
        outline: The finished edge, either way round. Polygon. [mm]

    Returns:
        The edges, in the order of the outline's sides. Tuple of records. [mm]

    Source:
        Geometry.
    """
    found = []
    for side, (a, b) in enumerate(zip(outline, (*outline[1:], outline[0]), strict=True)):
        if (a[0] == b[0]) == (a[1] == b[1]):
            continue
        along = (b[0] > a[0]) - (b[0] < a[0]), (b[1] > a[1]) - (b[1] < a[1])
        quarters = {(0, 1): 0, (-1, 0): 1, (0, -1): 2, (1, 0): 3}[along]
        facing = Facing(quarters if _is_anticlockwise(outline) else (quarters + 2) % 4)
        across, up = (0, 1) if facing in (Facing.LEFT, Facing.RIGHT) else (1, 0)
        found.append(Edge(side, facing, a[across], min(a[up], b[up]), max(a[up], b[up])))
    return tuple(found)


def _is_anticlockwise(outline: Polygon) -> bool:
    turned = zip(outline, (*outline[1:], outline[0]), strict=True)
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in turned) > 0


def with_edge_moved(outline: Polygon, edge: Edge, outward_mm: int) -> Polygon | None:
    """Move one edge out, or in where the distance is negative; its neighbours grow or shrink to meet it.

    A neighbour that slants keeps its line, and the corner is rounded to the millimetre.

    Args:
        outline: The finished edge. Polygon. [mm]
        edge: One of its edges. Record. [mm]
        outward_mm: How far to move it. Scalar. [mm]

    Returns:
        The outline so changed; None where the edge has no room to move so far. Polygon. [mm]

    Source:
        Geometry.
    """
    line = edge.at_mm + edge.outward * outward_mm
    side, following = edge.side, (edge.side + 1) % len(outline)
    corners = list(outline)
    for corner, neighbour in ((side, side - 1), (following, (following + 1) % len(outline))):
        met = _met(outline[corner], outline[neighbour], edge.is_end, line)
        if met is None or _run(outline[neighbour], outline[corner], outline[neighbour], met) < 0:
            return None
        corners[corner] = met
    if _run(outline[side], outline[following], corners[side], corners[following]) <= 0:
        return None
    moved = tuple(dict.fromkeys(corners))
    return moved if is_simple(moved) else None


def _met(corner: Point, other: Point, is_end: bool, line: int) -> Point | None:
    """Where the side from another corner meets the edge's new line."""
    (x, y), (far_x, far_y) = corner, other
    if is_end:
        if x == far_x:
            return None
        return line, y if y == far_y else round(y + Fraction((far_y - y) * (line - x), far_x - x))
    if y == far_y:
        return None
    return x if x == far_x else round(x + Fraction((far_x - x) * (line - y), far_y - y)), line


def _run(start: Point, end: Point, new_start: Point, new_end: Point) -> int:
    """More than 0 where a side still runs the way it ran, 0 where it has just come to nothing."""
    ran = end[0] - start[0], end[1] - start[1]
    return ran[0] * (new_end[0] - new_start[0]) + ran[1] * (new_end[1] - new_start[1])


def edge_names(outline: Polygon, turns: int = 0) -> dict[int, str]:
    """Name every edge as a surveyor would who stands at the front eaves, left gable at the left.

    Edges that face the same way are told apart by where they lie from the datum.

    Args:
        outline: The finished edge in the zone's frame. Polygon. [mm]
        turns: Quarter turns from the plan into that frame. Scalar. [-]

    Returns:
        The name of each edge, by the number of its side. Mapping. [-]

    Source:
        Own definition.
    """
    edges = edges_of(outline)
    plain = {edge.side: _ON_PLAN[(edge.facing - turns) % 4] for edge in edges}
    placed = {edge.side: f"{plain[edge.side]} at {on_plan_mm(edge, turns)} mm" for edge in edges}
    alike, same_line = Counter(plain.values()), Counter(placed.values())
    names = {}
    for edge in edges:
        name = plain[edge.side] if alike[plain[edge.side]] == 1 else placed[edge.side]
        if alike[plain[edge.side]] > 1 and same_line[placed[edge.side]] > 1:
            low, high = sorted(abs(end) for end in (edge.low_mm, edge.high_mm))
            name += f", from {low} to {high} mm"
        names[edge.side] = name
    return names


def on_plan_mm(edge: Edge, turns: int = 0) -> int:
    """Give where the line of an edge lies on plan.

    Args:
        edge: The edge, in the zone's frame. Record. [mm]
        turns: Quarter turns from the plan into that frame. Scalar. [-]

    Returns:
        The position from the datum. Scalar. [mm]

    Source:
        Geometry.
    """
    point = (edge.at_mm, edge.low_mm) if edge.is_end else (edge.low_mm, edge.at_mm)
    at = quarter_turned((point,), -turns)[0]
    return at[0] if edge.is_end == (turns % 2 == 0) else at[1]
