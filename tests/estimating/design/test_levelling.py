"""A deck on uneven joists lies level and clear of the insulation. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.deck.levelling import levelling_verdicts
from estimating.choices import RaiseWith
from estimating.design.levelling import MOST_PACKING_MM, level_with_pedestals
from estimating.estimate import Estimate, estimate
from estimating.price_book import Pedestal, PriceBook, Role
from estimating.refusals import Refusal
from estimating.survey import DeckZone, Severity, Survey
from tests.estimating.lofts import choices, price_book, rectangle, trussed_loft


def pedestal(height_mm: int, *, base_mm: int = 90, cost: str = "30") -> Pedestal:
    return Pedestal(
        code=f"P{height_mm}-{base_mm}",
        description=f"pedestal {height_mm} mm",
        supplier="Invented Specialist",
        pack_cost=Decimal(cost),
        pack_size=12,
        height_mm=height_mm,
        base_mm=base_mm,
    )


EVERY_25 = tuple(pedestal(height) for height in range(150, 301, 25))


def uneven_loft(*tops_mm: int) -> Survey:
    """Joists 8 to 12 of a trussed loft under one clear zone, their tops as given against joist 1."""
    survey = trussed_loft()
    tops = (0,) * 7 + tops_mm + (0,) * (15 - 7 - len(tops_mm))
    joists = replace(survey.joist_fields[0], top_offsets_mm=tops)
    zone = DeckZone(name="A", outline=rectangle(4500, 1000, 6900, 1000 + 9 * 320), joist_field="main")
    return replace(survey, joist_fields=(joists,), zones=(zone,))


def book_with(*pedestals: Pedestal) -> PriceBook:
    others = tuple(each for each in price_book().products if not isinstance(each, Pedestal))
    return price_book(products=(*others, *pedestals))


def worked(*tops_mm: int, raise_with: RaiseWith = RaiseWith.PEDESTALS) -> Estimate:
    book = book_with(*EVERY_25)
    return estimate(uneven_loft(*tops_mm), book, choices(board_code="B22N", raise_with=raise_with))


@pytest.mark.parametrize(
    ("tops", "level", "heights", "packing"),
    [
        ((0, 0, 0), 225, (225, 225, 225), (0, 0, 0)),
        ((0, -25, 3), 228, (225, 250, 225), (3, 3, 0)),
        ((0, -7, -50), 225, (225, 225, 275), (0, 7, 0)),
        ((0, -12, -25), 225, (225, 225, 250), (0, 12, 0)),
    ],
)
def test_each_joist_gets_the_pedestal_that_comes_nearest(
    tops: tuple[int, ...], level: int, heights: tuple[int, ...], packing: tuple[int, ...]
) -> None:
    """Heights of 150 to 300 mm in steps of 25; 223 mm needed above the highest joist."""
    numbered = dict(enumerate(tops, start=1))
    found = level_with_pedestals(numbered, EVERY_25, 223 + max(tops))
    assert found.level_mm == level
    assert tuple(each.height_mm for each in found.joists) == heights
    assert tuple(each.packing_mm for each in found.joists) == packing


def test_pedestals_of_two_rules_never_stand_in_one_deck() -> None:
    mixed = (pedestal(225), pedestal(250, base_mm=120))
    found = level_with_pedestals({1: 0, 2: -25}, mixed, 220)
    assert {each.product_code for each in found.joists} == {"P225-90"} or {
        each.product_code for each in found.joists
    } == {"P250-120"}


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(-60, 60), min_size=2, max_size=12), st.integers(150, 260))
def test_every_joist_is_brought_up_to_one_level_that_clears_the_highest(tops: list[int], needed: int) -> None:
    numbered = dict(enumerate(tops, start=1))
    found = level_with_pedestals(numbered, EVERY_25, needed + max(tops))
    assert found.level_mm >= min(needed, 300) + max(tops)
    for each in found.joists:
        assert numbered[each.joist] + each.height_mm + each.packing_mm == found.level_mm
        assert each.packing_mm >= 0


def test_each_height_is_counted_marked_and_bought_by_its_own_boxes() -> None:
    """Five joists of 10 pedestals: 30 of one height and 20 of the other are 3 and 2 boxes of 12."""
    result = worked(0, 0, -25, -25, 0)
    zone = result.design.zones[0]
    assert {each.joist: each.height_mm for each in zone.pedestals} == {
        8: 225,
        9: 225,
        10: 250,
        11: 250,
        12: 225,
    }
    bought = [each for each in result.quantities.purchases if each.role is Role.PEDESTAL]
    assert [(each.product_code, each.needed.value, each.packs.value) for each in bought] == [
        ("P225-90", 30, 3),
        ("P250-90", 20, 2),
    ]
    assert [given.value for given in bought[1].packs.working.inputs][:2] == [20, 12]


def test_packing_is_told_joist_by_joist() -> None:
    zone = worked(0, -4, 0, 3, 0).design.zones[0]
    assert [each.packing_mm for each in zone.setting_out] == [3, 7, 3, 0, 3]
    assert zone.support_height_mm.value == 225 + 3


@pytest.mark.parametrize("raise_with", list(RaiseWith))
def test_the_deck_clears_the_insulation_over_the_highest_joist(raise_with: RaiseWith) -> None:
    even, uneven = worked(raise_with=raise_with), worked(0, 8, 0, -30, 0, raise_with=raise_with)
    assert uneven.design.zones[0].support_needed_mm.value == even.design.zones[0].support_needed_mm.value + 8
    assert uneven.design.gap_above_insulation_mm.value >= uneven.choices.gap_mm


def test_battens_are_packed_up_to_the_highest_joist() -> None:
    zone = worked(0, 8, 0, -4, 0, raise_with=RaiseWith.BATTENS).design.zones[0]
    assert [each.packing_mm for each in zone.setting_out] == [8, 0, 8, 12, 8]


def test_heights_that_cannot_level_the_deck_are_a_caution_in_words() -> None:
    result = worked(0, 0, -13, 0, 0)
    (verdict,) = levelling_verdicts(result.survey, result.design.zones)
    assert verdict.severity is Severity.CAUTION
    assert f"joist 10 by 13 mm is more than {MOST_PACKING_MM} mm of flat packers" in verdict.words
    assert verdict in result.checks.verdicts


def test_packing_that_flat_packers_give_is_a_note() -> None:
    result = worked(0, 0, -9, 0, 0)
    (verdict,) = levelling_verdicts(result.survey, result.design.zones)
    assert verdict.severity is Severity.NOTE
    assert "differ by 9 mm" in verdict.words


def test_even_joists_are_not_spoken_of() -> None:
    result = worked()
    assert not list(levelling_verdicts(result.survey, result.design.zones))


def test_readings_of_joist_tops_that_cannot_be_so_are_refused() -> None:
    joists = trussed_loft().joist_fields[0]
    for tops, requirement in (
        ((0, 5), "one reading for each of the 15 joists"),
        ((3,) + (0,) * 14, "must begin at 0"),
        ((0, 97) + (0,) * 13, "less than the joists are deep"),
    ):
        with pytest.raises(Refusal, match=requirement):
            replace(joists, top_offsets_mm=tops)
