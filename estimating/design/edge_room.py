"""Where the edge of a deck may go: not into the gap at a wall, not over anything, not off its joists.

An edge along another zone or along the hatch stays where it is: moved in, it would leave a hole to step into.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from estimating.design.boards.edges import Edge, Facing
from estimating.design.boards.problem import KeepOutArea
from estimating.plane import Polygon, area_mm2, inset_at_walls, overlap_area_mm2
from estimating.refusals import Refusal

BESIDE_MM = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeRoom:
    """What the edge of one zone has to keep off, all of it in the zone's own frame."""

    loft: Polygon
    gap_mm: int
    joist_field: Polygon
    keep_outs: tuple[KeepOutArea, ...]  # every one of the loft, and the hatch
    zones: tuple[Polygon, ...]  # the other zones

    def allows(self, before: Polygon, after: Polygon) -> bool:
        """Whether the deck may be changed so; what lay too far out before is for the checks to tell."""
        if area_mm2(after) <= area_mm2(before):
            return True
        return (
            _beyond(after, self.loft) <= _beyond(before, self.loft)
            and _beyond(after, self.joist_field) <= _beyond(before, self.joist_field)
            and all(
                overlap_area_mm2(after, each) <= overlap_area_mm2(before, each)
                for each in (*self.zones, *(area.outline for area in self.keep_outs))
            )
            and self._keeps_the_gap(after)
        )

    def _keeps_the_gap(self, edge: Polygon) -> bool:
        try:
            return not self.gap_mm or area_mm2(inset_at_walls(edge, self.loft, self.gap_mm)) == area_mm2(edge)
        except Refusal:
            return False

    def holds(self, edge: Edge) -> bool:
        """Whether an edge lies along another zone or the hatch, so that it must stay where it is."""
        hatches = (area.outline for area in self.keep_outs if area.kind == "hatch")
        return any(overlap_area_mm2(_just_outside(edge), each) for each in (*self.zones, *hatches))


def _beyond(deck: Polygon, around: Polygon) -> Fraction:
    return area_mm2(deck) - overlap_area_mm2(deck, around)


def _just_outside(edge: Edge) -> Polygon:
    """A strip along the outside of an edge, wide enough for what a tape may miss."""
    near, far = sorted((edge.at_mm, edge.at_mm + edge.outward * BESIDE_MM))
    low, high = edge.low_mm, edge.high_mm
    if edge.facing in (Facing.LEFT, Facing.RIGHT):
        return ((near, low), (far, low), (far, high), (near, high))
    return ((low, near), (high, near), (high, far), (low, far))
