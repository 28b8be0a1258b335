"""One broken rule of a layout, and what the parts of the checker measure it by."""

from __future__ import annotations

from typing import Literal, NamedTuple

from estimating.design.boards.layout import Piece
from estimating.design.boards.problem import LayoutProblem
from estimating.plane import Polygon

Rule = Literal[
    "numbers",
    "row",
    "useless",
    "cover",
    "joint",
    "factory end",
    "stagger",
    "short",
    "supports",
    "edge",
    "board",
]

SLACK_MM = 1  # a slanted edge seldom meets a whole millimetre


class Fault(NamedTuple):
    """One broken rule: which, by which pieces of which zone, and what is wrong in plain words."""

    rule: Rule
    pieces: tuple[int, ...]
    says: str
    zone: int = 0


def row_count(problem: LayoutProblem) -> int:
    """Count the rows that the outline reaches.

    Args:
        problem: The layout problem. Record. [mm]

    Returns:
        Rows. Scalar. [-]

    Source:
        Own definition.
    """
    height = max(y for _, y in problem.outline) - problem.row_origin_mm
    return -(-height // problem.product.cover_width_mm)


def row_band(problem: LayoutProblem, row: int) -> tuple[int, int]:
    """Give the lower and upper edge of a row.

    Args:
        problem: The layout problem. Record. [mm]
        row: The row, from 0. Scalar. [-]

    Returns:
        Low y and high y. Pair. [mm]

    Source:
        Own definition.
    """
    low = problem.row_origin_mm + row * problem.product.cover_width_mm
    return low, low + problem.product.cover_width_mm


def rectangle_of(piece: Piece) -> Polygon:
    """Give the rectangle a piece covers before it is notched.

    Args:
        piece: The piece. Record. [mm]

    Returns:
        Its corners. Polygon. [mm]

    Source:
        Own definition.
    """
    return ((piece.x0, piece.y0), (piece.x1, piece.y0), (piece.x1, piece.y1), (piece.x0, piece.y1))
