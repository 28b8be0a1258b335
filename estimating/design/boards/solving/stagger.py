"""Whether the joints of adjacent rows can be staggered at all, apart from which boards they are cut from.

The rows are walked joist by joist. All that matters at any point is where the joints of the row below still
ahead lie, and where those of this row already passed lie; equal situations are kept once, at their fewest
line-ups. That finds a legal stagger where one exists, or the fewest line-ups where none does.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import groupby
from typing import NamedTuple

from estimating.design.boards.joint_places import places_barred_by
from estimating.design.boards.layout import LineUp
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.steps import RUN_END, RunSteps

LEAST_KEPT = 16
FIRST_KEPT, FIRST_TRIES = 64, 200_000
MOST_KEPT, MOST_TRIES = 400, 800_000


@dataclass(frozen=True, slots=True)
class Staggering:
    """Which joists a joint bars in the neighbouring rows, as bits."""

    near: tuple[int, ...]

    @classmethod
    def of(cls, problem: LayoutProblem) -> Staggering:
        """The staggering of a problem."""
        return cls(places_barred_by(problem))

    def barred_by(self, joints: int) -> int:
        """The joists that the row beside these joints may not use."""
        barred = 0
        while joints:
            low = joints & -joints
            barred |= self.near[low.bit_length() - 1]
            joints ^= low
        return barred


class JointsByRow(NamedTuple):
    """Where every row may have its joints with few line-ups, and how many there must be at least."""

    line_ups: int
    joints: tuple[int, ...]
    at_least: int


class _Rows(NamedTuple):
    """The joints of the rows finished so far, last row first."""

    before: _Rows | None
    joints: int


# joints of the row below still ahead, and joints of this row so far, both as bits
_Situation = tuple[int, int]
_Reached = tuple[int, _Rows | None]

_NOWHERE = -1


def fewest_line_ups(problem: LayoutProblem, runs: Sequence[RunSteps]) -> JointsByRow:
    """Find joints for every row with as few line-ups between adjacent rows as can be.

    A small search comes first: where it already finds none, nothing more is needed. Else it proves its
    answer when it dropped no situation, or when neighbouring runs taken two by two already need as many.
    Failing both, a larger search looks for fewer.

    Args:
        problem: The layout problem. Record. [mm]
        runs: The steps of every run, each of which can be laid. Sequence of records. [mm]

    Returns:
        The fewest line-ups and the joists of each row that reach them, as bits. Record. [-]

    Source:
        Staggered end joints: NHBC Standards 6.4.19; dynamic programming over the joists.
    """
    moves = sum(len(steps) for run in runs for steps in run.steps)
    small = _Walk(problem, runs, _kept(FIRST_KEPT, FIRST_TRIES, moves), below=None)
    found = small.best()
    if not small.dropped or not found.line_ups:
        return found._replace(at_least=found.line_ups)
    at_least = line_ups_two_by_two(problem, runs)
    if at_least < found.line_ups:
        # whether there is a layout at all is worth more trouble than how far off the best one is
        tries = MOST_TRIES if at_least else 4 * MOST_TRIES
        large = _Walk(problem, runs, _kept(MOST_KEPT, tries, moves), below=found.line_ups)
        found = large.best(otherwise=found)
        if not large.dropped:
            at_least = found.line_ups
    return found._replace(at_least=at_least)


def _kept(most: int, tries: int, moves: int) -> int:
    """How many situations a walk may keep at each line to stay within so many tries."""
    return max(LEAST_KEPT, min(most, tries // max(moves, 1)))


def line_ups_two_by_two(problem: LayoutProblem, runs: Sequence[RunSteps]) -> int:
    """Add up the fewest line-ups of every two runs that lie against each other, each two taken alone.

    No layout has fewer, since laying all rows at once only leaves less choice. Cheap for any size of deck.

    Args:
        problem: The layout problem. Record. [mm]
        runs: The steps of every run, each of which can be laid. Sequence of records. [mm]

    Returns:
        Line-ups there must be at least. Scalar. [-]

    Source:
        Dynamic programming over pairs of runs.
    """
    near = Staggering.of(problem).near
    known: dict[tuple[object, object], int] = {}
    total = 0
    for below in runs:
        for above in runs:
            if above.run.row == below.run.row + 1 and max(above.run.x0, below.run.x0) < min(
                above.run.x1, below.run.x1
            ):
                key = (_shape(below), _shape(above))
                if key not in known:
                    known[key] = _fewest_of_two(below, above, near)
                total += known[key]
    return total


def _shape(run: RunSteps) -> object:
    return run.lines, tuple(tuple(step.to for step in steps) for steps in run.steps)


def _fewest_of_two(below: RunSteps, above: RunSteps, near: Sequence[int]) -> int:
    """Walk both runs at once, always moving the one that is behind, so that near joints meet."""
    ends = (len(below.lines) - 1, len(above.lines) - 1)
    fewest = {(0, 0): 0}
    waiting = [(min(below.run.x0, above.run.x0), (0, 0))]
    while waiting:
        _, at = heappop(waiting)
        if at == ends:
            break
        lower_moves = at[1] == ends[1] or (at[0] != ends[0] and below.lines[at[0]] <= above.lines[at[1]])
        for step in below.steps[at[0]] if lower_moves else above.steps[at[1]]:
            then = (step.to, at[1]) if lower_moves else (at[0], step.to)
            one, other = below.joists[then[0]], above.joists[then[1]]
            met = RUN_END not in (one, other) and near[one] >> other & 1
            if then not in fewest:
                heappush(waiting, (min(below.lines[then[0]], above.lines[then[1]]), then))
            fewest[then] = min(fewest.get(then, fewest[at] + met), fewest[at] + met)
    return fewest[ends]


class _Walk:
    """One walk over all joists of all rows, keeping at most so many situations at any line."""

    def __init__(
        self, problem: LayoutProblem, runs: Sequence[RunSteps], most_kept: int, *, below: int | None
    ) -> None:
        self._rows = [list(group) for _, group in groupby(runs, key=lambda run: run.run.row)]
        self._near = Staggering.of(problem).near
        self._most_kept = most_kept
        self._below = below
        self.dropped = False

    def best(self, otherwise: JointsByRow | None = None) -> JointsByRow:
        """The fewest line-ups of this walk, or the earlier answer when this walk finds none below it."""
        reached: dict[_Situation, _Reached] = {(0, 0): (0, None)}
        for number, row in enumerate(self._rows):
            for run in row:
                reached = self._along(run, reached)
            following = self._rows[number + 1] if number + 1 < len(self._rows) else []
            beside = bool(following) and following[0].run.row == row[0].run.row + 1
            reached = _turned(reached, beside)
        if not reached and otherwise is not None:
            return otherwise
        line_ups, rows = min(reached.values(), key=lambda at: at[0])
        joints: list[int] = []
        while rows is not None:
            joints.append(rows.joints)
            rows = rows.before
        return JointsByRow(line_ups, tuple(reversed(joints)), 0)

    def _along(self, run: RunSteps, start: dict[_Situation, _Reached]) -> dict[_Situation, _Reached]:
        direct = {(line, step.to) for line, steps in enumerate(run.steps) for step in steps}
        waiting: list[dict[tuple[_Situation, int], _Reached]] = [{} for _ in run.lines]
        waiting[0] = {(situation, _NOWHERE): reached for situation, reached in start.items()}
        for line, steps in enumerate(run.steps):
            for (situation, before), reached in self._fewest(waiting[line]):
                for step in steps:
                    if (before, step.to) in direct:
                        continue  # the joint between is not needed, and one joint fewer is never worse
                    then, line_ups = self._stopping_at(situation, step.joist)
                    line_ups += reached[0]
                    key = (then, line)
                    known = waiting[step.to].get(key)
                    within = self._below is None or line_ups < self._below
                    if within and (known is None or line_ups < known[0]):
                        waiting[step.to][key] = (line_ups, reached[1])
        ends: dict[_Situation, _Reached] = {}
        for (situation, _), reached in self._fewest(waiting[-1]):
            if situation not in ends:
                ends[situation] = reached
        return ends

    def _stopping_at(self, situation: _Situation, joist: int) -> tuple[_Situation, int]:
        if joist == RUN_END:
            return situation, 0
        near = self._near[joist]
        ahead, joints = situation
        still_near = near & -near  # joints further back can meet no later joint of this row
        return (ahead & -still_near, joints | 1 << joist), (ahead & near).bit_count()

    def _fewest(
        self, situations: dict[tuple[_Situation, int], _Reached]
    ) -> list[tuple[tuple[_Situation, int], _Reached]]:
        ordered = sorted(situations.items(), key=lambda item: (item[1][0], item[0]))
        if len(ordered) > self._most_kept:
            self.dropped = True
        return ordered[: self._most_kept]


def _turned(reached: dict[_Situation, _Reached], beside: bool) -> dict[_Situation, _Reached]:
    """Begin the next row: the joints of this row now lie below it, unless a row without deck lies between."""
    turned: dict[_Situation, _Reached] = {}
    for (_, joints), (line_ups, rows) in reached.items():
        key = (joints if beside else 0, 0)
        if key not in turned or line_ups < turned[key][0]:
            turned[key] = (line_ups, _Rows(rows, joints))
    return turned


def line_ups_between(
    problem: LayoutProblem, runs: Sequence[RunSteps], joints: Sequence[int]
) -> tuple[LineUp, ...]:
    """Name every line-up between adjacent rows.

    Args:
        problem: The layout problem. Record. [mm]
        runs: The steps of every run. Sequence of records. [mm]
        joints: The joists with joints, as bits, for each row that has runs. Sequence. [-]

    Returns:
        The line-ups, by row and joist. Tuple of records. [-]

    Source:
        Own definition.
    """
    near = Staggering.of(problem).near
    rows = sorted({run.run.row for run in runs})
    by_row = dict(zip(rows, joints, strict=True))
    return tuple(
        LineUp(row, joist, above)
        for row in rows
        for joist in _places(by_row[row])
        for above in _places(by_row.get(row + 1, 0) & near[joist])
    )


def _places(joints: int) -> Iterator[int]:
    """The numbers of the set bits, from low to high."""
    while joints:
        low = joints & -joints
        yield low.bit_length() - 1
        joints ^= low
