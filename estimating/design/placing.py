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
from estimating.design.boards.lay import Effort, lay_boards
from estimating.design.boards.layout import Layout, NoLayout
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.row_starts import narrow_strips, row_origins_mm
from estimating.design.boards.rows import DeckRows
from estimating.design.boards.steps import RunSteps, steps_of_every_run
from estimating.design.cured import ProblemOf, frame_cured
from estimating.design.moves_to_try import least_work, moves_of
from estimating.design.zones import ZoneFrame
from estimating.plane import quarter_turned

STEPS_LAID_FOR_ROWS, STEPS_LAID_FOR_EDGES = 2_500, 6_000
LEAST_LAID, MOST_LAID = 2, 12
SCORES_KEPT = 256
CANNOT_BE_LAID = 1_000_000


class _Score(NamedTuple):
    """How well a zone lies, the least being the best; the fields stand in the order of preference."""

    unlaid: bool
    narrow_strips: int
    boards: int
    bearers_and_rips: int


def placed_zones(frames: Sequence[ZoneFrame], problems_of: Sequence[ProblemOf]) -> tuple[ZoneFrame, ...]:
    """Place all zones of a deck for the board it is laid with, each beside those placed before.

    Args:
        frames: The zones as wished. Sequence of records. [mm]
        problems_of: What sets the problem of laying each. Sequence of functions. [-]

    Returns:
        The zones placed. Tuple of records. [mm]

    Source:
        As placed.
    """
    done = list(frames)
    for place, (frame, problem_of) in enumerate(zip(frames, problems_of, strict=True)):
        others = (
            each.finished_edge if each.edge_moves else each.zone.outline for each in done if each is not frame
        )
        beside = tuple(quarter_turned(other, frame.turns) for other in others)
        done[place] = placed(replace(frame, room=replace(frame.room, zones=beside)), problem_of)
    return tuple(done)


def placed(frame: ZoneFrame, problem_of: ProblemOf) -> ZoneFrame:
    """Place a zone for the board it is laid with.

    Edges go no further than the surveyor allows, by default nowhere; a move is kept where it saves a sliver,
    a board, a bearer or a rip, and the smallest of those that save as much. Then rows start from the line
    that takes the fewest boards, and of those the one with the fewest rips. A zone that cannot be boarded as
    wished is cured, if what the surveyor allows cures it.

    Args:
        frame: The zone as wished, in its own frame. Record. [mm]
        problem_of: What sets the problem of laying it. Function. [-]

    Returns:
        The zone placed, with its moves. Record. [mm]

    Source:
        Common practice, no source.
    """
    problem = problem_of(frame)
    steps = max(1, sum(len(each) for run in _runs(problem) for each in run.steps))
    if _score(problem).unlaid:
        refused = lay_boards(problem, Effort.FIRST)
        assert isinstance(refused, NoLayout)  # noqa: S101 - or it would be laid
        return frame_cured(frame, problem_of, refused, frame.zone.edge_may_move_mm) or frame
    if frame.zone.edge_may_move_mm:
        frame = _edges_placed(
            frame, problem_of, max(LEAST_LAID, min(MOST_LAID, STEPS_LAID_FOR_EDGES // steps))
        )
    return _rows_placed(frame, problem_of, min(MOST_LAID, STEPS_LAID_FOR_ROWS // steps))


def _edges_placed(frame: ZoneFrame, problem_of: ProblemOf, most_laid: int) -> ZoneFrame:
    """Try the edges one after another, end edges first; each goes where it gains most."""
    names = edge_names(frame.outline, frame.turns)
    laid = 0
    for side in sorted(names, key=lambda side: (not _edge(frame, side).is_end, side)):
        problem = problem_of(frame)
        now, work = _score(problem), least_work(_runs(problem))
        found = [(now, 0, frame)]
        for move, moved in moves_of(frame, _edge(frame, side), problem, names):
            if laid == most_laid:
                break
            tried = problem_of(moved)
            if _could_gain(problem, tried, work):
                laid += 1
                kept = replace(moved, edge_moves=(*frame.edge_moves, move))
                found.append((_score(tried), abs(move.outward_mm), kept))
        frame = min(found, key=lambda each: each[:2])[2]
    return frame


def _edge(frame: ZoneFrame, side: int) -> Edge:
    return next(edge for edge in edges_of(frame.outline) if edge.side == side)


def _could_gain(before: LayoutProblem, after: LayoutProblem, work: tuple[int, int, int]) -> bool:
    """Whether there are fewer slivers or ripped rows, or rows take fewer pieces or bearers at the least."""
    if _ripped_edges(after) < _ripped_edges(before) or _slivers(after) < _slivers(before):
        return True
    stuck, pieces, bearers = least_work(_runs(after))
    return stuck <= work[0] and (stuck < work[0] or pieces < work[1] or bearers < work[2])


def _rows_placed(frame: ZoneFrame, problem_of: ProblemOf, most_laid: int) -> ZoneFrame:
    problem = problem_of(frame)
    width, least = problem.product.cover_width_mm, problem.rules.min_strip_mm
    origins = row_origins_mm(frame.outline, width, least)
    others = [origin for origin in origins if origin != problem.row_origin_mm][:most_laid]
    if not others:
        return frame
    found = [frame, *(replace(frame, row_origin_mm=origin) for origin in others)]
    return min(found, key=lambda each: _score(problem_of(each)))


def _runs(problem: LayoutProblem) -> tuple[RunSteps, ...]:
    return steps_of_every_run(problem, DeckRows(problem))


def _slivers(problem: LayoutProblem) -> int:
    """Strips too narrow to lay, along the rows and between an end edge and a keep-out."""
    width, least = problem.product.cover_width_mm, problem.rules.min_strip_mm
    beside = sum(run.x1 - run.x0 < least for run in DeckRows(problem).runs)
    return narrow_strips(problem.outline, problem.row_origin_mm, width, least) + beside


def _ripped_edges(problem: LayoutProblem) -> int:
    width = problem.product.cover_width_mm
    return narrow_strips(problem.outline, problem.row_origin_mm, width, width)


@lru_cache(maxsize=SCORES_KEPT)
def _score(problem: LayoutProblem) -> _Score:
    """Lay a problem and score it; a changed choice asks the same again, and nothing of it has changed."""
    answer = lay_boards(problem, Effort.FIRST)
    slivers = _slivers(problem)
    if not isinstance(answer, Layout):
        return _Score(True, slivers, answer.stagger_breaks or CANNOT_BE_LAID, 0)
    ripped = sum(piece.width_mm < problem.product.cover_width_mm for piece in answer.pieces)
    return _Score(False, slivers, answer.boards, ripped + len(edge_bearers(problem, answer)))
