"""Every legal piece of every run: the steps a run can be laid in, before any is chosen.

A run is laid as a path from its left end to its right end, stopping only on joist lines. A step of that
path is one piece. Solvers choose paths; the rules that make a step legal live here and nowhere else.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from estimating.design.boards.problem import LayingRules, LayoutProblem
from estimating.design.boards.rows import Blank, DeckRows, Run

RUN_END = -1

NO_END, LEFT_END, RIGHT_END, BOTH_ENDS = 0, 1, 2, 3


class Step(NamedTuple):
    """One piece of a run: its span, the joist its right end rests on, and what it takes from a board."""

    to: int
    x0: int
    x1: int
    joist: int
    blank: Blank
    factory_ends: int
    least_mm: int
    bearers: int


@dataclass(frozen=True, slots=True)
class RunSteps:
    """The stopping lines of a run and the legal steps from each of them."""

    run: Run
    lines: tuple[int, ...]
    joists: tuple[int, ...]
    steps: tuple[tuple[Step, ...], ...]

    @property
    def can_be_laid(self) -> bool:
        """Whether any path leads from end to end, whatever the neighbouring rows do."""
        reached = {0}
        for line, steps in enumerate(self.steps):
            if line in reached:
                reached.update(step.to for step in steps)
        return len(self.lines) - 1 in reached


class Supports(NamedTuple):
    """What carries a piece: joists under it, and whether either free end needs an edge bearer."""

    joists: int
    left_bearer: bool
    right_bearer: bool

    @property
    def total(self) -> int:
        return self.joists + self.left_bearer + self.right_bearer


def supports_under(
    joist_lines: Sequence[int], rules: LayingRules, span: tuple[int, int], free: tuple[bool, bool]
) -> Supports:
    """Count what carries a piece, edge bearers included.

    A free end further than the greatest overhang from its nearest joist gets an edge bearer.

    Args:
        joist_lines: Centre lines of the joists, ascending. Sequence. [mm]
        rules: The laying rules. Record. [mm]
        span: Left and right end of the piece as cut. Pair. [mm]
        free: Whether the left and the right end meet no other piece. Pair. [-]

    Returns:
        Joists under the piece and the bearers it needs. Record. [-]

    Source:
        Two bays and more under a board: LABC Warranty, floor decks; overhang: common practice, no source.
    """
    reach = rules.gap_tolerance_mm + rules.joint_tolerance_mm
    first, past = bisect_left(joist_lines, span[0] - reach), bisect_right(joist_lines, span[1] + reach)
    far = rules.max_overhang_mm + rules.gap_tolerance_mm
    bare = first >= past
    left = free[0] and (bare or joist_lines[first] - span[0] > far)
    right = free[1] and (bare or span[1] - joist_lines[past - 1] > far)
    return Supports(past - first, left, right)


def steps_of_every_run(problem: LayoutProblem, rows: DeckRows) -> tuple[RunSteps, ...]:
    """List every legal step of every run.

    Args:
        problem: The layout problem. Record. [mm]
        rows: Its deck in rows. Record. [mm]

    Returns:
        The steps of each run, in the order of the runs. Tuple of records. [mm]

    Source:
        End joints on joists: NHBC Standards 6.4.19; other rules: see the laying rules of the problem.
    """
    return tuple(_steps_of(problem, rows, run) for run in rows.runs)


def _steps_of(problem: LayoutProblem, rows: DeckRows, run: Run) -> RunSteps:
    stops = [(run.x0, RUN_END), *_stopping_lines(problem, run), (run.x1, RUN_END)]
    rules, product = problem.rules, problem.product
    longest = product.cover_length_mm + rules.gap_tolerance_mm
    every: list[tuple[Step, ...]] = []
    for at, (x0, joist0) in enumerate(stops[:-1]):
        steps: list[Step] = []
        for to in range(at + 1, len(stops)):
            x1, joist1 = stops[to]
            if x1 - x0 > longest:
                break
            free = (at == 0, to == len(stops) - 1)
            too_short = x1 - x0 < rules.min_piece_mm and not all(free)
            if too_short or (joist0 == joist1 and joist0 != RUN_END):
                continue
            step = _step(problem, rows, run.row, (x0, x1), free)
            if step is not None:
                steps.append(step._replace(to=to, joist=joist1))
        every.append(tuple(steps))
    return RunSteps(run, tuple(x for x, _ in stops), tuple(joist for _, joist in stops), tuple(every))


def _step(
    problem: LayoutProblem, rows: DeckRows, row: int, span: tuple[int, int], free: tuple[bool, bool]
) -> Step | None:
    rules, length = problem.rules, span[1] - span[0]
    # a piece may be cut short by the gap, and must be carried either way
    shortened = (span[0], max(span[1] - rules.gap_tolerance_mm, span[0] + 1))
    carried = [supports_under(problem.joist_lines, rules, cut, free) for cut in (span, shortened)]
    if min(found.total for found in carried) < rules.min_supports:
        return None
    least = shortened[1] - span[0]
    ends = NO_END
    if rules.end_joint == "tg" and not all(free):
        ends = (NO_END if free[0] else LEFT_END) | (NO_END if free[1] else RIGHT_END)
        if ends == BOTH_ENDS:
            if length < problem.product.cover_length_mm:
                return None
            least = problem.product.cover_length_mm
    bearers = carried[0].left_bearer + carried[0].right_bearer
    blank = rows.blank(row, *span)
    return Step(0, *span, RUN_END, blank, ends, least + rules.kerf_mm, bearers)


def _stopping_lines(problem: LayoutProblem, run: Run) -> list[tuple[int, int]]:
    """The lines inside a run where ends may meet, each with its joist.

    Without joint tolerance these are the joist lines. With it, a tightest layout stops at an end of some
    joist's tolerance or a longest (or least) piece away from another stop, so these lines are enough.
    """
    rules = problem.rules
    nearest, furthest = run.x0 + rules.min_piece_mm, run.x1 - rules.min_piece_mm
    tolerance = rules.joint_tolerance_mm
    if not tolerance:
        return [(x, number) for number, x in enumerate(problem.joist_lines) if nearest <= x <= furthest]
    strides = (problem.product.cover_length_mm + rules.gap_tolerance_mm, rules.min_piece_mm)
    found = {
        (x + shift, number)
        for number, x in enumerate(problem.joist_lines)
        for shift in (-tolerance, 0, tolerance)
    }
    fresh = {x for x, _ in found} | {run.x0, run.x1}
    seen = set(fresh)
    while fresh:
        reached = {x + stride * way for x in fresh for stride in strides for way in (-1, 1)} - seen
        on_joists = {
            (x, number) for x in reached for number in _joists_within(problem.joist_lines, x, tolerance)
        }
        found |= on_joists
        fresh = {x for x, _ in on_joists}
        seen |= reached
    return sorted((x, number) for x, number in found if nearest <= x <= furthest)


def _joists_within(joist_lines: Sequence[int], x: int, tolerance: int) -> range:
    return range(bisect_left(joist_lines, x - tolerance), bisect_right(joist_lines, x + tolerance))
