"""In which order to lay the pieces, so that nobody works towards the hatch."""

from __future__ import annotations

from estimating.design.boards.layout import Layout, Piece
from estimating.design.boards.problem import LayoutProblem
from estimating.plane import Point


def laying_order(problem: LayoutProblem, layout: Layout, start: Point) -> tuple[int, ...]:
    """Order the pieces from the hatch outward, so that the crew stands on boards and is never boxed in.

    The row at the hatch comes first, then the rows above it one after another, then the rows below it. In
    each row the piece nearest the hatch comes first and the row grows away from it, to the right and then to
    the left. So each row is laid against one already down, and the bare joists are always on the far side.

    Args:
        problem: The layout problem. Record. [mm]
        layout: A layout of it. Record. [mm]
        start: Where the crew comes up, usually the middle of the hatch. Point. [mm]

    Returns:
        Piece numbers in laying order. Tuple. [-]

    Source:
        Common practice, no source.
    """
    rows = sorted({piece.row for piece in layout.pieces})
    wanted = (start[1] - problem.row_origin_mm) // problem.product.cover_width_mm
    first = min(rows, key=lambda row: (abs(row - wanted), row), default=0)
    ordered_rows = [row for row in rows if row >= first] + [row for row in reversed(rows) if row < first]
    order: list[int] = []
    for row in ordered_rows:
        order += [piece.number for piece in _outward(_row(layout, row), start[0])]
    return tuple(order)


def _row(layout: Layout, row: int) -> list[Piece]:
    return sorted((piece for piece in layout.pieces if piece.row == row), key=lambda piece: piece.x0)


def _outward(pieces: list[Piece], x: int) -> list[Piece]:
    nearest = min(range(len(pieces)), key=lambda at: (max(pieces[at].x0 - x, x - pieces[at].x1, 0), at))
    return pieces[nearest:] + pieces[:nearest][::-1]
