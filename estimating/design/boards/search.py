"""Laying row by row with a few best part-layouts kept, each knowing its offcuts and its last joints.

Run-on laying takes one offcut to the next row and hopes. This keeps several such layouts side by side,
compares them at the same place of the same row by boards bought less what their offcuts can still give, and
drops those whose joints leave the next row no way across.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import NamedTuple

from estimating.design.boards.allot import Choice
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.sawing import Offcut, Sawing, Stock, Strip
from estimating.design.boards.stagger import Staggering
from estimating.design.boards.steps import RUN_END, RunSteps, Step

PIECE_COST_MM = 2
BEARER_COST_MM = 10
STEPS_TO_TRY = 9_000
LEAST_KEPT, MOST_KEPT = 2, 10


class PartLayout(NamedTuple):
    """A layout up to some line of some row; the order of the fields is the order of preference."""

    cost: int
    turn: int
    spent: int
    boards: int
    stock: Stock
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
        self._staggering = Staggering.of(problem)
        self._rows = [list(group) for _, group in groupby(runs, key=lambda run: run.run.row)]
        self._moves = {
            id(run): [
                [(step, self._sawing.cut_for(step), _bit(step)) for step in steps] for steps in run.steps
            ]
            for run in runs
        }
        self._bits = {id(run): sum({1 << joist for joist in run.joists if joist >= 0}) for run in runs}
        self._open: dict[tuple[int, int], list[bool]] = {}
        self._barred: dict[int, int] = {}
        self._turn = 0
        moves = sum(len(steps) for run in runs for steps in run.steps)
        self._kept = max(LEAST_KEPT, min(MOST_KEPT, STEPS_TO_TRY // max(moves, 1)))

    @property
    def sawing(self) -> Sawing:
        """The sawing whose offcuts the choices name."""
        return self._sawing

    def lay(self, *, downward: bool = False, only: Sequence[int] | None = None) -> Found | None:
        """Lay every row, from the bottom or from the top; only allows each row some joists, as bits."""
        rows = self._rows[::-1] if downward else self._rows
        allowed = None if only is None else (only[::-1] if downward else only)
        kept = [PartLayout(0, 0, 0, 0, Stock(), 0 if allowed is None else ~allowed[0], 0, None)]
        for number, row in enumerate(rows):
            following = rows[number + 1] if number + 1 < len(rows) else []
            beside = bool(following) and abs(following[0].run.row - row[0].run.row) == 1
            for run in row:
                kept = self._lay_run(run, kept)
            barred_next = 0 if allowed is None or not following else ~allowed[number + 1]
            kept = self._turn_row(kept, following, beside, barred_next)
            if not kept:
                return None
        best = min(kept, key=lambda part: (part.boards, part.spent, part.turn))
        return Found(best.boards, best.spent, _choices(best))

    def _lay_run(self, run: RunSteps, kept: list[PartLayout]) -> list[PartLayout]:
        moves, end = self._moves[id(run)], len(run.lines) - 1
        waiting: list[dict[tuple[Stock, int, int], PartLayout]] = [{} for _ in run.lines]
        waiting[0] = {(part.stock, part.barred, part.joints): part for part in kept}
        take, worth, board_cost = self._sawing.take, self._sawing.worth, self._sawing.capacity_mm
        for line in range(end):
            for part in self._best(waiting[line].values()):
                open_lines = self._open_lines(run, part.barred)
                for step, cut, bit in moves[line]:
                    if bit & part.barred or not open_lines[step.to]:
                        continue
                    source, stock = take(part.stock, cut)
                    boards = part.boards + (source is None)
                    spent = part.spent + PIECE_COST_MM + BEARER_COST_MM * step.bearers
                    cost = boards * board_cost - worth(stock) + spent
                    joints = part.joints | bit
                    key = (stock, part.barred, joints)
                    rival = waiting[step.to].get(key)
                    if rival is None or cost < rival.cost:
                        self._turn += 1
                        chosen = _Chosen(part.last, run.run.row, step, source)
                        waiting[step.to][key] = PartLayout(
                            cost, self._turn, spent, boards, stock, part.barred, joints, chosen
                        )
        return self._best(waiting[end].values())

    def _best(self, parts: Iterable[PartLayout]) -> list[PartLayout]:
        """The cheapest few, not all with the same joints, or one bad neighbour would end them all."""
        alike: dict[int, int] = {}
        best: list[PartLayout] = []
        for part in sorted(parts):
            same = alike.get(part.joints, 0)
            if same * 2 < self._kept:
                alike[part.joints] = same + 1
                best.append(part)
                if len(best) == self._kept:
                    break
        return best

    def _turn_row(
        self, kept: list[PartLayout], following: list[RunSteps], beside: bool, barred_next: int
    ) -> list[PartLayout]:
        turned = []
        for part in kept:
            barred = barred_next
            if beside:
                known = self._barred.get(part.joints)
                if known is None:
                    known = self._barred[part.joints] = self._staggering.barred_by(part.joints)
                barred |= known
            if all(self._open_lines(run, barred)[0] for run in following):
                turned.append(part._replace(barred=barred, joints=0))
        return turned

    def _open_lines(self, run: RunSteps, barred: int) -> list[bool]:
        """From which lines of a run its end can still be reached."""
        key = (id(run), barred & self._bits[id(run)])
        open_lines = self._open.get(key)
        if open_lines is None:
            open_lines = [False] * len(run.lines)
            open_lines[-1] = True
            for line in range(len(run.lines) - 2, -1, -1):
                open_lines[line] = any(
                    open_lines[step.to] and not bit & barred for step, _, bit in self._moves[id(run)][line]
                )
            self._open[key] = open_lines
        return open_lines


def _bit(step: Step) -> int:
    return 0 if step.joist == RUN_END else 1 << step.joist


def _choices(part: PartLayout) -> tuple[Choice, ...]:
    choices: list[Choice] = []
    last = part.last
    while last is not None:
        choices.append(Choice(last.row, last.step, last.source))
        last = last.before
    return tuple(reversed(choices))
