"""A small deck to lay, and a solver whose proof the test decides, so that no test waits for a real one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from estimating.design.boards.lay import Effort, lay_deck
from estimating.design.boards.layout import Bound, Certificate, LaidDeck
from estimating.design.boards.problem import BoardProduct, DeckTask, LayoutProblem
from jobs.layouts import services, store

NOTHING_PRICED = Certificate(unit=1, full=(), groove=(), tongue=(), joists=())


@pytest.fixture
def task() -> DeckTask:
    return small_task(4800)


def small_task(length_mm: int) -> DeckTask:
    """Three rows over joists at 600."""
    return DeckTask.of(
        LayoutProblem(
            reference="A",
            outline=((0, 0), (length_mm, 0), (length_mm, 1800), (0, 1800)),
            keep_outs=(),
            joist_lines=tuple(range(0, length_mm + 1, 600)),
            row_origin_mm=0,
            product=BoardProduct(code="B22", cover_length_mm=2400, cover_width_mm=600, thickness_mm=22),
        )
    )


def with_gap(laid: LaidDeck, gap: int) -> LaidDeck:
    least = laid.cost - gap
    return replace(laid, bound=Bound(least=least, certified=least, certificate=NOTHING_PRICED))


@pytest.fixture
def solver(monkeypatch: pytest.MonkeyPatch) -> Callable[..., list[tuple[DeckTask, Effort]]]:
    """Decide the gap that each effort leaves; return what was laid, in order."""

    def decide(*, proof: int = 0, long: int = 0) -> list[tuple[DeckTask, Effort]]:
        asked: list[tuple[DeckTask, Effort]] = []
        gaps = {Effort.PROOF: proof, Effort.LONG: long}

        def lay(task: DeckTask, effort: Effort = Effort.PROOF) -> LaidDeck:
            asked.append((task, effort))
            laid = replace(lay_deck(task, Effort.FIRST), bound=None)
            return with_gap(laid, gaps[effort]) if effort in gaps else laid

        for module in (services, store):
            monkeypatch.setattr(module, "lay_deck", lay)
        return asked

    return decide
