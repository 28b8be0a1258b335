"""Counting the deck and everything beside it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from estimating.choices import Part, RaiseWith
from estimating.design.openings import choose_opening
from estimating.estimate import Estimate, estimate
from estimating.price_book import Batten, PriceBook, Role, Screw
from estimating.quantities.deck_take_off import crossings
from estimating.quantities.free_edges import free_edge_m
from estimating.quantities.screws import board_screws
from estimating.refusals import Refusal
from estimating.survey import DeckZone, Hatch, Survey
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


def clear_deck(raise_with: RaiseWith = RaiseWith.PEDESTALS, board: str = "B22") -> Estimate:
    """Four bays of 600 by three rows of 600, away from hatch and walls."""
    zone = DeckZone(name="A", outline=rectangle(4500, 1000, 6900, 2800), joist_field="main")
    wanted = choices(board_code=board, raise_with=raise_with)
    return estimate(trussed_loft(zones=(zone,)), price_book(), wanted)


def needed(result: Estimate, code: str) -> int | Decimal:
    return next(line.needed.value for line in result.quantities.take_off if line.product_code == code)


def test_a_board_takes_one_screw_at_each_pedestal_under_it() -> None:
    """Common practice, no source: whole boards over 5 joists, each resting on two lines of pedestals."""
    result = clear_deck()
    layout = result.design.zones[0].layout
    assert layout is not None
    crossed = sum(
        sum(piece.x0 - 3 <= line <= piece.x1 + 3 for line in range(4500, 7000, 600)) * 2
        for piece in layout.pieces
    )
    assert needed(result, "S50") == crossed


def test_a_pedestal_takes_four_screws() -> None:
    """Common practice, no source."""
    result = clear_deck()
    assert needed(result, "S30") == 4 * len(result.design.zones[0].pedestals)


def test_boards_on_battens_are_screwed_at_200_along_ends_and_400_between() -> None:
    """NBS K11/325: a 600 board has 550 between its edge distances, so 4 screws at an end and 3 between."""
    result = clear_deck(RaiseWith.BATTENS)
    zone = result.design.zones[0]
    assert zone.layout is not None
    whole_width = [piece for piece in zone.layout.pieces if piece.width_mm == 600]
    assert len(whole_width) == len(zone.layout.pieces)
    under = [sum(p.x0 - 3 <= line <= p.x1 + 3 for line in zone.problem.joist_lines) for p in whole_width]
    assert min(under) >= 2
    assert needed(result, "S50") == sum(2 * 4 + (count - 2) * 3 for count in under)


def test_battens_are_fixed_with_two_screws_at_each_joist_they_cross() -> None:
    """Common practice, no source."""
    zone = clear_deck(RaiseWith.BATTENS).design.zones[0]
    assert crossings(zone) == 5 * len(zone.battens)
    assert needed(clear_deck(RaiseWith.BATTENS), "S140") == crossings(zone) * zone.stacked * 2


def test_edge_bearers_are_counted_priced_and_fitted() -> None:
    result = estimate(cut_roof_loft(), price_book(), choices(board_code="B22"))
    bearers = len(result.design.zones[0].edge_bearers)
    assert bearers
    assert needed(result, "T75")
    assert next(line for line in result.quantities.labour if "bearers" in line.task).amount.value == bearers


def test_edge_bearers_are_held_by_screws_long_enough_to_go_through_the_board() -> None:
    """Common practice, no source: four board screws each; a 30 mm pedestal screw bites 8 mm through 22."""
    result = estimate(cut_roof_loft(), price_book(), choices(board_code="B22"))
    (zone,) = result.design.zones
    assert zone.edge_bearers
    assert needed(result, "S50") == board_screws(zone).value + 4 * len(zone.edge_bearers)
    pedestal_screws = [line for line in result.quantities.take_off if line.product_code == "S30"]
    assert sum(line.needed.value for line in pedestal_screws) == 4 * len(zone.pedestals)


def without(*codes: str) -> PriceBook:
    return price_book(products=tuple(each for each in products() if each.code not in codes))


def test_edge_bearers_need_a_batten_in_the_book() -> None:
    with pytest.raises(Refusal, match=r"needs a batten: .* board ends need an edge bearer"):
        estimate(cut_roof_loft(), without("T75", "T100"), choices(board_code="B22"))


def test_board_screws_are_twice_the_board_long() -> None:
    short = tuple(
        replace(each, length_mm=40) if isinstance(each, Screw) and each.fixes == "board" else each
        for each in products()
    )
    with pytest.raises(Refusal, match="needs a board screw of at least 44 mm"):
        estimate(trussed_loft(), price_book(products=short), choices(board_code="B22"))


@pytest.mark.parametrize("name", LOFTS)
def test_rolls_cover_their_layer_and_the_waste(name: str) -> None:
    result = estimate(LOFTS[name](), price_book(), choices(insulation_waste_percent=Decimal(7)))
    for layer, line in zip(
        result.design.insulation.layers,
        [line for line in result.quantities.take_off if line.role is Role.INSULATION_ROLL],
        strict=True,
    ):
        area = layer.deck_area_m2.value + layer.open_area_m2.value
        assert line.needed.value == (area * Decimal("1.07")).quantize(Decimal("0.01"))


def test_free_edges_are_those_at_neither_wall_nor_zone_and_the_hatch_within() -> None:
    def length(*zones: tuple[int, int, int, int]) -> Decimal:
        made = tuple(
            DeckZone(name=str(number), outline=rectangle(*zone), joist_field="main")
            for number, zone in enumerate(zones)
        )
        return free_edge_m(trussed_loft(zones=made)).value

    assert length((5000, 1000, 7000, 2000)) == Decimal("6.00")
    assert length((5000, 0, 7000, 2000)) == Decimal("6.00")  # 8 m around, 2 m of it at the front eaves
    assert length((5000, 1000, 6000, 2000), (6000, 1000, 7000, 2000)) == Decimal("6.00")
    assert length((3000, 3000, 4200, 4200)) == Decimal("4.80") + Decimal("2.46")  # hatch 0.53 × 0.70 inside


@pytest.mark.parametrize(
    ("zones", "metres"),
    [
        # The hatch is 0.53 m by 0.70 m, from 3.2 m to 3.9 m; the first deck is 5.4 m by 2.4 m.
        ([(1500, 3550, 6900, 5950)], "16.30"),  # 15.60 around, and 0.35 in at either side
        ([(1500, 3200, 6900, 5600)], "17.00"),  # 15.60 around, and 0.70 in at either side
        ([(1500, 3900, 6900, 6300)], "15.60"),  # the hatch lies beside it
        ([(1500, 2200, 6900, 3550), (1500, 3550, 6900, 5080)], "19.02"),  # the hatch lies in two zones
        ([(1500, 2200, 6900, 3900), (1500, 3900, 6900, 5080)], "19.02"),  # the zones meet at its edge
    ],
)
def test_a_hatch_at_the_edge_of_a_zone_is_a_notch_to_trim(
    zones: list[tuple[int, int, int, int]], metres: str
) -> None:
    made = tuple(
        DeckZone(name=str(number), outline=rectangle(*zone), joist_field="main")
        for number, zone in enumerate(zones)
    )
    assert free_edge_m(trussed_loft(zones=made)).value == Decimal(metres)


def test_the_old_hatch_is_stripped_all_round_also_where_a_new_one_that_comes_sealed_may_be_had() -> None:
    parts = frozenset({Part.DRAUGHT_STRIP})
    assert needed(estimate(trussed_loft(), price_book(), choices(parts=parts)), "D1") == Decimal("2.46")
    with_hatch = estimate(trussed_loft(), price_book(), choices(parts=parts | {Part.HATCH}))
    assert needed(with_hatch, "D1") == Decimal("2.46")


def lofty(floor_to_ceiling_mm: int, opening: tuple[int, int] = (530, 700)) -> Survey:
    outline = rectangle(3335, 3200, 3335 + opening[0], 3200 + opening[1])
    return trussed_loft(hatch=Hatch(outline=outline, floor_to_ceiling_mm=floor_to_ceiling_mm))


@pytest.mark.parametrize(("height", "ladder"), [(2400, "L1"), (2600, "L1"), (2601, "L2"), (3000, "L2")])
def test_the_cheapest_ladder_that_reaches_is_taken(height: int, ladder: str) -> None:
    opening = choose_opening(lofty(height), price_book(), choices(parts=frozenset({Part.LADDER})))
    assert opening.ladder is not None
    assert opening.ladder.code == ladder


def test_a_ladder_must_pass_the_opening_that_will_be_there() -> None:
    small = lofty(2400, (530, 560))
    with pytest.raises(Refusal, match="offer a new hatch too"):
        choose_opening(small, price_book(), choices(parts=frozenset({Part.LADDER})))
    both = choose_opening(small, price_book(), choices(parts=frozenset({Part.LADDER, Part.HATCH})))
    assert both.hatch is not None
    assert both.hatch.code == "H1"


def test_a_new_hatch_in_a_trussed_roof_goes_between_trusses() -> None:
    survey = trussed_loft()
    narrow = replace(survey.joist_fields[0], width_mm=75)  # 525 clear, less than the 540 of every hatch
    with pytest.raises(Refusal, match="fits between the joists"):
        choose_opening(
            replace(survey, joist_fields=(narrow,)), price_book(), choices(parts=frozenset({Part.HATCH}))
        )


def test_shelves_go_in_free_bays_only() -> None:
    wanted = choices(parts=frozenset({Part.SHELVES}), shelf_bays=7)
    with pytest.raises(Refusal, match=r"choices.shelf_bays: must not be more than the 6 bays"):
        estimate(trussed_loft(), price_book(), wanted)


def test_what_there_is_none_of_has_no_line() -> None:
    parts = frozenset({Part.DOWNLIGHT_COVERS, Part.LIGHT, Part.SHELVES})
    result = estimate(bungalow_loft(), price_book(), choices(parts=parts, lights=0))
    assert {line.part for line in result.price.lines} == {Part.VISIT, Part.DECK}


def test_battens_are_bought_in_whole_lengths() -> None:
    result = clear_deck(RaiseWith.BATTENS)
    zone = result.design.zones[0]
    batten = price_book().product(zone.support_code)
    assert isinstance(batten, Batten)
    longest = sum(zone.batten_pieces_mm) * zone.stacked
    assert needed(result, batten.code) * batten.length_mm >= longest
