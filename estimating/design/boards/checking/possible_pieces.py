"""The checker's own list of pieces a run might be laid in: never fewer than the rules allow.

A bound holds only if no legal piece is left out. Where a rule depends on how far within the joint tolerance
two ends meet, a piece counts as possible when it is so anywhere within it.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from estimating.design.boards.checking.fault import SLACK_MM
from estimating.design.boards.checking.row_shapes import Kept, RowRun, least_kept
from estimating.design.boards.problem import LayoutProblem

RUN_END = -1


class Stop(NamedTuple):
    """Where pieces of a run may end: the run's own end, or all whole millimetres about one joist."""

    joist: int
    first: int
    last: int


class Between(NamedTuple):
    """Pieces from one stop to another: what they keep, and the shortest and longest span they may fill."""

    start: int
    to: int
    kept: Kept
    shortest: int
    longest: int


class PossiblePieces(NamedTuple):
    """The stops of a run, left to right, and the pieces between them in the order of their right stops."""

    stops: tuple[Stop, ...]
    pieces: tuple[Between, ...]


def possible_pieces(problem: LayoutProblem, run: RowRun) -> PossiblePieces:
    """List the pieces that a run might be laid in.

    Args:
        problem: The layout problem. Record. [mm]
        run: The run. Record. [mm]

    Returns:
        Its stops and pieces. Record. [mm]

    Source:
        End joints on joists: NHBC Standards 6.4.19; other rules: see the laying rules of the problem.
    """
    stops = stops_of(problem, run)
    return PossiblePieces(stops, tuple(_pieces(problem, run, stops)))


def stops_of(problem: LayoutProblem, run: RowRun) -> tuple[Stop, ...]:
    """List the ends of a run and the joists on which pieces of it may meet.

    Args:
        problem: The layout problem. Record. [mm]
        run: The run. Record. [mm]

    Returns:
        The stops, left to right. Tuple of records. [mm]

    Source:
        As possible_pieces.
    """
    rules = problem.rules
    nearest, furthest = run.left + rules.min_piece_mm, run.right - rules.min_piece_mm
    reach = rules.joint_tolerance_mm
    about = (
        Stop(joist, max(line - reach, nearest), min(line + reach, furthest))
        for joist, line in enumerate(problem.joist_lines)
    )
    return (
        Stop(RUN_END, run.left, run.left),
        *(stop for stop in about if stop.first <= stop.last),
        Stop(RUN_END, run.right, run.right),
    )


def _pieces(problem: LayoutProblem, run: RowRun, stops: Sequence[Stop]) -> Iterator[Between]:
    rules, length = problem.rules, problem.product.cover_length_mm
    gap, last = rules.gap_tolerance_mm, len(stops) - 1
    for to in range(1, len(stops)):
        for start in range(to):
            left, right = stops[start], stops[to]
            longest = min(right.last - left.first, length + gap)
            shortest = max(right.first - left.last, 1)
            if (start, to) != (0, last):
                shortest = max(shortest, rules.min_piece_mm)
                if rules.end_joint == "tg" and start > 0 and to < last:
                    shortest = max(shortest, length - gap)
            if shortest <= longest and may_be_carried(problem, left, right):
                # a piece may leave a gap at either end, and need not keep what it would only meet there
                inner = left.last + gap, right.first - gap
                yield Between(start, to, least_kept(problem, run, *inner), shortest, longest)


def may_be_carried(problem: LayoutProblem, left: Stop, right: Stop) -> bool:
    """Tell whether a piece between two stops might rest on enough joists and edge bearers.

    Args:
        problem: The layout problem. Record. [mm]
        left: Where it begins. Record. [mm]
        right: Where it ends. Record. [mm]

    Returns:
        Whether it might, wherever within its stops it is cut. Scalar. [-]

    Source:
        Two bays under a board: LABC Warranty, floor decks; overhang: common practice, no source.
    """
    rules, joists = problem.rules, problem.joist_lines
    near = rules.gap_tolerance_mm + rules.joint_tolerance_mm + SLACK_MM
    first = bisect_left(joists, left.first - near)
    past = bisect_right(joists, right.last + near)
    bare = first >= past
    far = rules.max_overhang_mm
    left_bearer = left.joist == RUN_END and (bare or joists[first] - left.first > far)
    right_bearer = right.joist == RUN_END and (bare or right.last - joists[past - 1] > far)
    return past - first + left_bearer + right_bearer >= rules.min_supports
