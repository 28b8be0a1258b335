"""Trying changed problems: how far each is from being laid, seen before it is, and only so many of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property

from estimating.design.boards.lay import Effort, lay_boards
from estimating.design.boards.layout import Layout
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.rows import DeckRows, Run
from estimating.design.boards.solving.stagger import line_ups_two_by_two
from estimating.design.boards.steps import RunSteps, steps_of_every_run

MOST_TRIES, LEAST_TRIES, STEPS_TRIED = 120, 12, 8_000
UNLAYABLE = 1_000_000


class Tries:
    """Problems tried so far; there are only so many tries, fewer for a large deck."""

    def __init__(self, problem: LayoutProblem) -> None:
        runs = _runs(problem)
        steps = sum({(run.run.x0, run.run.x1): sum(map(len, run.steps)) for run in runs}.values())
        self.left = max(LEAST_TRIES, min(MOST_TRIES, STEPS_TRIED // max(steps, 1)))
        self._slivers = _slivers(problem, runs)

    def line_ups(self, problem: LayoutProblem) -> int:
        """How many line-ups a problem must have at the least; very many where a stretch cannot be laid.

        A sliver between an edge and a keep-out could be laid on edge bearers alone, and nobody would.
        """
        self.left -= 1
        runs = _runs(problem)
        stuck = sum(not run.can_be_laid for run in runs)
        stuck += max(0, _slivers(problem, runs) - self._slivers)
        return stuck * UNLAYABLE if stuck else line_ups_two_by_two(problem, runs)

    def laid(self, problem: LayoutProblem) -> Layout | None:
        """Lay a problem, unless it is soon seen that it cannot be."""
        return None if self.line_ups(problem) else laid_first(problem)


class _OneOfEachRun(DeckRows):
    """The rows of a deck with one run of each span: where ends may meet, runs of a span are all alike."""

    @cached_property
    def every_run(self) -> tuple[Run, ...]:
        runs: cached_property[tuple[Run, ...]] = vars(DeckRows)["runs"]
        return runs.func(self)

    @cached_property
    def runs(self) -> tuple[Run, ...]:
        alike: dict[tuple[int, int], Run] = {}
        for run in self.every_run:
            alike.setdefault((run.x0, run.x1), run)
        return tuple(alike.values())


def _runs(problem: LayoutProblem) -> tuple[RunSteps, ...]:
    """Every run with the steps of its span; what a piece is ripped to does not matter to the stagger."""
    rows = _OneOfEachRun(problem)
    of_span = {(each.run.x0, each.run.x1): each for each in steps_of_every_run(problem, rows)}
    return tuple(replace(of_span[run.x0, run.x1], run=run) for run in rows.every_run)


def _slivers(problem: LayoutProblem, runs: Sequence[RunSteps]) -> int:
    return sum(each.run.x1 - each.run.x0 < problem.rules.min_strip_mm for each in runs)


def laid_first(problem: LayoutProblem) -> Layout | None:
    """Lay a problem as well as can be while someone types.

    Args:
        problem: The problem. Record. [mm]

    Returns:
        The layout; None where there is none. Record. [mm]

    Source:
        As lay_boards.
    """
    answer = lay_boards(problem, Effort.FIRST)
    return answer if isinstance(answer, Layout) else None
