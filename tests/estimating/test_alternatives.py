"""Boards compared by the whole deck they would make."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from estimating.design.boards.layout import LaidDeck
from estimating.design.boards.problem import DeckTask
from estimating.design.deck import first_layout
from estimating.estimate import Estimate, estimate
from estimating.price_book import Board
from estimating.refusals import Refusal
from estimating.survey import Hatch
from tests.estimating.lofts import (
    bungalow_loft,
    choices,
    cut_roof_loft,
    price_book,
    products,
    rectangle,
    trussed_loft,
)


def why(result: Estimate) -> dict[str, str]:
    return {each.board_code: each.why for each in result.board_alternatives}


@pytest.mark.parametrize("loft", [cut_roof_loft, bungalow_loft])
def test_the_board_taken_costs_the_firm_least(loft: object) -> None:
    result = estimate(loft(), price_book(), choices())  # type: ignore[operator]
    costs = {each.board_code: each.cost.value for each in result.board_alternatives if each.cost}
    taken = [each for each in result.board_alternatives if each.taken]
    assert len(taken) == 1
    assert costs[taken[0].board_code] == min(costs.values())
    assert set(costs) == {"B18N", "B22N", "B22"}


def test_each_board_is_costed_as_if_it_had_been_chosen() -> None:
    compared = estimate(cut_roof_loft(), price_book(), choices()).board_alternatives
    for each in compared:
        alone = estimate(cut_roof_loft(), price_book(), choices(board_code=each.board_code))
        assert alone.board_alternatives[0].cost == each.cost


def test_boards_that_may_not_span_the_joists_are_passed_over_with_the_reason() -> None:
    """NHBC Standards 6.4.19 Table 7."""
    said = why(estimate(trussed_loft(), price_book(), choices()))
    assert said["B18N"] == "joists lie up to 600 mm apart, outside the 450 mm it allows"


def test_a_board_that_cannot_be_laid_loses_to_one_that_can() -> None:
    result = estimate(trussed_loft(), price_book(), choices())
    assert "joints" in why(result)["B22N"]
    assert result.design.zones[0].board_code == "B22"


def test_a_board_too_wide_for_the_hatch_is_passed_over() -> None:
    survey = cut_roof_loft(hatch=Hatch(outline=rectangle(2600, 3090, 3180, 3660)))
    result = estimate(survey, price_book(), choices())
    assert "does not pass the hatch" in why(result)["B22"]
    assert result.design.zones[0].board_code == "B18N"


def test_when_none_is_fit_the_strongest_is_used_and_stopped() -> None:
    weak = tuple(
        replace(each, max_joist_centres_mm=400) if isinstance(each, Board) else each for each in products()
    )
    result = estimate(trussed_loft(), price_book(products=weak), choices())
    assert result.design.zones[0].board_code.startswith("B22")
    assert result.checks.stops


def test_a_chosen_board_must_be_in_the_book() -> None:
    with pytest.raises(
        Refusal, match=r"choices.board_code: must be a board of the price book: B18N, B22N, B22"
    ):
        estimate(trussed_loft(), price_book(), choices(board_code="X"))


def test_two_boards_of_one_face_are_laid_once() -> None:
    tasks: list[DeckTask] = []

    def lay(task: DeckTask) -> LaidDeck:
        tasks.append(task)
        return first_layout(task)

    found = estimate(cut_roof_loft(), price_book(), choices(), lay=lay)
    assert len(tasks) == 2  # 1220 × 320 in two thicknesses, and 2400 × 600
    layout = found.design.zones[0].layout
    assert layout
    assert {board.code for board in layout.opened} == {found.design.zones[0].board_code}


def test_all_zones_are_laid_together_whichever_way_their_joists_run() -> None:
    """A board is a board: what one zone leaves may serve another."""
    tasks: list[DeckTask] = []

    def lay(task: DeckTask) -> LaidDeck:
        tasks.append(task)
        return first_layout(task)

    estimate(bungalow_loft(), price_book(), choices(board_code="B22"), lay=lay)
    assert [[zone.reference for zone in task.zones] for task in tasks] == [["A", "B"]]


def test_dearer_hours_can_turn_the_choice() -> None:
    """Narrow boards cost less themselves, and more hours: cheap hours and boards let them win."""
    cheap = tuple(
        replace(each, pack_cost=Decimal("0.10")) if each.code == "B18N" else each for each in products()
    )
    free = price_book(products=cheap, hourly_cost=Decimal("0.01"))
    dear = price_book(products=cheap, hourly_cost=Decimal(90))
    taken = [estimate(cut_roof_loft(), book, choices()).design.zones[0].board_code for book in (free, dear)]
    assert taken == ["B18N", "B22"]
