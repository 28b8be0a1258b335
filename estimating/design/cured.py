"""What would cure a zone that cannot be boarded, knowing the walls, joists and things round it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache

from estimating.design.boards.changes import FURTHEST_MM, Site
from estimating.design.boards.cures import changed, with_cures
from estimating.design.boards.layout import NoLayout
from estimating.design.boards.problem import LayoutProblem
from estimating.design.zones import ZoneFrame, with_outline
from estimating.plane import Polygon

REFUSALS_KEPT = 32

ProblemOf = Callable[[ZoneFrame], LayoutProblem]
"""What sets the problem of laying a zone, wherever its edges lie."""


def site_of(frame: ZoneFrame, problem_of: ProblemOf) -> Site:
    """Tell where the edges of a zone may be moved, and what it then is to lay.

    Args:
        frame: The zone in its own frame. Record. [mm]
        problem_of: What sets the problem of laying it. Function. [-]

    Returns:
        The site. Record. [mm]

    Source:
        Own definition.
    """
    numbers = {joist.at_mm: joist.number for joist in frame.field_joists}

    def remade(outline: Polygon) -> LayoutProblem | None:
        moved = with_outline(frame, outline)
        return problem_of(moved) if moved else None

    return Site(
        lines=() if frame.on_battens else tuple(numbers),
        remade=remade,
        line_name=lambda line: f"joist {numbers[line]}",
        turns=frame.turns,
        holds=frame.room.holds,
    )


@lru_cache(maxsize=REFUSALS_KEPT)
def refusal_with_cures(
    frame: ZoneFrame,
    problem_of: ProblemOf,
    refused: NoLayout,
    furthest_mm: int = FURTHEST_MM,
    boards: tuple[tuple[LayoutProblem, str], ...] = (),
) -> NoLayout:
    """Look for what would cure a zone that cannot be boarded.

    Looking takes up to a second, so it is for the deck finally taken and not for every board compared; what
    was found is kept for the next time the same is asked.

    Args:
        frame: The zone in its own frame. Record. [mm]
        problem_of: What sets the problem of laying it. Function. [-]
        refused: Why it cannot be boarded. Record. [-]
        furthest_mm: How far an edge may be moved. Scalar. [mm]
        boards: The zone as it is with other boards, and what to call them. Tuple of pairs. [mm]

    Returns:
        The refusal with its cures. Record. [mm]

    Source:
        As with_cures.
    """
    return with_cures(
        problem_of(frame),
        refused,
        others=[problem for problem, _ in boards],
        site=replace(site_of(frame, problem_of), furthest_mm=furthest_mm),
        board_names={problem.product.code: name for problem, name in boards},
    )


def frame_cured(
    frame: ZoneFrame, problem_of: ProblemOf, refused: NoLayout, furthest_mm: int
) -> ZoneFrame | None:
    """Change a zone that cannot be boarded as its first cure says.

    Args:
        frame: The zone in its own frame. Record. [mm]
        problem_of: What sets the problem of laying it. Function. [-]
        refused: Why it cannot be boarded. Record. [-]
        furthest_mm: How far an edge may be moved. Scalar. [mm]

    Returns:
        The zone with its edges moved or its rows started elsewhere; None where nothing cures it. Record. [mm]

    Source:
        As with_cures.
    """
    for cure in refusal_with_cures(frame, problem_of, refused, furthest_mm).cures[:1]:
        after = changed(problem_of(frame), cure, site_of(frame, problem_of))
        cured = with_outline(frame, after.outline) if after else None
        if after and cured:
            return replace(cured, edge_moves=cure.moves, row_origin_mm=after.row_origin_mm)
    return None
