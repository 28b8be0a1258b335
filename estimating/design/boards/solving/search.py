"""Laying row by row with a few best part-layouts kept, each knowing its offcuts and its last joints.

Run-on laying takes one offcut to the next row and hopes. This keeps several such layouts side by side,
compares them at the same place of the same row by boards bought less what their offcuts can still give, and
drops those whose joints leave the next row no way across.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import NamedTuple

from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.solving.allot import Choice
from estimating.design.boards.solving.sawing import NO_STOCK, Offcut, Sawing, Strip
from estimating.design.boards.solving.stagger import Staggering
from estimating.design.boards.steps import RUN_END, RunSteps, Step

# what work is worth in board length: enough to choose between layouts of as many boards, seldom enough to
# buy another; tried on some eighty decks
CUT_COST_MM = 20
PIECE_COST_MM = 2
BEARER_COST_MM = 10

STEPS_TO_TRY = 8_000
LEAST_KEPT, MOST_KEPT = 3, 6


class PartLayout(NamedTuple):
    """A layout up to some line of some row; the order of the fields is the order of preference."""

    cost: int
    turn: int
    spent: int
    boards: int
    stock: int
    barred: int
    joints: int
    last: _Chosen | None


class _Chosen(NamedTuple):
    """The latest choice of a part-layout and what went before it."""

    before: _Chosen | None
    row: int
    step: Step
    source: Offcut | Strip | None


class Found(NamedTuple):
    """A finished search: boards bought and every choice in order."""

    boards: int
    cost: int
    choices: tuple[Choice, ...]


class RowSearch:
    """Searches one layout problem; each call of lay is one pass over the rows, the same every time."""

    def __init__(self, problem: LayoutProblem, runs: Sequence[RunSteps]) -> None:
        self._sawing = Sawing(problem, (step for run in runs for steps in run.steps for step in steps))
        self.staggering = Staggering.of(problem)
        self._rows = [list(group) for _, group in groupby(runs, key=lambda run: run.run.row)]
        self._moves = {id(run): self._moves_of(run) for run in runs}
        self._reaches = {id(run): _reaches(run) for run in runs}
        self._bits = {id(run): sum({1 << joist for joist in run.joists if joist >= 0}) for run in runs}
        self._open: dict[tuple[int, int], int] = {}
        self._turn = 0
        moves = sum(len(steps) for run in runs for steps in run.steps)
        self._kept = max(LEAST_KEPT, min(MOST_KEPT, STEPS_TO_TRY // max(moves, 1)))

    def _moves_of(self, run: RunSteps) -> list[list[tuple[Step, int, int, int]]]:
        """The steps from each line, with the cut's number, and the joint and the line led to as bits."""
        return [
            [(step, self._sawing.cut_number(step), _joint_bit(step.joist), 1 << step.to) for step in steps]
            for steps in run.steps
        ]

    @property
    def sawing(self) -> Sawing:
        """The sawing whose offcuts the choices name."""
        return self._sawing

    def lay(self, *, downward: bool = False, only: Sequence[int] | None = None) -> Found | None:
        """Lay every row, from the bottom or from the top; only allows each row some joists, as bits."""
        rows = self._rows[::-1] if downward else self._rows
        barred = (
            [0] * len(rows) if only is None else [~joists for joists in (only[::-1] if downward else only)]
        )
        kept = [PartLayout(0, 0, 0, 0, NO_STOCK, barred[0], 0, None)]
        for number, row in enumerate(rows):
            last = number + 1 == len(rows)
            way_on = (
                _WayOn(self, row, [], 0) if last else _WayOn(self, row, rows[number + 1], barred[number + 1])
            )
            for run in row:
                kept = self._lay_run(run, kept, way_on)
            kept = [part._replace(barred=way_on.barred_by(part.joints), joints=0) for part in kept]
        if not kept:
            return None
        best = min(kept, key=lambda part: (part.boards, part.spent, part.turn))
        return Found(best.boards, best.spent, _choices(best))

    def _lay_run(self, run: RunSteps, kept: list[PartLayout], way_on: _WayOn) -> list[PartLayout]:
        moves, end = self._moves[id(run)], len(run.lines) - 1
        waiting: list[dict[tuple[int, int, int], PartLayout]] = [{} for _ in run.lines]
        waiting[0] = {(part.stock, part.barred, part.joints): part for part in kept}
        take, worth, board_cost = self._sawing.take, self._sawing.worth, self._sawing.capacity_mm
        for line in range(end):
            for part in self._best(waiting[line].values(), way_on):
                open_lines = self.open_lines(run, part.barred)
                for step, cut, bit, to_bit in moves[line]:
                    joints = part.joints | bit
                    if bit & part.barred or not open_lines & to_bit:
                        continue
                    source, stock, cuts = take(part.stock, cut)
                    boards = part.boards + (source is None)
                    spent = part.spent + PIECE_COST_MM + CUT_COST_MM * cuts + BEARER_COST_MM * step.bearers
                    cost = boards * board_cost - worth[stock] + spent
                    key = (stock, part.barred, joints)
                    rival = waiting[step.to].get(key)
                    if rival is None or cost < rival.cost:
                        self._turn += 1
                        chosen = _Chosen(part.last, run.run.row, step, source)
                        waiting[step.to][key] = PartLayout(
                            cost, self._turn, spent, boards, stock, part.barred, joints, chosen
                        )
        return self._best(waiting[end].values(), way_on)

    def _best(self, parts: Iterable[PartLayout], way_on: _WayOn) -> list[PartLayout]:
        """The cheapest few that leave a way on, not all alike in joints, or one bad row would end all."""
        alike: dict[int, int] = {}
        best: list[PartLayout] = []
        for part in sorted(parts):
            same = alike.get(part.joints, 0)
            if same * 2 < self._kept and way_on.from_joints(part.joints):
                alike[part.joints] = same + 1
                best.append(part)
                if len(best) == self._kept:
                    break
        return best

    def open_lines(self, run: RunSteps, barred: int) -> int:
        """From which lines of a run its end can still be reached, as bits."""
        key = (id(run), barred & self._bits[id(run)])
        open_lines = self._open.get(key)
        if open_lines is None:
            open_lines = 1 << len(run.lines) - 1
            for line_bit, joint_bit, reach in self._reaches[id(run)]:
                if reach & open_lines and not joint_bit & barred:
                    open_lines |= line_bit
            self._open[key] = open_lines
        return open_lines


def _reaches(run: RunSteps) -> list[tuple[int, int, int]]:
    """Each line from last to first: its bit, its joint's bit and the lines it leads to, as bits."""
    return [
        (1 << line, _joint_bit(run.joists[line]), sum(1 << step.to for step in run.steps[line]))
        for line in range(len(run.steps) - 1, -1, -1)
    ]


class _WayOn:
    """Whether the joints of a row, as far as it is laid, leave the following row a way across."""

    def __init__(
        self, search: RowSearch, row: Sequence[RunSteps], following: Sequence[RunSteps], barred: int
    ) -> None:
        self._search = search
        self._following = following
        self._barred = barred
        self._beside = bool(following) and abs(following[0].run.row - row[0].run.row) == 1
        self._known: dict[int, bool] = {}

    def barred_by(self, joints: int) -> int:
        """The joists barred to the following row."""
        return self._barred | (self._search.staggering.barred_by(joints) if self._beside else 0)

    def from_joints(self, joints: int) -> bool:
        """Whether every run of the following row can still be laid."""
        way = self._known.get(joints)
        if way is None:
            barred = self.barred_by(joints)
            way = all(self._search.open_lines(run, barred) & 1 for run in self._following)
            self._known[joints] = way
        return way


def _joint_bit(joist: int) -> int:
    return 0 if joist == RUN_END else 1 << joist


def _choices(part: PartLayout) -> tuple[Choice, ...]:
    choices: list[Choice] = []
    last = part.last
    while last is not None:
        choices.append(Choice(last.row, last.step, last.source))
        last = last.before
    return tuple(reversed(choices))
