"""The areas that are to be decked."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.plane import Polygon, is_simple
from estimating.refusals import Requirements

FURTHEST_AN_EDGE_MAY_MOVE_MM = 300


@dataclass(frozen=True, slots=True, kw_only=True)
class DeckZone:
    """One area of deck with boards running one way, over one joist field.

    `edge_may_move_mm` is how far each edge may be moved in or out where that saves boards or a sliver.
    """

    name: str
    outline: Polygon
    joist_field: str
    edge_may_move_mm: int = 0

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.name.strip()), "name", "is missing")
        needs.require(is_simple(self.outline), "outline", "must be a closed shape whose sides do not cross")
        needs.require(
            0 <= self.edge_may_move_mm <= FURTHEST_AN_EDGE_MAY_MOVE_MM,
            "edge_may_move_mm",
            f"must be between 0 and {FURTHEST_AN_EDGE_MAY_MOVE_MM} mm",
        )
        needs.settle()
