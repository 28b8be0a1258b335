"""Ways to board a deck compared by the whole deck they would make."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from estimating.alternatives import BoardAlternative, choose_board
from estimating.choices import Choices, RaiseWith
from estimating.costed_decks import DeckInputs, costed_deck, ready_way
from estimating.design.boards.lay import lay_deck
from estimating.design.boards.layout import LaidDeck
from estimating.design.boards.problem import DeckTask
from estimating.design.deck import LayDeck, at_most, first_layout
from estimating.design.insulation import design_insulation
from estimating.design.supports import choose_support
from estimating.design.zones import zone_frames
from estimating.estimate import Estimate, estimate
from estimating.price_book import AnyProduct, Board, PriceBook
from estimating.refusals import Refusal
from estimating.stored_boards import StoredBoards
from estimating.survey import Hatch, Survey, evenly_spaced
from estimating.ways_to_board import alike_boards, ways_to_board
from tests.estimating.lofts import (
    LOFTS,
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


def changed(code: str, **changes: Any) -> tuple[AnyProduct, ...]:
    """The products of the book, one of them changed."""
    return tuple(replace(each, **changes) if each.code == code else each for each in products())


def board(known_as: str, **changes: Any) -> Board:
    known = next(each for each in products() if each.code == known_as)
    assert isinstance(known, Board)
    return replace(known, **changes)


SHORT = board(
    "B22",
    code="B22S",
    description="chipboard 1200 × 600 × 22 mm",
    cover_length_mm=1200,
    pack_cost=Decimal("10.40"),
)


def inputs(survey: Survey, book: PriceBook, chosen: Choices, lay: LayDeck = first_layout) -> DeckInputs:
    layers = design_insulation(survey, book, chosen).layers
    return DeckInputs(
        survey=survey,
        price_book=book,
        choices=chosen,
        supported=tuple(
            (frame, choose_support(survey, book, chosen, frame, layers))
            for frame in zone_frames(survey, chosen)
        ),
        lay=lay,
    )


class Counting:
    """Lays like the first layout, and remembers what it was asked to lay."""

    def __init__(self) -> None:
        self.tasks: list[DeckTask] = []

    def __call__(self, task: DeckTask) -> LaidDeck:
        self.tasks.append(task)
        return first_layout(task)


@pytest.mark.parametrize("loft", [cut_roof_loft, bungalow_loft])
def test_the_board_taken_costs_the_firm_least(loft: object) -> None:
    result = estimate(loft(), price_book(), choices())  # type: ignore[operator]
    taken, *others = result.board_alternatives
    assert (taken.taken, [each.taken for each in others]) == (True, [False] * len(others))
    assert taken.cost
    for each in others:
        figure = each.cost or each.at_least
        assert figure
        assert figure.value >= taken.cost.value
    assert {each.board_code for each in result.board_alternatives} == {"B18N", "B22N", "B22"}


def test_each_board_laid_is_costed_as_if_it_had_been_chosen() -> None:
    book = price_book(products=changed("B22", pack_cost=Decimal(200)))
    compared = [each for each in estimate(cut_roof_loft(), book, choices()).board_alternatives if each.cost]
    assert len(compared) > 1
    for each in compared:
        alone = estimate(cut_roof_loft(), book, choices(board_code=each.board_code))
        assert alone.board_alternatives[0].cost == each.cost


STORE = (
    StoredBoards(board_code="B22", length_mm=2400, count=2),
    StoredBoards(board_code="B22", length_mm=1830, count=1, cut=True),
)


@pytest.mark.parametrize("store", [(), STORE], ids=["nothing at hand", "some at hand"])
@pytest.mark.parametrize("raise_with", RaiseWith)
@pytest.mark.parametrize("loft", LOFTS)
def test_no_deck_costs_less_than_was_said_before_it_was_laid(
    loft: str, raise_with: RaiseWith, store: tuple[StoredBoards, ...]
) -> None:
    book = price_book(products=(*products(), SHORT))
    given = inputs(LOFTS[loft](), book, choices(raise_with=raise_with, store=store))
    for way in ways_to_board(alike_boards(book.of_kind(Board))):
        ready = ready_way(way, given)
        laid = costed_deck(ready, first_layout(ready.ready.task), given)
        if not laid.unlaid:
            assert ready.at_least.value <= laid.cost.value


def test_what_could_not_win_is_not_laid_and_says_how_much_dearer_it_is_at_least() -> None:
    lay = Counting()
    result = estimate(cut_roof_loft(), price_book(), choices(), lay=lay)
    assert len(lay.tasks) == 1
    for each in result.board_alternatives[1:]:
        assert (each.cost, each.boards) == (None, None)
        assert each.at_least
        assert each.why.startswith("the deck would cost the firm at least £")


def test_so_many_decks_are_laid_for_a_page_and_the_others_told_by_their_least_cost() -> None:
    dear = tuple(
        replace(each, pack_cost=Decimal(200)) if each.code in {"B22", "B22S"} else each
        for each in (*products(), SHORT)
    )
    book = price_book(products=dear)
    given = inputs(cut_roof_loft(), book, choices(), at_most(1, first_layout))
    _, told = choose_board(given)
    assert sum(each.cost is not None for each in told) == 2  # one face in two thicknesses
    later = [each for each in told if each.why.startswith("not laid yet")]
    assert all(each.at_least for each in later)


def test_a_board_that_can_be_laid_is_looked_for_even_if_a_page_has_laid_enough() -> None:
    cheap = price_book(products=changed("B22N", pack_cost=Decimal("0.30")))
    given = inputs(trussed_loft(), cheap, choices(), at_most(1, first_layout))
    best, _ = choose_board(given)
    assert (best.board.code, best.unlaid) == ("B22", ())


def test_boards_that_may_not_span_the_joists_are_passed_over_with_the_reason() -> None:
    """NHBC Standards 6.4.19 Table 7."""
    said = why(estimate(trussed_loft(), price_book(), choices()))
    assert said["B18N"] == "joists lie up to 600 mm apart, outside the 450 mm it allows"


def test_a_board_that_cannot_be_laid_loses_to_one_that_can() -> None:
    cheap = price_book(products=changed("B22N", pack_cost=Decimal("0.30")))
    result = estimate(trussed_loft(), cheap, choices())
    assert "joints" in why(result)["B22N"]
    assert result.design.zones[0].board_code == "B22"


def test_a_board_too_wide_for_the_hatch_is_passed_over() -> None:
    survey = cut_roof_loft(hatch=Hatch(outline=rectangle(2600, 3090, 3000, 3490)))
    result = estimate(survey, price_book(), choices())
    assert why(result)["B22"] == "it is 200 mm too wide for the hatch"
    assert result.design.zones[0].board_code == "B18N"


def test_when_none_goes_up_the_one_that_is_too_large_by_least_is_used_and_cautioned() -> None:
    survey = cut_roof_loft(
        hatch=Hatch(outline=rectangle(2600, 3090, 3000, 3490), lining_depth_mm=300, headroom_above_mm=400)
    )
    result = estimate(survey, price_book(), choices())
    assert "B22" in why(result)
    assert result.design.zones[0].board_code != "B22"
    cautions = [each.words for each in result.checks.cautions if each.subject == "hatch"]
    assert any("Cut it before it goes up" in words for words in cautions)


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
    lay = Counting()
    book = price_book(products=changed("B22", pack_cost=Decimal(200)))
    found = estimate(cut_roof_loft(), book, choices(), lay=lay)
    assert [each.board_code for each in found.board_alternatives if each.cost] == ["B18N", "B22N"]
    assert len(lay.tasks) == 1  # 1220 × 320 in two thicknesses
    layout = found.design.zones[0].layout
    assert layout
    assert {each.code for each in layout.opened} == {found.design.zones[0].board_code}


def test_all_zones_are_laid_together_whichever_way_their_joists_run() -> None:
    """A board is a board: what one zone leaves may serve another."""
    lay = Counting()
    estimate(bungalow_loft(), price_book(), choices(board_code="B22"), lay=lay)
    assert [[zone.reference for zone in task.zones] for task in lay.tasks] == [["A", "B"]]


def test_dearer_hours_can_turn_the_choice() -> None:
    """Narrow boards cost less themselves, and more hours: cheap hours and boards let them win."""
    cheap = changed("B18N", pack_cost=Decimal("0.10"))
    free = price_book(products=cheap, hourly_cost=Decimal("0.01"))
    dear = price_book(products=cheap, hourly_cost=Decimal(90))
    taken = [estimate(cut_roof_loft(), book, choices()).design.zones[0].board_code for book in (free, dear)]
    assert taken == ["B18N", "B22"]


def test_two_lengths_of_one_board_are_cut_from_together() -> None:
    lay = Counting()
    book = price_book(products=(*products(), SHORT))
    found = estimate(trussed_loft(), book, choices(), lay=lay)
    mixed = next(each for each in found.board_alternatives if each.board_codes == ("B22", "B22S"))
    assert mixed.description == "chipboard 2400 × 600 × 22 mm with chipboard 1200 × 600 × 22 mm"
    assert {
        (source.code, source.cover_length_mm)
        for task in lay.tasks
        for source in task.sources
        if len(task.sources) == 2
    } == {
        ("B22", 2400),
        ("B22S", 1200),
    }


def test_of_two_ways_at_one_price_the_one_of_one_length_is_taken() -> None:
    """Where the short board helps nowhere, the mix is the long board by itself."""
    dear = replace(SHORT, pack_cost=Decimal("25.00"))
    found = estimate(trussed_loft(), price_book(products=(*products(), dear)), choices(), lay=lay_deck)
    taken, *others = found.board_alternatives
    assert taken.board_codes == ("B22",)
    assert [each.why for each in others if len(each.board_codes) == 2] == [
        "the deck would cost the firm the same"
    ]


def test_boards_of_another_width_thickness_or_profile_are_not_mixed() -> None:
    others = (
        replace(SHORT, code="W", cover_width_mm=320),
        replace(SHORT, code="T", thickness_mm=18),
        replace(SHORT, code="S", sides="square"),
    )
    boards = alike_boards((board("B22"), SHORT, *others))
    assert [way.codes for way in ways_to_board(boards) if way.is_mixed] == [("B22", "B22S")]


def test_two_lengths_together_may_span_what_both_may() -> None:
    boards = alike_boards((board("B22"), replace(SHORT, max_joist_centres_mm=400)))
    (mixed,) = (way for way in ways_to_board(boards) if way.is_mixed)
    assert mixed.board.max_joist_centres_mm == 400


def test_one_board_in_packs_and_singly_is_one_board_bought_in_the_cheapest_mix() -> None:
    single = board(
        "B22", code="B22-1", description="chipboard 2400 × 600 × 22 mm, single", pack_cost=Decimal("19.80")
    )
    pallet = changed("B22", pack_cost=Decimal("98.00"), pack_size=7)
    result = estimate(trussed_loft(), price_book(products=(*pallet, single)), choices())
    assert [each.board_code for each in result.board_alternatives if each.taken] == ["B22"]
    bought = {each.product_code: each for each in result.quantities.purchases if each.role == "board"}
    layout = result.design.zones[0].layout
    assert layout
    assert sum(each.needed.value for each in bought.values()) == layout.boards
    cheapest = min(
        packs * Decimal("98.00") + max(0, layout.boards - 7 * packs) * Decimal("19.80") for packs in range(5)
    )
    assert sum(each.cost.value for each in bought.values()) == cheapest


def on_close_joists() -> Survey:
    survey = trussed_loft()
    joists = replace(
        survey.joist_fields[0], centre_lines_mm=evenly_spaced(first_mm=300, centres_mm=300, count=29)
    )
    return replace(survey, joist_fields=(joists,))


def told_of_fewer_joists(result: Estimate) -> BoardAlternative:
    return next(each for each in result.board_alternatives if " joists" in each.description)


def test_a_deck_on_fewer_joists_is_told_and_not_taken_unasked() -> None:
    result = estimate(on_close_joists(), price_book(), choices())
    told = told_of_fewer_joists(result)
    assert not told.taken
    assert "10 of 19 joists" in told.description
    assert "whoever answers for the joists" in told.why
    assert not [each for each in result.checks.verdicts if each.subject == "joists"]


def test_a_deck_on_fewer_joists_is_taken_when_asked_for_and_told_to_whoever_answers_for_them() -> None:
    usual = estimate(on_close_joists(), price_book(), choices())
    result = estimate(on_close_joists(), price_book(), choices(fewer_joists=True))
    assert told_of_fewer_joists(result).taken
    assert len(result.design.zones[0].pedestals) < len(usual.design.zones[0].pedestals)
    (said,) = (each for each in result.checks.verdicts if each.subject == "joists")
    assert said.severity == "caution"
    assert "10 of the 19 joists" in said.words
