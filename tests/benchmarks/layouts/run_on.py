"""Run-on laying, as it is done without a plan: what a crew buys that starts each row with the last offcut.

Each row is laid from the left with the longest piece that ends on a joist. It begins with the newest offcut
that reaches a joist and ends with the newest one that fills what is left; in between it takes new boards. A
joint is kept off the joists of the row below wherever some piece allows it. Nobody looks ahead, but for the
rest of the row: no piece is laid that leaves a rest which cannot be boarded. What lies beside a ripped piece
is waste.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from estimating.design.boards import LayoutProblem
from estimating.design.boards.rows import DeckRows
from estimating.design.boards.steps import RUN_END, RunSteps, Step, steps_of_every_run


class RunOn(NamedTuple):
    """What run-on laying takes: boards, and joints of adjacent rows that line up."""

    boards: int
    stagger_breaks: int


def run_on(problem: LayoutProblem) -> RunOn | None:
    """Lay a deck run-on, or return None where some stretch cannot be boarded at all."""
    runs = steps_of_every_run(problem, DeckRows(problem))
    if not all(run.can_be_laid for run in runs):
        return None
    laying = _Laying(problem)
    for run in runs:
        laying.lay(run)
    return RunOn(laying.boards, laying.stagger_breaks)


class _Laying:
    """The pile of offcuts and the joints so far."""

    def __init__(self, problem: LayoutProblem) -> None:
        self._lines = problem.joist_lines
        self._stagger_mm = max(problem.rules.min_stagger_mm, 1)
        self._new_mm = problem.product.cover_length_mm + problem.rules.kerf_mm
        self._pile: list[int] = []
        self._joints: dict[int, list[int]] = {}
        self.boards = self.stagger_breaks = 0

    def lay(self, run: RunSteps) -> None:
        """Lay one run from the left."""
        goes_on = _goes_on(run)
        at, end = 0, len(run.lines) - 1
        while at != end:
            steps = [step for step in run.steps[at] if goes_on[step.to]]
            clear = [step for step in steps if not self._meets(run.run.row, step)]
            step, piece_of = self._next(at == 0, end, clear or steps)
            self._cut(piece_of, step)
            if step.joist != RUN_END:
                self.stagger_breaks += self._meets(run.run.row, step)
                self._joints.setdefault(run.run.row, []).append(step.joist)
            at = step.to

    def _next(self, first: bool, end: int, steps: list[Step]) -> tuple[Step, int | None]:
        """Choose the piece and the offcut it is cut from, by its place in the pile; None is a new board."""
        from_pile = steps if first else [step for step in steps if step.to == end]
        for place in range(len(self._pile) - 1, -1, -1):
            fitting = [step for step in from_pile if step.least_mm <= self._pile[place]]
            if fitting:
                return _longest(fitting), place
        return _longest(steps), None

    def _cut(self, place: int | None, step: Step) -> None:
        self.boards += place is None
        length = self._new_mm if place is None else self._pile.pop(place)
        self._pile.append(length - step.least_mm)

    def _meets(self, row: int, step: Step) -> int:
        """How many joints of the row below are too near."""
        if step.joist == RUN_END:
            return 0
        x = self._lines[step.joist]
        below = self._joints.get(row - 1, [])
        return sum(abs(self._lines[joist] - x) < self._stagger_mm for joist in below)


def _longest(steps: Iterable[Step]) -> Step:
    return max(steps, key=lambda step: step.x1)


def _goes_on(run: RunSteps) -> list[bool]:
    """From which lines of a run its end can be reached."""
    goes_on = [False] * (len(run.lines) - 1) + [True]
    for line in range(len(run.steps) - 1, -1, -1):
        goes_on[line] = any(goes_on[step.to] for step in run.steps[line])
    return goes_on
