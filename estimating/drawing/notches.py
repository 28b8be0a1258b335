"""Where a piece of board is notched round what the deck leaves free, measured on the piece itself."""

from __future__ import annotations

from estimating.design.boards.layout import Piece
from estimating.design.design import ZoneDesign
from estimating.plane import Polygon, Trapezoid, bounds, trapezoids

LEAST_NOTCH_MM = 2
"""What is narrower comes of rounding along a slanted edge."""


def notches(zone: ZoneDesign, piece: Piece) -> tuple[Polygon, ...]:
    """Find the parts of a piece's rectangle that are no deck.

    Args:
        zone: The zone. Record. [mm]
        piece: The piece. Record. [mm]

    Returns:
        The notches, from the piece's left end and groove edge. Tuple of polygons. [mm]

    Source:
        Geometry.
    """
    rectangle = ((piece.x0, piece.y0), (piece.x1, piece.y0), (piece.x1, piece.y1), (piece.x0, piece.y1))
    found = list(trapezoids(rectangle, (zone.problem.outline,)))
    for keep_out in zone.problem.keep_outs:
        left, low, right, high = bounds(keep_out.outline)
        if left < piece.x1 and piece.x0 < right and low < piece.y1 and piece.y0 < high:
            clear = [_corners(each) for each in trapezoids(rectangle, (keep_out.outline,))]
            found += trapezoids(rectangle, clear)
    return tuple(
        tuple((x - piece.x0, y - piece.y0) for x, y in corners)
        for corners in map(_corners, found)
        if _is_wide(corners)
    )


def _corners(slice_: Trapezoid) -> Polygon:
    """The corners of a slice, those that fall together taken once."""
    left, right = round(slice_.left), round(slice_.right)
    corners = (
        (left, round(slice_.low_left)),
        (right, round(slice_.low_right)),
        (right, round(slice_.high_right)),
        (left, round(slice_.high_left)),
    )
    return tuple(dict.fromkeys(corners))


def _is_wide(corners: Polygon) -> bool:
    left, low, right, high = bounds(corners)
    return min(right - left, high - low) >= LEAST_NOTCH_MM


def notch_words(name: str, notch: Polygon) -> str:
    """Say where one notch is marked on a piece.

    Args:
        name: The piece's name. Text. [-]
        notch: The notch, from the piece's left end and groove edge. Polygon. [mm]

    Returns:
        Words such as "notch 8: 720 × 410, 150 from left, 190 from below". Text. [mm]

    Source:
        Own definition.
    """
    left, low, right, high = bounds(notch)
    return f"notch {name}: {right - left} × {high - low}, {left} from left, {low} from below"
