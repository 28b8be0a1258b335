"""What every part of a plan is drawn from and drawn onto, and how a piece of board lies on it."""

from __future__ import annotations

from dataclasses import dataclass, field

from estimating.design.boards.layout import Piece
from estimating.design.design import Design, ZoneDesign
from estimating.drawing.labels import Box, Room, box_around
from estimating.drawing.svg import Canvas
from estimating.drawing.view import Format, View
from estimating.plane import Polygon, bounds, quarter_turned
from estimating.survey import Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanSheet:
    """What every part of a plan is drawn from and drawn onto."""

    survey: Survey
    design: Design
    view: View
    drawn_for: Format
    canvas: Canvas
    letters: dict[str, str]
    chosen: str | None
    window: tuple[int, int, int, int] | None = None
    room: Room = field(default_factory=Room)

    def is_seen(self, polygon: Polygon) -> bool:
        """Say whether any of a shape lies in the window, where there is one."""
        if self.window is None:
            return True
        left, low, right, high = bounds(polygon)
        return (
            left < self.window[2]
            and self.window[0] < right
            and low < self.window[3]
            and self.window[1] < high
        )

    def box_of(self, polygon: Polygon) -> Box:
        """Return the room a shape of the plan takes on the sheet."""
        return box_around(self.view.corners(polygon))


def on_plan(zone: ZoneDesign, piece: Piece) -> Polygon:
    """Turn a piece from its zone's own frame onto the plan.

    Args:
        zone: The zone. Record. [-]
        piece: The piece. Record. [mm]

    Returns:
        Its corners, before notching. Polygon. [mm]

    Source:
        Geometry.
    """
    corners = ((piece.x0, piece.y0), (piece.x1, piece.y0), (piece.x1, piece.y1), (piece.x0, piece.y1))
    return quarter_turned(corners, -zone.turns)


def is_cut(zone: ZoneDesign, piece: Piece) -> bool:
    """Say whether a piece is less than a whole board.

    A board that is notched round something is cut too, but it is bought and carried whole.

    Args:
        zone: The zone. Record. [-]
        piece: The piece. Record. [mm]

    Returns:
        Whether it is cut across or ripped. Scalar. [-]

    Source:
        Own definition.
    """
    rules, product = zone.problem.rules, zone.problem.product
    opened = zone.layout.opened if zone.layout else ()
    lengths = (board.length_mm for board in opened if board.number == piece.board)
    whole = next(lengths, product.cover_length_mm) - rules.gap_tolerance_mm
    return piece.length_mm < whole or piece.width_mm < product.cover_width_mm
