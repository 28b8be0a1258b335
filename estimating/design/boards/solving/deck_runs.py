"""The rows of every zone of a task with their legal steps: what all searches and programmes work on."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from typing import NamedTuple

from estimating.design.boards.problem import DeckTask, LayoutProblem
from estimating.design.boards.rows import DeckRows
from estimating.design.boards.steps import RunSteps, Step, steps_of_every_run

FEW_STEPS = 600


class Row(NamedTuple):
    """One row of one zone and its runs, left to right."""

    zone: int
    number: int
    runs: tuple[RunSteps, ...]

    def beside(self, other: Row) -> bool:
        """Whether two rows lie against each other, so that their joints must be staggered."""
        return self.zone == other.zone and abs(self.number - other.number) == 1


@dataclass(frozen=True)
class DeckRuns:
    """A task made ready to be laid. Not slotted: everything is worked out once, on first use."""

    task: DeckTask
    geometry: tuple[DeckRows, ...]
    runs: tuple[tuple[RunSteps, ...], ...]  # by zone
    numbers: tuple[int, ...]  # the zones' numbers in the task they come from

    @classmethod
    def of(cls, task: DeckTask) -> DeckRuns:
        """Work out the rows and steps of every zone."""
        geometry = tuple(DeckRows(zone) for zone in task.zones)
        return cls(
            task,
            geometry,
            tuple(steps_of_every_run(zone, rows) for zone, rows in zip(task.zones, geometry, strict=True)),
            tuple(range(len(task.zones))),
        )

    def without(self, zones: Collection[int]) -> DeckRuns | None:
        """The same deck without some zones, by their numbers in the first task; None when none is left."""
        if not zones:
            return self
        kept = [place for place, number in enumerate(self.numbers) if number not in zones]
        if not kept:
            return None
        return DeckRuns(
            DeckTask(tuple(self.task.zones[place] for place in kept), self.task.sources),
            tuple(self.geometry[place] for place in kept),
            tuple(self.runs[place] for place in kept),
            tuple(self.numbers[place] for place in kept),
        )

    @cached_property
    def few_steps(self) -> bool:
        """Whether there are so few steps that a second search costs nobody a wait."""
        return sum(1 for _ in self.steps()) <= FEW_STEPS

    @property
    def longest_on_sale(self) -> tuple[int, ...]:
        """The places of the sources on sale that are as long as the zones' product, whose steps these are."""
        longest = self.first_problem.product.cover_length_mm
        return tuple(
            place
            for place, source in enumerate(self.task.sources)
            if source.at_hand is None and source.cover_length_mm == longest
        )

    @property
    def first_problem(self) -> LayoutProblem:
        """The zone that speaks for all in what they share: board face, profile, kerf."""
        return self.task.zones[0]

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """The rows of all zones, zone by zone and upward."""
        return tuple(
            Row(zone, number, tuple(group))
            for zone, runs in enumerate(self.runs)
            for number, group in groupby(runs, key=lambda run: run.run.row)
        )

    def steps(self) -> Iterator[Step]:
        """Every legal step of every run."""
        for runs in self.runs:
            for run in runs:
                for steps in run.steps:
                    yield from steps
