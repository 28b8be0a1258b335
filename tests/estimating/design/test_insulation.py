"""Insulation chosen to reach the target at least cost."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.warmth.ceiling import ceiling_u_value, meets
from estimating.choices import RaiseWith
from estimating.design.areas import area_under_deck_m2, open_loft_area_m2, region_area_m2
from estimating.design.design import InsulationLayer
from estimating.design.insulation import as_it_lies, design_insulation, finished_depth_mm
from estimating.price_book import InsulationRoll
from estimating.survey import ExistingInsulation, InsulationMaterial
from tests.estimating.lofts import LOFTS, bungalow_loft, choices, cut_roof_loft, price_book, trussed_loft


def existing(*readings: int, stays: bool = True) -> ExistingInsulation:
    return ExistingInsulation(
        material=InsulationMaterial.MINERAL_WOOL, depth_readings_mm=readings, stays=stays
    )


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 350), st.sampled_from(["0.13", "0.16", "0.20", "0.25"]), st.sampled_from(RaiseWith))
def test_what_is_chosen_meets_the_target_and_fills_the_joists(
    depth: int, target: str, way: RaiseWith
) -> None:
    survey = trussed_loft(insulation=existing(depth))
    wanted = choices(target_u_w_m2k=Decimal(target), raise_with=way)
    design = design_insulation(survey, price_book(), wanted)
    assert design.meets_target
    between = sum(layer.thickness_mm for layer in design.layers if layer.between)
    assert depth + between >= 97
    assert depth < 97 or not between


def test_no_cheaper_pair_of_layers_would_do() -> None:
    """Looked for the slow way: every pair across a filled bare loft."""
    survey, book, wanted = cut_roof_loft(), price_book(), choices()
    field = survey.joist_fields[0]
    chosen = design_insulation(survey, book, wanted)

    def cost(layers: list[InsulationRoll]) -> Decimal:
        wool = sum(roll.pack_cost / roll.coverage_m2 * Decimal("1.05") for roll in layers)
        return wool + Decimal("0.12") * book.hourly_cost * len(layers)

    rolls = {roll.code: roll for roll in book.of_kind(InsulationRoll)}
    taken = cost([rolls[layer.roll_code] for layer in chosen.layers])
    for one in rolls.values():
        for other in (None, *rolls.values()):
            across = [one] if other is None else [one, other]
            design = [(rolls["R100"], True), *((roll, False) for roll in across)]
            layers = [layer_like(chosen.layers[0], roll, between) for roll, between in design]
            u_value = ceiling_u_value(survey, field, as_it_lies(survey, layers, book)).value
            if meets(u_value, wanted.target_u_w_m2k):
                assert cost([roll for roll, _ in design]) >= taken


def layer_like(layer: InsulationLayer, roll: InsulationRoll, between: bool) -> InsulationLayer:
    return replace(layer, roll_code=roll.code, thickness_mm=roll.thickness_mm, between=between)


def test_insulation_that_does_not_stay_counts_for_nothing() -> None:
    assert (
        design_insulation(
            trussed_loft(insulation=existing(100, stays=False)), price_book(), choices()
        ).existing_depth_mm
        == 0
    )


def test_enough_insulation_is_left_alone() -> None:
    design = design_insulation(trussed_loft(insulation=existing(280, 290)), price_book(), choices())
    assert design.layers == ()
    assert design.finished_depth_mm.value == 285


def test_nothing_is_added_to_what_meets_the_target_already() -> None:
    wanted = choices(target_u_w_m2k=Decimal("0.5"))
    assert design_insulation(trussed_loft(insulation=existing(90)), price_book(), wanted).layers == ()


def test_a_target_out_of_reach_gets_the_best_there_is_and_says_so() -> None:
    design = design_insulation(cut_roof_loft(), price_book(), choices(target_u_w_m2k=Decimal("0.05")))
    assert not design.meets_target
    assert [layer.thickness_mm for layer in design.layers] == [100, 200, 200]


def test_layers_across_rest_on_whichever_stands_higher() -> None:
    survey = bungalow_loft()
    layers = design_insulation(survey, price_book(), choices()).layers
    assert [(layer.thickness_mm, layer.between) for layer in layers] == [(100, True), (100, False)]
    assert finished_depth_mm(survey, layers, 122).value == 70 + 100 + 100
    assert finished_depth_mm(survey, layers, 200).value == 200 + 100


@pytest.mark.parametrize("name", LOFTS)
def test_deck_and_open_loft_are_the_whole_loft_less_what_is_kept_clear(name: str) -> None:
    survey = LOFTS[name]()
    kept_clear = sum(
        region_area_m2(each.outline) for each in survey.keep_outs if each.kind in ("tank", "chimney", "flue")
    )
    kept_clear += region_area_m2(survey.hatch.outline)
    both = area_under_deck_m2(survey).value + open_loft_area_m2(survey).value
    assert abs(both + kept_clear - region_area_m2(survey.outline)) <= Decimal("0.02")
