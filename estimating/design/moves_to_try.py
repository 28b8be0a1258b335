"""Which moves of a zone's edges could gain something: ends onto joists, row edges so that a row is whole."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from estimating.design.boards.edges import Edge, EdgeMove, Facing, with_edge_moved
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.steps import RunSteps
from estimating.design.zones import ZoneFrame, with_outline
from estimating.plane import bounds

NEXT_TO_A_JOIST_MM = 10  # an edge that comes so near to a joist may as well lie on it


def moves_of(
    frame: ZoneFrame, edge: Edge, problem: LayoutProblem, names: dict[int, str]
) -> Iterator[tuple[EdgeMove, ZoneFrame]]:
    """List the moves of one edge worth a look, within what the surveyor allows.

    Args:
        frame: The zone in its own frame. Record. [mm]
        edge: The edge. Record. [mm]
        problem: The problem of laying the zone as it is. Record. [mm]
        names: What the edges are called, by side. Mapping. [-]

    Returns:
        Each move with the zone so changed, the likeliest first. Iterator of pairs. [mm]

    Source:
        Edges snapped to a joist: common practice, no source.
    """
    if frame.room.holds(edge):
        return
    distances = _end_distances(frame, edge, problem) if edge.is_end else _row_distances(edge, problem)
    for outward in dict.fromkeys(distances):
        if not 0 < abs(outward) <= frame.zone.edge_may_move_mm:
            continue
        outline = with_edge_moved(frame.outline, edge, outward)
        if outline is None or len(outline) != len(frame.outline):
            continue
        moved = with_outline(frame, outline)
        if moved is not None:
            onto = _joist_at(frame, edge.at_mm + edge.outward * outward) if edge.is_end else ""
            yield EdgeMove(side=edge.side, edge=names[edge.side], outward_mm=outward, onto=onto), moved


def _end_distances(frame: ZoneFrame, edge: Edge, problem: LayoutProblem) -> list[int]:
    """Onto a joist; else just within the overhang that needs no bearer, or a whole board from a joist.

    On battens there is nothing to snap to, because they are laid to suit the deck.
    """
    if frame.on_battens:
        return []
    joists = [joist.at_mm for joist in frame.field_joists]
    longest = problem.product.cover_length_mm + problem.rules.gap_tolerance_mm
    beyond = (problem.rules.max_overhang_mm, longest)
    stops = [x for area in problem.keep_outs for x, _ in area.outline]
    onto = sorted((abs(line - edge.at_mm), line) for line in (*joists, *stops))
    others = sorted(
        (abs(line - edge.at_mm), line)
        for line in (joist + edge.outward * each for joist in joists for each in beyond)
        if all(abs(line - joist) > NEXT_TO_A_JOIST_MM for joist in joists)
    )
    return [(line - edge.at_mm) * edge.outward for _, line in (*onto, *others)]


def _row_distances(edge: Edge, problem: LayoutProblem) -> list[int]:
    """So that the row ends on a seam, here or there, or at least leaves a strip wide enough to lay.

    Rows start from the lowest edge, so that moving it changes the width of the row at the far edge.
    """
    width, least = problem.product.cover_width_mm, problem.rules.min_strip_mm
    _, low, _, high = bounds(problem.outline)
    from_seam = edge.outward * (edge.at_mm - problem.row_origin_mm)
    if edge.facing is Facing.LOW and edge.at_mm == low:
        from_seam = high - low
    strip = from_seam % width
    if not strip:
        return []
    nearest = sorted((-strip, width - strip), key=abs)
    return [*nearest, least - strip] if strip < least else nearest


def _joist_at(frame: ZoneFrame, line: int) -> str:
    return next((f"joist {joist.number}" for joist in frame.field_joists if joist.at_mm == line), "")


class LeastWork(NamedTuple):
    """What the runs of a zone take at the least, and how much there is to look at."""

    steps: int
    stuck: int  # runs that cannot be laid
    slivers: int  # runs too narrow to lay
    pieces: int
    bearers: int


def least_work(runs: Sequence[RunSteps], least_strip_mm: int) -> LeastWork:
    """Tell what the runs take at the least, each by itself: whether a move could gain anything is seen by it.

    Args:
        runs: The steps of every run. Sequence of records. [mm]
        least_strip_mm: The narrowest strip to lay. Scalar. [mm]

    Returns:
        The counts. Record. [count]

    Source:
        Shortest paths.
    """
    ends = []
    for run in runs:
        best: dict[int, tuple[int, int]] = {0: (0, 0)}
        for line, steps in enumerate(run.steps):
            for step in steps if line in best else ():
                then = best[line][0] + 1, best[line][1] + step.bearers
                best[step.to] = min(best.get(step.to, then), then)
        ends.append(best.get(len(run.lines) - 1))
    return LeastWork(
        steps=sum(len(steps) for run in runs for steps in run.steps),
        stuck=ends.count(None),
        slivers=sum(run.run.x1 - run.run.x0 < least_strip_mm for run in runs),
        pieces=sum(end[0] for end in ends if end),
        bearers=sum(end[1] for end in ends if end),
    )
