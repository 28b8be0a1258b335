"""Small decks, against the fewest boards that trying everything finds.

Trying everything knows more ways to saw than the solver does: any straight full cuts, in any order, where
the solver rips a board once. No bound may be above even that.
"""

from __future__ import annotations

from itertools import islice
from typing import Any

import pytest

from estimating.design.boards import Layout, NoLayout, lay_boards
from estimating.design.boards.lay import Effort
from estimating.layout_json import problem_from_json
from tests.estimating.boards.fewest_boards import fewest_boards
from tests.estimating.boards.small_decks import small_decks

DECKS = {data["id"]: data for data in islice(small_decks(), 60)}


@pytest.fixture(scope="module")
def fewest() -> dict[str, int | None]:
    return {name: fewest_boards(data) for name, data in DECKS.items()}


def test_the_decks_tried_are_worth_trying(fewest):
    assert sum(boards is None for boards in fewest.values()) >= 3
    assert sum(boards is not None and boards >= 3 for boards in fewest.values()) >= 20


def _laid_and_checked(data: dict[str, Any], effort: Effort, fewest: int | None) -> Layout | None:
    answer = lay_boards(problem_from_json(data), effort)
    if fewest is None:
        assert isinstance(answer, NoLayout)
        return None
    assert isinstance(answer, Layout)
    assert answer.boards >= fewest
    if answer.bound:
        assert answer.bound.certified <= answer.bound.least <= fewest
    return answer


@pytest.mark.parametrize("name", DECKS)
def test_a_first_layout_takes_no_fewer_boards_than_there_can_be(fewest, name):
    _laid_and_checked(DECKS[name], Effort.FIRST, fewest[name])


@pytest.mark.parametrize("name", DECKS)
def test_the_best_layout_of_a_small_deck_takes_the_fewest_boards_and_says_so(fewest, name):
    answer = _laid_and_checked(DECKS[name], Effort.PROOF, fewest[name])
    if answer is not None:
        assert answer.boards == fewest[name]
        # the proof looks at the area of strips, not at how they lie beside each other
        assert answer.proved or name == "small deck 53"


@pytest.mark.parametrize("seed", [153, 184, 402])
def test_no_bound_is_claimed_for_strips_that_three_abreast_would_better(seed):
    data = next(small_decks(seed))
    _laid_and_checked(data, Effort.PROOF, fewest_boards(data))


@pytest.mark.parametrize("seed", [139, 185, 260, 604, 608])
def test_a_bound_that_is_not_reached_is_still_no_more_than_the_fewest(seed):
    # strips of several widths beside each other: the best layouts known to us take a board more
    data = next(small_decks(seed))
    _laid_and_checked(data, Effort.PROOF, fewest_boards(data))
