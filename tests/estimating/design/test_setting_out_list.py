"""Two people with a tape can mark every support: running readings from one corner."""

from __future__ import annotations

from dataclasses import replace

import pytest

from estimating.choices import RaiseWith
from estimating.design.setting_out_list import JoistMarks, setting_out_list
from estimating.estimate import Estimate, estimate
from tests.estimating.lofts import LOFTS, bungalow_loft, choices, price_book, trussed_loft


def worked(name: str, raise_with: RaiseWith = RaiseWith.PEDESTALS) -> Estimate:
    return estimate(LOFTS[name](), price_book(), choices(raise_with=raise_with))


@pytest.mark.parametrize("raise_with", list(RaiseWith))
@pytest.mark.parametrize("name", LOFTS)
def test_every_mark_lies_where_its_support_stands(name: str, raise_with: RaiseWith) -> None:
    result = worked(name, raise_with)
    for zone in result.design.zones:
        field = result.survey.joist_field(zone.joist_field)
        told = setting_out_list(zone, field)
        x, y = told.datum.at
        turned = field.runs_along == "x"
        marked = sorted(
            (x + mark.reading_mm, y + each.reading_mm)
            if turned
            else (x + each.reading_mm, y + mark.reading_mm)
            for each in told.joists
            for mark in each.marks
        )
        if zone.pedestals:
            assert marked == sorted(each.at for each in zone.pedestals)
        for each in told.joists:
            assert field.centre_lines_mm[each.joist - 1] == each.reading_mm + (y if turned else x)


@pytest.mark.parametrize("name", LOFTS)
def test_readings_run_on_from_the_corner_and_never_back(name: str) -> None:
    result = worked(name)
    for zone in result.design.zones:
        told = setting_out_list(zone, result.survey.joist_field(zone.joist_field))
        readings = [each.reading_mm for each in told.joists]
        assert readings == sorted(readings)
        assert readings[0] >= 0
        assert readings[-1] <= told.datum.line_mm
        for each in told.joists:
            marks = [mark.reading_mm for mark in each.marks]
            assert marks == sorted(marks)
            assert marks[0] >= 0


def test_the_corner_is_found_from_gable_and_eaves_and_checked_by_a_diagonal() -> None:
    """A deck of 5400 by 2880 mm: the diagonal is √(5400² + 2880²) = 6120 mm."""
    result = worked("trussed")
    datum = setting_out_list(result.design.zones[0], result.survey.joist_fields[0]).datum
    assert datum.words == (
        "P is the front left corner of the deck, 1500 mm from the left gable and 2200 mm from the front "
        "eaves."
    )
    assert datum.how == (
        "Strike a line from P to Q, 5400 mm along the front edge and 2200 mm from the front eaves at both "
        "ends. P to the opposite corner R is 6120 mm when it is square."
    )


def test_where_joists_run_from_gable_to_gable_the_line_runs_along_the_left_edge() -> None:
    result = worked("bungalow")
    wing = result.design.zones[1]
    told = setting_out_list(wing, result.survey.joist_field("wing"))
    assert told.counted_from == "front eaves"
    assert told.datum.how.startswith(
        "Strike a line from P to Q, 3800 mm along the left edge and 1200 mm from"
    )


def test_a_corner_that_the_deck_does_not_have_is_that_of_the_rectangle_round_it() -> None:
    result = worked("trussed")
    zone = result.design.zones[0]
    cut = ((2000, 2200), (6900, 2200), (6900, 5080), (1500, 5080), (1500, 2600), (2000, 2600))
    datum = setting_out_list(replace(zone, finished_edge=cut), result.survey.joist_fields[0]).datum
    assert datum.at == (1500, 2200)
    assert "corner of the rectangle round the deck" in datum.words


def on_joist(number: int, survey_joists: tuple[int, ...] = ()) -> JoistMarks:
    survey = trussed_loft()
    if survey_joists:
        joists = replace(survey.joist_fields[0], top_offsets_mm=survey_joists)
        survey = replace(survey, joist_fields=(joists,))
    result = estimate(survey, price_book(), choices())
    told = setting_out_list(result.design.zones[0], survey.joist_fields[0])
    return next(each for each in told.joists if each.joist == number)


def test_a_mark_that_the_rule_does_not_ask_for_says_why_it_is_there() -> None:
    """The hatch of the trussed loft lies between the ties 6 and 7, from 1000 to 1700 mm along the deck."""
    assert [(mark.reading_mm, mark.why) for mark in on_joist(6).marks if mark.why] == [(955, "at the hatch")]


def test_each_joist_tells_its_height_and_packing() -> None:
    alike, packed = on_joist(8), on_joist(8, (0,) * 7 + (-4,) + (0,) * 7)
    assert (alike.height_mm, alike.packing_mm) == (225, 0)
    assert (packed.height_mm, packed.packing_mm) == (225, 4)


def test_battens_have_no_height_of_their_own() -> None:
    result = worked("bungalow", RaiseWith.BATTENS)
    told = setting_out_list(result.design.zones[0], bungalow_loft().joist_fields[0])
    assert {each.height_mm for each in told.joists} == {None}
