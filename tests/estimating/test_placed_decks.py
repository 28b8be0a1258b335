"""The deck taken is placed: its edges within the surveyor's allowance, its rows where they take least."""

from __future__ import annotations

from dataclasses import replace

from estimating.design.boards.checking.checker import faults
from estimating.estimate import Estimate, estimate
from estimating.json_forms import estimate_as_json, estimate_from_json
from estimating.survey import DeckZone, Survey
from tests.estimating.lofts import LOFTS, choices, cut_roof_loft, price_book, rectangle, trussed_loft


def zone(left: int, right: int, *, back: int = 5080, may_move_mm: int = 0) -> Survey:
    outline = rectangle(left, 2200, right, back)
    deck = DeckZone(name="A", outline=outline, joist_field="main", edge_may_move_mm=may_move_mm)
    return trussed_loft(zones=(deck,))


def worked(survey: Survey, **chosen: object) -> Estimate:
    return estimate(survey, price_book(), choices(**chosen))


def test_an_edge_that_moved_is_in_the_design_and_all_is_counted_for_where_it_lies():
    wished, placed = worked(zone(1500, 7090)), worked(zone(1500, 7090, may_move_mm=200))
    (deck,) = placed.design.zones
    assert deck.moves_in_words == (
        "The right-hand edge moved in by 40 mm.",  # 150 mm past joist 12, so that no bearer is needed
        "The front edge moved out by 120 mm.",  # five whole rows
    )
    assert deck.finished_edge == rectangle(1500, 2080, 7050, 5080)
    assert wished.design.zones[0].edge_moves == ()
    assert placed.design.deck_area_m2.value > wished.design.deck_area_m2.value
    assert {pedestal.joist for pedestal in deck.pedestals} == set(range(3, 13))
    assert deck.edge_bearers == ()
    assert len(wished.design.zones[0].edge_bearers) > 0
    assert placed.price.cost.value < wished.price.cost.value
    assert deck.layout is not None
    assert faults(deck.problem, deck.layout) == ()


def test_the_way_taken_says_what_placing_it_saved():
    placed = worked(zone(1500, 7090, may_move_mm=200))
    taken = placed.board_alternatives[0]
    assert taken.taken
    assert "its edges and rows as placed save £" in taken.why
    assert taken.boards == sum(deck.layout.boards for deck in placed.design.zones if deck.layout)


def test_a_zone_that_cannot_be_boarded_says_what_would_cure_it_and_stops_the_quote():
    refused = worked(zone(1980, 5940, back=4440), board_code="B22N")
    (deck,) = refused.design.zones
    assert deck.no_layout is not None
    edges, board = deck.no_layout.cures
    assert edges.words == "the right-hand edge moved out by 60 mm and the left-hand edge moved in by 132 mm"
    assert board.words == "chipboard 2400 × 600 × 22 mm"
    stops = [verdict.words for verdict in refused.checks.stops]
    assert any(f"It can be laid with {edges.words}" in words for words in stops)
    assert any(f"with {board.words} ({board.boards} boards)." in words for words in stops)


def test_the_cure_is_taken_where_the_surveyor_allows_it():
    cured = worked(zone(1980, 5940, back=4440, may_move_mm=132), board_code="B22N")
    (deck,) = cured.design.zones
    assert deck.layout is not None
    assert len(deck.moves_in_words) == 2


def test_edges_of_a_turned_zone_are_called_as_they_lie_on_plan():
    """The joists of the cut roof run from gable to gable, so its rows run from front to back."""
    survey = cut_roof_loft()
    allowed = replace(survey.zones[0], edge_may_move_mm=100)
    (deck,) = worked(replace(survey, zones=(allowed,)), board_code="B22N").design.zones
    assert deck.moves_in_words == ("The right-hand edge moved out by 80 mm.",)
    assert deck.finished_edge == rectangle(500, 1600, 6580, 4700)


def test_a_placed_deck_is_read_back_as_it_was_written():
    for survey in (zone(1500, 7090, may_move_mm=200), zone(1980, 5940, back=4440)):
        given = worked(survey, board_code="B22N")
        assert estimate_from_json(estimate_as_json(given)) == given


def test_the_same_loft_is_placed_alike_each_time():
    for loft in LOFTS.values():
        zones = tuple(replace(each, edge_may_move_mm=100) for each in loft().zones)
        first, again = (worked(loft(zones=zones)) for _ in range(2))
        assert first.design == again.design
