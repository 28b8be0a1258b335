"""What would cure a zone that cannot be boarded, knowing the walls, joists and things round it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from estimating.design.boards.changes import Site
from estimating.design.boards.cures import changed, with_cures
from estimating.design.boards.layout import NoLayout
from estimating.design.boards.problem import LayoutProblem
from estimating.design.design import ZoneDesign
from estimating.design.zones import ZoneFrame, with_outline
from estimating.plane import Polygon

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


def zone_with_cures(
    zone: ZoneDesign,
    frame: ZoneFrame,
    problem_of: ProblemOf,
    *,
    others: Sequence[LayoutProblem] = (),
    board_names: Mapping[str, str] | None = None,
) -> ZoneDesign:
    """Say with a zone that cannot be boarded what would cure it; any other stays as it is.

    Looking takes up to a second, so it is for the deck finally taken and not for every board compared.

    Args:
        zone: The zone designed. Record. [mm]
        frame: The zone in its own frame. Record. [mm]
        problem_of: What sets the problem of laying it with its board. Function. [-]
        others: The zone as it is with other boards. Sequence of records. [mm]
        board_names: What to call boards, by code. Mapping. [-]

    Returns:
        The zone, its refusal with cures. Record. [mm]

    Source:
        As with_cures.
    """
    if zone.no_layout is None:
        return zone
    cured = with_cures(
        zone.problem,
        zone.no_layout,
        others=others,
        site=site_of(frame, problem_of),
        board_names=board_names,
    )
    return replace(zone, no_layout=cured)


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
    problem, site = problem_of(frame), replace(site_of(frame, problem_of), furthest_mm=furthest_mm)
    for cure in with_cures(problem, refused, site=site).cures[:1]:
        after = changed(problem, cure, site)
        cured = with_outline(frame, after.outline) if after else None
        if after and cured:
            return replace(cured, edge_moves=cure.moves, row_origin_mm=after.row_origin_mm)
    return None
