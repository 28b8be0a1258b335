"""Every legal piece of every run: the steps a run can be laid in, before any is chosen.

A run is laid as a path from its left end to its right end, stopping only where ends may meet. A step of that
path is one piece. Solvers choose paths; the rules that make a step legal live here and nowhere else.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from estimating.design.boards.joint_places import joint_places, lies_on_joist, stopping_lines
from estimating.design.boards.problem import LayingRules, LayoutProblem
from estimating.design.boards.rows import Blank, DeckRows, Run

RUN_END = -1

NO_END, LEFT_END, RIGHT_END, BOTH_ENDS = 0, 1, 2, 3


class Step(NamedTuple):
    """One piece of a run: its span, the joint place at its right end, and what it takes from a board.

    Joint places are numbered: they are the joists, unless end joints float.
    """

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
    """The stopping lines of a run, each with its joint place, and the legal steps from each of them."""

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
    maker = _StepMaker(problem, rows)
    return tuple(maker.steps_of(run) for run in rows.runs)


class _Carried(NamedTuple):
    """A span that is carried: what it must keep of its board's ends, what it takes, and its bearers."""

    factory_ends: int
    least_mm: int
    bearers: int


class _StepMaker:
    """Makes the steps of every run; the same span in another row is carried alike, so it is asked once."""

    def __init__(self, problem: LayoutProblem, rows: DeckRows) -> None:
        self._problem = problem
        self._rows = rows
        self._longest = problem.product.cover_length_mm + problem.rules.gap_tolerance_mm
        self._carried: dict[tuple[int, int, bool, bool], _Carried | None] = {}
        self._floats = problem.rules.end_joint == "floating"
        places = joint_places(problem) if self._floats else ()
        self._floating = frozenset(x for x in places if not lies_on_joist(problem, x))

    def steps_of(self, run: Run) -> RunSteps:
        """Every legal step of one run."""
        stops = [(run.x0, RUN_END), *stopping_lines(self._problem, run), (run.x1, RUN_END)]
        every = tuple(tuple(self._steps_from(run, stops, at)) for at in range(len(stops) - 1))
        return RunSteps(run, tuple(x for x, _ in stops), tuple(joist for _, joist in stops), every)

    def _steps_from(self, run: Run, stops: list[tuple[int, int]], at: int) -> Iterator[Step]:
        x0, joist0 = stops[at]
        for to in range(at + 1, len(stops)):
            x1, joist1 = stops[to]
            if x1 - x0 > self._longest:
                break
            if joist0 == joist1 != RUN_END or not self._worth_looking_at(stops, at, to):
                continue
            key = (x0, x1, at == 0, to == len(stops) - 1)
            if key not in self._carried:
                self._carried[key] = self._carry((x0, x1), key[2:])
            carried = self._carried[key]
            if carried is not None:
                blank = self._rows.blank(run, x0, x1)
                yield Step(to, x0, x1, joist1, blank, *carried)

    def _worth_looking_at(self, stops: Sequence[tuple[int, int]], at: int, to: int) -> bool:
        """Where joints float, a piece between two of them is a whole board, and others end on joists."""
        whole = stops[to][0] - stops[at][0] >= self._problem.product.cover_length_mm
        return whole or at == 0 or to == len(stops) - 1 or stops[to][0] not in self._floating

    def _takes_any_end(self, x: int) -> bool:
        return self._floats and x not in self._floating

    def _carry(self, span: tuple[int, int], free: tuple[bool, bool]) -> _Carried | None:
        rules, length = self._problem.rules, span[1] - span[0]
        if length < rules.min_piece_mm and not all(free):
            return None
        # a piece may be cut short by the gap, and must be carried either way
        shortened = (span[0], max(span[1] - rules.gap_tolerance_mm, span[0] + 1))
        carried = [supports_under(self._problem.joist_lines, rules, cut, free) for cut in (span, shortened)]
        if min(found.total for found in carried) < rules.min_supports:
            return None
        least, ends = shortened[1] - span[0], NO_END
        if rules.end_joint != "butt" and not all(free):
            any_end = [end_free or self._takes_any_end(x) for x, end_free in zip(span, free, strict=True)]
            ends = (NO_END if any_end[0] else LEFT_END) | (NO_END if any_end[1] else RIGHT_END)
            if ends == BOTH_ENDS:
                least = self._problem.product.cover_length_mm
                if length < least:
                    return None
        return _Carried(ends, least + rules.kerf_mm, carried[0].left_bearer + carried[0].right_bearer)
