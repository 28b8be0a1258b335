"""The drawn lofts by another solver and another model; slow, and asked for by `pytest -m slow`."""

from __future__ import annotations

import pytest

from estimating.design.boards import NoLayout, lay_boards
from tests.benchmarks.decks import benchmark_problems
from tests.estimating.boards.cutting_model import fewest_by_cp_sat
from tests.estimating.boards.every_piece import hangs_on_a_few_mm

EFFORT = 6.0  # in CP-SAT's own units of work, about a second each, the same on every machine
DECKS = {deck.name: deck for deck in benchmark_problems()}


@pytest.fixture(scope="module")
def cp_model():
    return pytest.importorskip(
        "ortools.sat.python.cp_model", reason="OR-tools comes with the dependency group `slow`"
    )


@pytest.mark.slow
@pytest.mark.parametrize("name", DECKS)
def test_another_solver_betters_no_layout_by_more_than_its_stated_gap(cp_model, name):
    deck = DECKS[name]
    if hangs_on_a_few_mm(deck.data):
        pytest.skip("whether a piece may be laid depends on where it is cut short")
    other = fewest_by_cp_sat(cp_model, deck.data, EFFORT)
    ours = lay_boards(deck.problem)
    if isinstance(ours, NoLayout):
        assert other.boards is None
        return
    assert not other.impossible
    assert ours.bound is not None
    assert other.least <= ours.boards
    assert other.boards is None or other.boards >= ours.bound.least
