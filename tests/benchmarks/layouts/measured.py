"""One deck of the benchmark: laid at each effort, timed, and checked by code that had no part in it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from time import perf_counter

from estimating.design.boards import Layout, NoLayout, lay_boards
from estimating.design.boards.checking.checker import faults
from estimating.design.boards.lay import Effort
from estimating.design.boards.layout import Bound
from estimating.layout_json import layout_as_json
from estimating.plane import area_mm2, overlap_area_mm2
from tests.benchmarks.decks import DeckProblem
from tests.benchmarks.layouts.run_on import RunOn, run_on
from tests.published.layout_validator import validate

ALLOWANCE = Fraction("1.10")
"""What is added to the area by rule of thumb; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Laid:
    """One answer and how long it took."""

    answer: Layout | NoLayout
    seconds: float

    @property
    def boards(self) -> int | None:
        return self.answer.boards if isinstance(self.answer, Layout) else None


@dataclass(frozen=True, slots=True)
class Measured:
    """All that is told of one deck with one board."""

    deck: DeckProblem
    area_mm2: Fraction
    run_on: RunOn | None
    first: Laid
    counted: Laid
    best: Laid
    faults: tuple[str, ...]

    @property
    def has_layout(self) -> bool:
        return self.boards is not None

    @property
    def boards(self) -> int | None:
        return self.best.boards

    @property
    def by_rule_of_thumb(self) -> int:
        product = self.deck.problem.product
        return ceil(self.area_mm2 * ALLOWANCE / (product.cover_length_mm * product.cover_width_mm))

    @property
    def by_area(self) -> int:
        """Boards that the area alone asks for. Saw and gap, alike here, let a board cover one kerf more."""
        product, kerf = self.deck.problem.product, self.deck.problem.rules.kerf_mm
        return ceil(self.area_mm2 / ((product.cover_length_mm + kerf) * product.cover_width_mm))

    @property
    def least(self) -> int:
        """The proved bound; that of the area where the layout comes without one."""
        return self._bound.least if self._bound else self.by_area

    @property
    def _bound(self) -> Bound | None:
        answer = self.best.answer
        return answer.bound if isinstance(answer, Layout) else None

    @property
    def certified(self) -> bool:
        """Whether the certificate alone proves the bound, without what was searched for in vain."""
        return self._bound is not None and self._bound.certified == self._bound.least

    @property
    def gap(self) -> int:
        return (self.boards or 0) - self.least

    @property
    def proved(self) -> bool:
        return isinstance(self.best.answer, Layout) and self.best.answer.proved


def measured(deck: DeckProblem) -> Measured:
    """Lay one deck, first quickly, then as well as it can be done within seconds."""
    problem = deck.problem
    first, counted, best = (_laid(deck, effort) for effort in (Effort.FIRST, Effort.COUNT, Effort.PROOF))
    stands = sum(overlap_area_mm2(problem.outline, keep_out.outline) for keep_out in problem.keep_outs)
    found = (*_faults(deck, first, "first"), *_faults(deck, best, "best"))
    if counted.boards != best.boards:
        found += (f"{deck.name}: saving cuts changed {counted.boards} boards to {best.boards}",)
    return Measured(deck, area_mm2(problem.outline) - stands, run_on(problem), first, counted, best, found)


def _laid(deck: DeckProblem, effort: Effort) -> Laid:
    problem = deck.problem  # read before the clock starts
    began = perf_counter()
    answer = lay_boards(problem, effort)
    return Laid(answer, perf_counter() - began)


def _faults(deck: DeckProblem, laid: Laid, which: str) -> Iterator[str]:
    """Name what either checker finds, and a bound that its certificate does not prove."""
    answer, name = laid.answer, f"{deck.name}, {which}"
    if isinstance(answer, NoLayout):
        return
    written = layout_as_json(answer)
    for error in validate(deck.data, written)["errors"]:
        yield f"{name}: {error['code']} {error['msg']}"
    for fault in faults(deck.problem, answer):
        yield f"{name}: {fault.rule} {fault.says}"
    bound = answer.bound
    if bound is not None:
        if "lower_bound" not in written:
            yield f"{name}: the bound is not written beside the layout"
        if not bound.certified <= bound.least <= answer.boards:
            yield f"{name}: {bound.certified} certified, {bound.least} the least, {answer.boards} laid"
