"""Edge bearers: short timbers where a board's free end runs too far past its last joist.

A bearer is screwed to the board above it and stiffens its end from one long edge to the other, so that the
end levers as one on the last joist under the board. A board with no joist under it has bearers at both ends,
which then need cross-pieces from joist to joist below them.
"""

from __future__ import annotations

from typing import NamedTuple

from estimating.design.boards.layout import Layout
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.steps import supports_under


class EdgeBearer(NamedTuple):
    """A bearer under a free end: the line of the end, and how far it runs along the joists.

    `levers_on` is the line of the last joist under the board, None where no joist lies under it.
    """

    x: int
    y0: int
    y1: int
    levers_on: int | None


def edge_bearers(problem: LayoutProblem, layout: Layout) -> tuple[EdgeBearer, ...]:
    """List the edge bearers a layout needs, so that they are counted, priced and fixed.

    Args:
        problem: The layout problem. Record. [mm]
        layout: A layout of it. Record. [mm]

    Returns:
        A bearer for each free end beyond the greatest overhang, in the order of the pieces. Tuple. [mm]

    Source:
        Greatest overhang of 150 mm: common practice, no source.
    """
    jointed = {(joint.row, joint.x) for joint in layout.joints}
    gap = problem.rules.gap_tolerance_mm
    bearers: list[EdgeBearer] = []
    for piece in layout.pieces:
        left_free = (piece.row, piece.x0) not in jointed
        right_free = not any((piece.row, piece.x1 + short) in jointed for short in range(gap + 1))
        found = supports_under(
            problem.joist_lines, problem.rules, (piece.x0, piece.x1), (left_free, right_free)
        )
        under = [line for line in problem.joist_lines if piece.x0 <= line <= piece.x1]
        first, last = (under[0], under[-1]) if under else (None, None)
        if found.left_bearer:
            bearers.append(EdgeBearer(piece.x0, piece.y0, piece.y1, first))
        if found.right_bearer:
            bearers.append(EdgeBearer(piece.x1, piece.y0, piece.y1, last))
    return tuple(bearers)
