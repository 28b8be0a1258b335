"""The front door: trade rules from end to end, and figures that all show their working."""

from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.choices import Part, RaiseWith
from estimating.design.boards.checking.checker import deck_faults
from estimating.design.boards.layout import LaidDeck
from estimating.design.boards.problem import DeckTask, source_of
from estimating.estimate import Estimate, estimate
from estimating.plane import contains
from estimating.survey import DeckZone, Finding, Severity
from estimating.working import Given
from estimating.workings_as_text import figures_of
from tests.estimating.lofts import (
    EVERY_PART,
    LOFTS,
    bungalow_loft,
    choices,
    cut_roof_loft,
    price_book,
    rectangle,
    trussed_loft,
)

EASY_PARTS = EVERY_PART - {Part.LADDER, Part.SHELVES}


def worked(name: str, raise_with: RaiseWith = RaiseWith.PEDESTALS) -> Estimate:
    return estimate(LOFTS[name](), price_book(), choices(parts=EASY_PARTS, raise_with=raise_with))


@pytest.fixture(scope="module", params=[(name, way) for name in LOFTS for way in RaiseWith], ids=str)
def any_estimate(request: pytest.FixtureRequest) -> Estimate:
    return worked(*request.param)


def test_every_figure_shows_formula_inputs_and_source(any_estimate: Estimate) -> None:
    figures = list(figures_of(any_estimate))
    assert len(figures) > 60
    for path, figure in figures:
        working = figure.working
        assert figure.name.strip(), path
        assert working.formula.strip(), path
        assert working.source.strip(), path
        assert working.inputs, path
        for given in working.inputs:
            assert isinstance(given, Given), path
            assert given.name.strip(), path
            assert str(given.value).strip(), path


def test_the_totals_add_up_from_packs_hours_and_charges(any_estimate: Estimate) -> None:
    quantities, price = any_estimate.quantities, any_estimate.price
    costs = [
        line.cost.value
        for group in (quantities.purchases, quantities.labour, quantities.charges)
        for line in group
    ]
    assert price.cost.value == sum(costs)
    assert (
        sum(line.net.value for line in price.lines) + sum(a.net for a in price.adjustments)
        == price.totals.net
    )
    assert sum(each.net for each in price.totals.vat_by_rate) == price.totals.net
    assert sum(each.vat for each in price.totals.vat_by_rate) == price.totals.vat
    assert price.totals.net + price.totals.vat == price.totals.gross
    assert any_estimate.quantities.hours.value == sum(line.hours.value for line in quantities.labour)


def test_layouts_keep_every_laying_rule(any_estimate: Estimate) -> None:
    zones = any_estimate.design.zones
    layouts = tuple(zone.layout for zone in zones if zone.layout)
    assert len(layouts) == len(zones)
    problems = tuple(zone.problem for zone in zones)
    boards = sum(layout.boards for layout in layouts)
    task = DeckTask(problems, (source_of(problems[0].product),))
    assert deck_faults(task, LaidDeck(layouts, boards, None)) == ()


def test_the_cutting_list_yields_every_piece_of_every_zone_once(any_estimate: Estimate) -> None:
    design = any_estimate.design
    laid = {
        (zone.zone, piece.number): piece.board
        for zone in design.zones
        if zone.layout
        for piece in zone.layout.pieces
    }
    cut = [(piece.zone, piece.number, board.board) for board in design.cuts for piece in board.pieces]
    assert sorted(cut) == sorted((*piece, board) for piece, board in laid.items())


def test_boards_are_numbered_as_they_are_opened_from_the_hatch_outward(any_estimate: Estimate) -> None:
    """Common practice, no source: the zone with the hatch is laid first, and each in its laying order."""
    zones = any_estimate.design.zones
    x, y = 3750, 3150  # in zone A of every one of these lofts
    first = next(zone for zone in zones if contains(zone.finished_edge, (x, y)))
    opened: list[int] = []
    for zone in (first, *(each for each in zones if each is not first)):
        assert zone.layout
        board_of = {piece.number: piece.board for piece in zone.layout.pieces}
        opened += [board_of[piece] for piece in zone.laying_order]
    assert list(dict.fromkeys(opened)) == [board.board for board in any_estimate.design.cuts]


def test_the_deck_never_presses_on_the_insulation(any_estimate: Estimate) -> None:
    assert any_estimate.design.gap_above_insulation_mm.value >= any_estimate.choices.gap_mm


def test_no_pedestal_stands_in_a_keep_out_or_beyond_the_deck(any_estimate: Estimate) -> None:
    """Seen on plan, so that a wrong turn of the zone's frame would show."""
    survey = any_estimate.survey
    holes = [survey.hatch.outline, *(each.outline for each in survey.keep_outs)]
    for zone in any_estimate.design.zones:
        xs, ys = zip(*zone.finished_edge, strict=True)
        for x, y in (pedestal.at for pedestal in zone.pedestals):
            assert min(xs) <= x <= max(xs)
            assert min(ys) <= y <= max(ys)
            for hole in holes:
                left, low, right, high = hole[0][0], hole[0][1], hole[2][0], hole[2][1]
                assert not (left < x < right and low < y < high)


@pytest.mark.parametrize("name", LOFTS)
def test_every_pedestal_stands_on_the_joist_it_is_numbered_by(name: str) -> None:
    result = worked(name)
    for zone in result.design.zones:
        field = result.survey.joist_field(zone.joist_field)
        across = 0 if field.runs_along == "y" else 1
        for pedestal in zone.pedestals:
            assert pedestal.at[across] == field.centre_lines_mm[pedestal.joist - 1]


def clear_deck() -> Estimate:
    """Common practice, no source: a clear rectangle of 5 joists by 9 whole rows of 320; boxes of 12 only."""
    book = price_book(products=tuple(each for each in price_book().products if each.code != "P225-36"))
    zone = DeckZone(name="A", outline=rectangle(4500, 1000, 6900, 1000 + 9 * 320), joist_field="main")
    return estimate(trussed_loft(zones=(zone,)), book, choices(board_code="B22N"))


def test_pedestals_are_joists_covered_times_lines_along_them() -> None:
    """Common practice, no source."""
    zone = clear_deck().design.zones[0]
    assert len(zone.pedestals) == 5 * (9 + 1)
    assert [len(marks.positions_mm) for marks in zone.setting_out] == [10] * 5


def test_pedestals_are_bought_in_whole_boxes_rounded_up() -> None:
    """Common practice, no source: 50 pedestals are 5 boxes of 12."""
    pedestals = next(each for each in clear_deck().quantities.purchases if each.role == "pedestal")
    assert (pedestals.needed.value, pedestals.product_code, pedestals.packs.value) == (50, "P225-12", 5)


def test_the_gauge_is_board_width_less_pedestal_base() -> None:
    """Common practice, no source: 320 − 90 = 230 mm."""
    gauge = clear_deck().design.zones[0].gauge_mm
    assert gauge is not None
    assert gauge.value == 230


def test_270_mm_of_mineral_wool_reaches_0_16() -> None:
    """The trade's figure for a bare loft: 100 between and 170 across."""
    result = worked("cut roof")
    assert result.design.insulation.finished_depth_mm.value == 270
    assert result.design.insulation.meets_target


def test_boards_run_across_joists_whichever_way_the_joists_run() -> None:
    design = worked("bungalow").design
    front, wing = design.zones
    assert (front.turns, wing.turns) == (0, 1)
    assert wing.problem.joist_lines == tuple(-line for line in range(10200, 6400, -400))


def test_boards_on_battens_run_along_the_joists() -> None:
    design = worked("bungalow", RaiseWith.BATTENS).design
    front, wing = design.zones
    assert (front.turns, wing.turns) == (1, 0)
    assert all(start[1] == end[1] for start, end in front.battens)  # joists run along y, battens across them


@pytest.mark.parametrize("name", LOFTS)
def test_squashing_to_joist_level_doubles_the_heat_lost(name: str) -> None:
    """Tests by the National Physical Laboratory: half the resistance and more is gone."""
    heat = worked(name).checks.heat
    assert heat.squashed.value >= Decimal("1.9") * heat.as_proposed.value


def test_a_stop_finding_stops_until_it_is_cleared() -> None:
    def stops(clearance: str | None) -> int:
        finding = Finding(
            hazard="bats", severity=Severity.STOP, words="Droppings below the ridge.", clearance=clearance
        )
        return len(estimate(trussed_loft(findings=(finding,)), price_book(), choices()).checks.stops)

    assert stops(None) == 1
    assert stops("Licensed ecologist's letter of 3 December 2026") == 0


def test_without_insulation_nothing_is_added_but_the_deck_still_clears_what_lies_there() -> None:
    result = estimate(trussed_loft(), price_book(), choices(parts=frozenset()))
    assert result.design.insulation.layers == ()
    assert not result.design.insulation.meets_target
    assert result.design.gap_above_insulation_mm.value >= 50
    assert [line.part for line in result.price.lines] == [Part.VISIT, Part.DECK]


def test_under_deck_and_open_loft_are_counted_apart() -> None:
    layer = worked("trussed").design.insulation.layers[0]
    assert layer.deck_area_m2.value == Decimal("15.18")  # 5.4 × 2.88 less a hatch of 0.53 × 0.70
    assert layer.open_area_m2.value == Decimal("49.25")  # 9.0 × 7.2 less the zone

    left = estimate(trussed_loft(), price_book(), choices(insulate_open_loft=False))
    assert left.design.insulation.layers[0].open_area_m2.value == 0


def test_an_unregistered_firm_charges_no_vat_and_bears_what_it_pays() -> None:
    book = price_book()
    pricing = type(book.pricing)(vat_registered=False)
    usual, unregistered = (
        estimate(trussed_loft(), each, choices()) for each in (book, price_book(pricing=pricing))
    )
    assert unregistered.price.totals.vat == 0
    for one, other in zip(usual.quantities.purchases, unregistered.quantities.purchases, strict=True):
        assert other.cost.value == (one.cost.value * Decimal("1.2")).quantize(Decimal("0.01"))


def test_the_same_inputs_give_the_same_estimate() -> None:
    assert estimate(cut_roof_loft(), price_book(), choices()) == estimate(
        cut_roof_loft(), price_book(), choices()
    )


def test_zones_of_different_joist_depth_get_supports_of_their_own_height() -> None:
    result = estimate(bungalow_loft(), price_book(), choices(gap_mm=30))
    deep, shallow = result.design.zones
    assert deep.support_needed_mm.value == 270 - 122 + 30
    assert shallow.support_needed_mm.value == 270 - 97 + 30
