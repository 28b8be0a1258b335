"""How good the count of boards is: the bound, the gap, the waste, and what a rule of thumb would order."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from estimating.design.boards.layout import Bound, Certificate, LaidDeck, NoLayout
from estimating.design.boards.problem import BoardSource, DeckTask
from estimating.design.deck import DesignedDeck, design_deck, first_layout
from estimating.design.ready_deck import ready_deck
from estimating.design.supports import choose_support
from estimating.design.zones import zone_frames
from estimating.estimate import estimate
from estimating.json_forms import estimate_as_json, estimate_from_json
from estimating.price_book import Board
from estimating.quantities.board_count import BoardCount, board_count
from estimating.survey import DeckZone
from estimating.ways_to_board import alike_boards
from tests.estimating.lofts import choices, price_book, rectangle, trussed_loft

CERTIFICATE = Certificate(unit=100, full=((603, 24), (1203, 49)), groove=(), tongue=(), joists=((0, 1, 3),))


def clear_deck(width_mm: int = 2400, depth_mm: int = 1800) -> DesignedDeck:
    """Four bays of 600 by three rows of 600, away from hatch and walls, in boards of 2400 by 600."""
    outline = rectangle(4500, 1000, 4500 + width_mm, 1000 + depth_mm)
    survey = trussed_loft(zones=(DeckZone(name="A", outline=outline, joist_field="main"),))
    chosen, book = choices(board_code="B22"), price_book()
    board = next(each for each in book.of_kind(Board) if each.code == "B22")
    supported = [
        (frame, choose_support(survey, book, chosen, frame, ())) for frame in zone_frames(survey, chosen)
    ]
    (alike,) = alike_boards((board,))
    ready = ready_deck(supported, board, (alike.source,), survey.hatch.outline)
    return design_deck(ready, first_layout(ready.task))


def counted(deck: DesignedDeck, **bound: int) -> BoardCount:
    found = Bound(**bound, certificate=CERTIFICATE) if bound else None
    count = board_count(replace(deck, laid=replace(deck.laid, bound=found)))
    assert count is not None
    return count


def test_without_a_bound_nothing_is_claimed() -> None:
    count = counted(clear_deck())
    assert count.boards.value == 3
    assert (count.least, count.gap, count.proved) == (None, None, False)


def test_a_bound_that_is_reached_proves_the_fewest() -> None:
    count = counted(clear_deck(), least=3, certified=3)
    assert count.proved
    assert count.least is not None
    assert "searched" not in count.least.working.formula
    assert {each.name: each.value for each in count.least.working.inputs} == {
        "worth of one board": 100,
        "piece full width, from 603 mm": 24,
        "piece full width, from 1203 mm": 49,
        "joint on support 2 of zone A": 3,
    }


def test_what_was_proved_by_search_says_so_beside_what_prices_proved() -> None:
    count = counted(clear_deck(), least=3, certified=2)
    assert count.proved
    assert count.least is not None
    assert count.least.working.source.startswith("exhaustive search")
    assert count.least.working.inputs[0].value == 2


def test_a_gap_is_what_can_not_be_ruled_out() -> None:
    count = counted(clear_deck(), least=2, certified=2)
    assert not count.proved
    assert count.gap is not None
    assert (count.gap.value, count.gap.unit) == (1, "")


def test_where_lengths_are_mixed_the_bound_is_money() -> None:
    deck = clear_deck()
    short = BoardSource(code="short", cover_length_mm=1200, price_pence=650)
    mixed = DeckTask(deck.task.zones, (*deck.task.sources, short))
    laid = LaidDeck(deck.laid.zones, cost=3_650, bound=Bound(3_615, 3_615, CERTIFICATE))
    count = board_count(replace(deck, task=mixed, laid=laid))
    assert count is not None
    assert count.gap is not None
    assert not count.in_boards
    assert (count.gap.value, count.gap.unit) == (Decimal("0.35"), "GBP")


def test_what_is_at_hand_is_free_and_the_bound_still_counts_boards() -> None:
    deck = clear_deck()
    kept = BoardSource(code="kept", cover_length_mm=1200, price_pence=0, at_hand=2)
    stocked = DeckTask(deck.task.zones, (*deck.task.sources, kept))
    count = counted(replace(deck, task=stocked), least=3, certified=3)
    assert count.in_boards
    assert count.proved


def test_a_deck_of_whole_boards_wastes_nothing() -> None:
    """Arithmetic: three boards of 2.4 m by 0.6 m on 4.32 m²."""
    count = counted(clear_deck())
    assert count.waste_percent.value == 0
    assert count.offcuts_kept.value == 0


def test_what_is_kept_is_not_waste() -> None:
    """Arithmetic: 1800 by 600 takes one board of 2400 less 600, which is long enough to keep."""
    count = counted(clear_deck(1800, 600))
    assert count.offcuts_kept.value == 1
    assert Decimal(0) <= count.waste_percent.value < 1


@pytest.mark.parametrize(("depth_mm", "boards"), [(600, 2), (1800, 4), (3600, 7)])
def test_the_rule_of_thumb_is_area_plus_ten_per_cent_rounded_up(depth_mm: int, boards: int) -> None:
    """Common practice, no source: 1, 3 and 6 boards' area, times 1.1, rounded up."""
    assert counted(clear_deck(2400, depth_mm)).rule_of_thumb.value == boards


def test_a_deck_with_a_zone_that_cannot_be_laid_has_no_count() -> None:
    deck = clear_deck()
    unlaid = NoLayout("A", stagger_breaks=1, why="the joists leave no choice")
    assert board_count(replace(deck, laid=replace(deck.laid, zones=(unlaid,)))) is None


def test_an_estimate_carries_the_count_and_reads_it_back() -> None:
    result = estimate(trussed_loft(), price_book(), choices())
    count = result.quantities.board_count
    assert count is not None
    assert count.boards.value == sum(zone.layout.boards for zone in result.design.zones if zone.layout)
    assert estimate_from_json(estimate_as_json(result)).quantities.board_count == count


def test_an_estimate_frozen_before_boards_were_proved_still_reads() -> None:
    form = estimate_as_json(estimate(trussed_loft(), price_book(), choices()))
    del form["quantities"]["board_count"]
    assert estimate_from_json(form).quantities.board_count is None
