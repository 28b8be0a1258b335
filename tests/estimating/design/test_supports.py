"""Pedestals and battens high enough, and no higher than need be."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.choices import RaiseWith
from estimating.design.insulation import design_insulation
from estimating.design.supports import choose_support, needed_height_mm
from estimating.design.zones import ZoneFrame, zone_frames
from estimating.price_book import Pedestal
from estimating.survey import Survey
from tests.estimating.lofts import choices, cut_roof_loft, price_book, trussed_loft


def frame_of(survey: Survey) -> ZoneFrame:
    return zone_frames(survey, choices())[0]


@pytest.mark.parametrize(("gap", "height"), [(0, 175), (2, 175), (3, 225), (50, 225), (53, 275), (150, 325)])
def test_the_lowest_pedestal_that_clears_is_taken(gap: int, height: int) -> None:
    """270 mm of insulation over joists of 97 mm stands 173 mm above them."""
    survey, book, wanted = trussed_loft(), price_book(), choices(gap_mm=gap)
    layers = design_insulation(survey, book, wanted).layers
    support = choose_support(survey, book, wanted, frame_of(survey), layers)
    assert support.needed_mm.value == 173 + gap
    assert support.height_mm.value == height


def test_where_none_clears_the_highest_is_taken_and_does_not_clear() -> None:
    survey, wanted = trussed_loft(), choices(gap_mm=200)
    layers = design_insulation(survey, price_book(), wanted).layers
    support = choose_support(survey, price_book(), wanted, frame_of(survey), layers)
    assert support.height_mm.value == 325
    assert support.needed_mm.value > 325


def test_of_two_as_high_the_cheaper_one_is_taken() -> None:
    book = price_book()
    layers = design_insulation(trussed_loft(), book, choices()).layers
    taken = choose_support(trussed_loft(), book, choices(), frame_of(trussed_loft()), layers).product
    same = [each for each in book.of_kind(Pedestal) if each.height_mm == 225]
    assert taken.pack_cost / taken.pack_size == min(each.pack_cost / each.pack_size for each in same)


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 200))
def test_battens_stack_until_they_clear_and_never_higher_than_three(gap: int) -> None:
    survey, book = cut_roof_loft(), price_book()
    wanted = choices(gap_mm=gap, raise_with=RaiseWith.BATTENS)
    layers = design_insulation(survey, book, wanted).layers
    support = choose_support(survey, book, wanted, frame_of(survey), layers)
    assert 1 <= support.stacked <= 3
    clears = support.height_mm.value >= support.needed_mm.value
    assert clears == (support.needed_mm.value <= 300)


def test_no_height_is_needed_over_insulation_far_below_the_joist_tops() -> None:
    survey = trussed_loft()
    low = replace(survey.insulation, depth_readings_mm=(20,))
    assert needed_height_mm(replace(survey, insulation=low), frame_of(survey), (), 50).value == 0
