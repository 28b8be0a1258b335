"""Edge bearers: short timbers where a board's free end runs too far past its last joist."""

from __future__ import annotations

from typing import NamedTuple

from estimating.design.boards.layout import Layout
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.steps import supports_under


class EdgeBearer(NamedTuple):
    """A bearer under a free end: the line of the end, and how far it runs along the joists."""

    x: int
    y0: int
    y1: int


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
        if found.left_bearer:
            bearers.append(EdgeBearer(piece.x0, piece.y0, piece.y1))
        if found.right_bearer:
            bearers.append(EdgeBearer(piece.x1, piece.y0, piece.y1))
    return tuple(bearers)
