"""Where a zone lies exactly once its board is known: its edges, as far as they may move, and its rows.

A deck a few millimetres longer or shorter may take fewer boards, no edge bearers, or no sliver of a row. What
could gain something is laid, quickly and only so often, and the best is kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from estimating.design.boards.bearers import edge_bearers
from estimating.design.boards.edges import Edge, edge_names, edges_of
from estimating.design.boards.layout import Layout, NoLayout
from estimating.design.boards.problem import BoardSource, DeckTask, LayoutProblem
from estimating.design.boards.row_starts import narrow_strips, row_origins_mm
from estimating.design.boards.rows import DeckRows
from estimating.design.boards.steps import steps_of_every_run
from estimating.design.cured import ProblemOf, frame_cured
from estimating.design.deck import first_layout
from estimating.design.moves_to_try import LeastWork, least_work, moves_of
from estimating.design.zones import ZoneFrame
from estimating.plane import quarter_turned

STEPS_LAID_FOR_ROWS, STEPS_LAID_FOR_EDGES = 1_800, 4_000
"""So many steps of work a placing may take, or a page would not answer in time; a large deck takes few."""

LEAST_LAID, MOST_LAID = 2, 12
PROBLEMS_KEPT = 64
CANNOT_BE_LAID = 1_000_000


class _Score(NamedTuple):
    """How well a zone lies, the least being the best; the fields stand in the order of preference."""

    unlaid: bool
    narrow_strips: int
    cost: int  # boards, or pence where lengths are mixed
    bearers_and_rips: int


def placed_zones(
    frames: Sequence[ZoneFrame], problems_of: Sequence[ProblemOf], sources: tuple[BoardSource, ...]
) -> tuple[ZoneFrame, ...]:
    """Place all zones of a deck for the board it is laid with, each beside those placed before.

    Args:
        frames: The zones as wished. Sequence of records. [mm]
        problems_of: What sets the problem of laying each. Sequence of functions. [-]
        sources: The boards to cut from. Tuple of records. [mm]

    Returns:
        The zones placed. Tuple of records. [mm]

    Source:
        As placed.
    """
    done = list(frames)
    for place, (frame, problem_of) in enumerate(zip(frames, problems_of, strict=True)):
        beside = tuple(
            quarter_turned(each.finished_edge if each.edge_moves else each.zone.outline, frame.turns)
            for each in done
            if each is not frame
        )
        room = replace(frame.room, zones=beside)
        done[place] = placed(replace(frame, room=room), problem_of, sources)
    return tuple(done)


def placed(frame: ZoneFrame, problem_of: ProblemOf, sources: tuple[BoardSource, ...]) -> ZoneFrame:
    """Place a zone for the board it is laid with.

    Edges go no further than the surveyor allows, by default nowhere; a move is kept where it saves a sliver,
    a board, a bearer or a rip, and the smallest of those that save as much. Then rows start from the line
    that takes the fewest boards, and of those the one with the fewest rips. A zone that cannot be boarded as
    wished is cured, if what the surveyor allows cures it.

    Args:
        frame: The zone as wished, in its own frame. Record. [mm]
        problem_of: What sets the problem of laying it. Function. [-]
        sources: The boards to cut from. Tuple of records. [mm]

    Returns:
        The zone placed, with its moves. Record. [mm]

    Source:
        Common practice, no source.
    """
    problem, may_move_mm = problem_of(frame), frame.zone.edge_may_move_mm
    refused = first_layout(DeckTask((problem,), sources)).zones[0]
    if isinstance(refused, NoLayout):
        return frame_cured(frame, problem_of, refused, may_move_mm) or frame
    steps = max(1, _work(problem).steps)
    if may_move_mm:
        most_laid = max(LEAST_LAID, min(MOST_LAID, STEPS_LAID_FOR_EDGES // steps))
        frame = _edges_placed(frame, problem_of, sources, most_laid)
    return _rows_placed(frame, problem_of, sources, min(MOST_LAID, STEPS_LAID_FOR_ROWS // steps))


def _edges_placed(
    frame: ZoneFrame, problem_of: ProblemOf, sources: tuple[BoardSource, ...], most_laid: int
) -> ZoneFrame:
    """Try the edges one after another, end edges first; each goes where it gains most."""
    names = edge_names(frame.outline, frame.turns)
    laid = 0
    for side in sorted(names, key=lambda side: (not _edge(frame, side).is_end, side)):
        problem = problem_of(frame)
        found = [(_score(problem, sources), 0, frame)]
        for move, moved in moves_of(frame, _edge(frame, side), problem, names):
            if laid == most_laid:
                break
            tried = problem_of(moved)
            if _could_gain(problem, tried):
                laid += 1
                kept = replace(moved, edge_moves=(*frame.edge_moves, move))
                found.append((_score(tried, sources), abs(move.outward_mm), kept))
        frame = min(found, key=lambda each: each[:2])[2]
    return frame


def _edge(frame: ZoneFrame, side: int) -> Edge:
    return next(edge for edge in edges_of(frame.outline) if edge.side == side)


def _could_gain(before: LayoutProblem, after: LayoutProblem) -> bool:
    """Whether there are fewer slivers or ripped rows, or rows take fewer pieces or bearers at the least."""
    if _ripped_edges(after) < _ripped_edges(before) or _slivers(after) < _slivers(before):
        return True
    was, then = _work(before), _work(after)
    return not then.stuck and (then.pieces < was.pieces or then.bearers < was.bearers)


def _rows_placed(
    frame: ZoneFrame, problem_of: ProblemOf, sources: tuple[BoardSource, ...], most_laid: int
) -> ZoneFrame:
    problem = problem_of(frame)
    width, least = problem.product.cover_width_mm, problem.rules.min_strip_mm
    origins = row_origins_mm(frame.outline, width, least)
    others = [origin for origin in origins if origin != problem.row_origin_mm][:most_laid]
    if not others:
        return frame
    found = [frame, *(replace(frame, row_origin_mm=origin) for origin in others)]
    return min(found, key=lambda each: _score(problem_of(each), sources))


@lru_cache(maxsize=PROBLEMS_KEPT)
def _work(problem: LayoutProblem) -> LeastWork:
    return least_work(steps_of_every_run(problem, DeckRows(problem)), problem.rules.min_strip_mm)


def _slivers(problem: LayoutProblem) -> int:
    """Strips too narrow to lay, along the rows and between an end edge and a keep-out."""
    width, least = problem.product.cover_width_mm, problem.rules.min_strip_mm
    return narrow_strips(problem.outline, problem.row_origin_mm, width, least) + _work(problem).slivers


def _ripped_edges(problem: LayoutProblem) -> int:
    width = problem.product.cover_width_mm
    return narrow_strips(problem.outline, problem.row_origin_mm, width, width)


def _score(problem: LayoutProblem, sources: tuple[BoardSource, ...]) -> _Score:
    laid = first_layout(DeckTask((problem,), sources))
    (answer,) = laid.zones
    if not isinstance(answer, Layout):
        return _Score(True, _slivers(problem), CANNOT_BE_LAID, 0)
    ripped = sum(piece.width_mm < problem.product.cover_width_mm for piece in answer.pieces)
    return _Score(False, _slivers(problem), laid.cost, ripped + len(edge_bearers(problem, answer)))
