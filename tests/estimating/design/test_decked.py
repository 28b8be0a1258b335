"""A deck in two sizes: zones left out are as if they had not been drawn, and the survey stays as measured."""

from __future__ import annotations

from dataclasses import replace

import pytest

from estimating.checks.structure.truss_designer import told_to_the_truss_designer
from estimating.design.decked import decked_survey, zones_within_others
from estimating.drawing.plan import plan
from estimating.drawing.setting_out_plan import setting_out_plan
from estimating.estimate import estimate
from estimating.json_forms import choices_as_json, choices_from_json
from estimating.refusals import Refusal
from estimating.survey import DeckZone
from tests.estimating.lofts import bungalow_loft, choices, price_book, rectangle, trussed_loft

A = DeckZone(name="A", outline=rectangle(1500, 2200, 4500, 5080), joist_field="main")
B = DeckZone(name="B", outline=rectangle(4500, 2200, 6900, 5080), joist_field="main")
WIDER = DeckZone(name="A and more", outline=rectangle(1500, 2200, 6900, 5080), joist_field="main")


@pytest.mark.parametrize("left_out", ["A", "B"])
def test_a_zone_left_out_is_as_if_it_had_not_been_drawn(left_out: str) -> None:
    survey, book = bungalow_loft(), price_book()
    fewer = replace(survey, zones=tuple(zone for zone in survey.zones if zone.name != left_out))
    wanted = choices(left_out_zones=frozenset({left_out}))
    worked, drawn_without = estimate(survey, book, wanted), estimate(fewer, book, choices())
    assert worked == replace(drawn_without, survey=survey, choices=wanted)


def test_drawings_and_letters_show_only_what_is_decked() -> None:
    survey, book = trussed_loft(zones=(A, B)), price_book()
    worked = estimate(survey, book, choices(left_out_zones=frozenset({"A"})))
    without = estimate(trussed_loft(zones=(B,)), book, choices())
    assert plan(survey, worked.design) == plan(without.survey, without.design)
    told = [each.label for each in told_to_the_truss_designer(survey, book, worked.design)]
    assert "Place of zone B" in told
    assert "Place of zone A" not in told
    assert setting_out_plan(survey, worked.design, "B") == setting_out_plan(
        without.survey, without.design, "B"
    )


def test_a_smaller_zone_within_a_larger_may_be_decked_instead_of_it_but_not_with_it() -> None:
    survey, book = trussed_loft(zones=(WIDER, A)), price_book()
    with pytest.raises(Refusal, match=r"zones\[1\].outline: must not overlap zone A and more"):
        estimate(survey, book, choices())
    areas = [
        estimate(survey, book, choices(left_out_zones=frozenset({name}))).design.deck_area_m2.value
        for name in ("A", "A and more")
    ]
    assert areas == [
        estimate(trussed_loft(zones=(zone,)), book, choices()).design.deck_area_m2.value
        for zone in (WIDER, A)
    ]


def test_what_is_refused_of_a_zone_keeps_the_number_it_has_in_the_survey() -> None:
    survey = trussed_loft(zones=(A, WIDER, replace(B, name="C")))
    with pytest.raises(Refusal, match=r"zones\[2\].outline: must not overlap zone A and more"):
        estimate(survey, price_book(), choices(left_out_zones=frozenset({"A"})))


def test_a_zone_that_is_not_there_or_the_last_one_cannot_be_left_out() -> None:
    survey = trussed_loft(zones=(A, B))
    with pytest.raises(Refusal, match="none called D"):
        decked_survey(survey, choices(left_out_zones=frozenset({"D"})))
    with pytest.raises(Refusal, match="must leave at least one zone to deck"):
        decked_survey(survey, choices(left_out_zones=frozenset({"A", "B"})))


def test_choices_written_before_zones_could_be_left_out_are_read() -> None:
    wanted = choices(left_out_zones=frozenset({"A", "B"}))
    form = choices_as_json(wanted)
    assert form["left_out_zones"] == ["A", "B"]
    assert choices_from_json(form) == wanted
    del form["left_out_zones"]
    assert choices_from_json(form) == choices()


def test_a_zone_within_a_larger_one_is_a_second_size_and_one_that_reaches_over_it_is_not() -> None:
    assert zones_within_others(trussed_loft(zones=(A, WIDER))) == {"A"}
    assert zones_within_others(trussed_loft(zones=(A, B))) == frozenset()
    over = replace(A, outline=rectangle(1400, 2200, 4500, 5080))
    assert zones_within_others(trussed_loft(zones=(WIDER, over))) == frozenset()
    assert zones_within_others(trussed_loft(zones=(WIDER, replace(WIDER, name="again")))) == frozenset()
    assert zones_within_others(trussed_loft(zones=(WIDER, replace(A, name=WIDER.name)))) == frozenset()
