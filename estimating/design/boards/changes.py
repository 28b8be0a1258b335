"""The small changes to a deck that are worth trying: an end edge moved, a row edge moved, rows started anew.

What can be laid changes only where an edge passes a line: a joist, a joist by the least piece or the longest
one, something the deck goes round. So those lines are tried and nothing between them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from estimating.design.boards.edges import Edge, EdgeMove, Facing, edge_names, edges_of, with_edge_moved
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.refused import told_mm
from estimating.design.boards.row_starts import narrow_strips, row_origins_mm
from estimating.plane import Polygon, bounds

FURTHEST_MM = 150


@dataclass(frozen=True, slots=True)
class Site:
    """What lies round a deck whose edges may move.

    `lines` are all lines that could carry it, beyond its edges too. `remade` gives the problem with another
    finished edge, None where the edge may not go. `turns` lead from the plan into the frame of the problem.
    `holds` tells of an edge that must stay where it is, `furthest_mm` how far any may go.
    """

    lines: tuple[int, ...]
    remade: Callable[[Polygon], LayoutProblem | None]
    line_name: Callable[[int], str]
    turns: int = 0
    holds: Callable[[Edge], bool] = lambda edge: False
    furthest_mm: int = FURTHEST_MM


@dataclass(frozen=True, slots=True)
class Change:
    """A problem changed, and by what."""

    problem: LayoutProblem
    moves: tuple[EdgeMove, ...] = ()

    @property
    def moved_mm(self) -> int:
        """How far edges were moved in all."""
        return sum(abs(move.outward_mm) for move in self.moves)


def site_alone(problem: LayoutProblem) -> Site:
    """Give the site of a deck of which nothing is known but its own problem.

    Args:
        problem: The layout problem. Record. [mm]

    Returns:
        A site on the problem's joists where edges may go anywhere. Record. [mm]

    Source:
        Own definition.
    """

    def remade(outline: Polygon) -> LayoutProblem:
        return replace(problem, outline=outline, row_origin_mm=min(problem.row_origin_mm, bounds(outline)[1]))

    return Site(problem.joist_lines, remade, lambda line: f"the joist at {told_mm(problem, line)} mm")


def edges_moved(problem: LayoutProblem, site: Site) -> Iterator[Change]:
    """Move every edge, one at a time, in and out to the lines that matter, nearest first.

    The rows go with the edge that they start from; every other edge is moved across them.

    Args:
        problem: The layout problem. Record. [mm]
        site: What lies round it. Record. [mm]

    Returns:
        The changed problems that may be. Iterator of records. [mm]

    Source:
        Own definition.
    """
    names = edge_names(problem.outline, site.turns)
    tries = [
        (abs(outward), edge.side, outward, edge)
        for edge in edges_of(problem.outline)
        if not site.holds(edge)
        for outward in _distances(problem, site, edge)
        if 0 < abs(outward) <= site.furthest_mm
    ]
    for _, side, outward, edge in sorted(tries):
        line = edge.at_mm + edge.outward * outward
        onto = site.line_name(line) if edge.is_end and line in site.lines else ""
        change = with_move(
            Change(problem), site, edge, EdgeMove(side=side, edge=names[side], outward_mm=outward, onto=onto)
        )
        if change is not None:
            yield change


def with_move(change: Change, site: Site, edge: Edge, move: EdgeMove) -> Change | None:
    """Move one more edge of a changed problem.

    Args:
        change: What was changed before. Record. [mm]
        site: What lies round the deck. Record. [mm]
        edge: The edge, as it lies in the changed problem. Record. [mm]
        move: How it is moved. Record. [mm]

    Returns:
        The problem changed further; None where the edge may not go there. Record. [mm]

    Source:
        Own definition.
    """
    before = change.problem
    outline = with_edge_moved(before.outline, edge, move.outward_mm)
    remade = site.remade(outline) if outline else None
    if remade is None:
        return None
    low, origin = bounds(remade.outline)[1], before.row_origin_mm
    if edge.facing is Facing.LOW and edge.at_mm == bounds(before.outline)[1]:
        origin += low - edge.at_mm
    elif low < origin:
        origin -= before.product.cover_width_mm
    return Change(replace(remade, row_origin_mm=origin), (*change.moves, move))


def _distances(problem: LayoutProblem, site: Site, edge: Edge) -> set[int]:
    """How far outward an edge comes to lie on each line that matters to it; inward is negative."""
    lines = _end_lines(problem, site, edge) if edge.is_end else _row_lines(problem, edge)
    return {(line - edge.at_mm) * edge.outward for line in lines}


def _end_lines(problem: LayoutProblem, site: Site, edge: Edge) -> Iterator[int]:
    """Lines an end edge may lie on so that other pieces become possible.

    On a joist; beyond it by the least piece or the longest; so far beyond that a bearer carries the end;
    against something the deck goes round, or a longest piece from it.
    """
    rules = problem.rules
    longest = problem.product.cover_length_mm + rules.gap_tolerance_mm
    bearer = rules.max_overhang_mm + rules.gap_tolerance_mm + 1
    short_too = bearer + rules.gap_tolerance_mm  # a right end is as far beyond even where it is cut short
    reaches = sorted({-rules.joint_tolerance_mm, 0, rules.joint_tolerance_mm})
    for joist in site.lines:
        for beyond in (0, rules.min_piece_mm, longest, bearer, short_too):
            yield from (joist + edge.outward * (beyond + reach) for reach in reaches)
    across = (x for area in problem.keep_outs for x, _ in area.outline)
    for stop in (*across, *(other.at_mm for other in edges_of(problem.outline) if other.is_end)):
        yield from (stop, stop + edge.outward * longest)


def _row_lines(problem: LayoutProblem, edge: Edge) -> Iterator[int]:
    """Lines a row edge may lie on so that rows are divided otherwise: seams, and what the deck goes round.

    The edge that rows start from takes the seams with it, so it is moved until a seam meets something.
    """
    width, origin = problem.product.cover_width_mm, problem.row_origin_mm
    heights = _heights(problem)
    starts = edge.facing is Facing.LOW and edge.at_mm == bounds(problem.outline)[1]
    if starts:
        for height in heights:
            over = (height - origin) % width
            yield from (edge.at_mm + shift for shift in (over, over - width))
        return
    yield from heights
    below = (edge.at_mm - origin) // width
    yield from (origin + width * seam for seam in (below - 1, below, below + 1, below + 2))


def _heights(problem: LayoutProblem) -> Sequence[int]:
    edges = (edge.at_mm for edge in edges_of(problem.outline) if not edge.is_end)
    return sorted({y for area in problem.keep_outs for _, y in area.outline} | set(edges))


def rows_started_anew(problem: LayoutProblem) -> Iterator[Change]:
    """Start the rows from other lines: the usual ones, those that bring a seam to a keep-out, those between.

    None of them leaves more narrow strips than there are.

    Args:
        problem: The layout problem. Record. [mm]

    Returns:
        The changed problems. Iterator of records. [mm]

    Source:
        Own definition.
    """
    width, least = problem.product.cover_width_mm, problem.rules.min_strip_mm
    low, now = bounds(problem.outline)[1], problem.row_origin_mm
    narrow = narrow_strips(problem.outline, now, width, least)
    at_things = sorted({low - (low - height) % width for height in _heights(problem)}, reverse=True)
    between = [(one + other) // 2 for one, other in pairwise([*at_things, low - width])]
    origins = [*row_origins_mm(problem.outline, width, least), *at_things, *between]
    for origin in dict.fromkeys(origins):
        if (origin - now) % width and narrow_strips(problem.outline, origin, width, least) <= narrow:
            yield Change(replace(problem, row_origin_mm=origin))
