from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from estimating.checks.structure.truss_designer import Told, told_to_the_truss_designer
from estimating.estimate import Estimate, estimate
from estimating.survey import CutKind, JoistCut, KeepOut, KeepOutKind, Survey
from tests.estimating import lofts


@cache
def _worked() -> Estimate:
    return estimate(lofts.trussed_loft(), lofts.price_book(), lofts.choices())


def _told(survey: Survey | None = None) -> tuple[Told, ...]:
    worked = _worked()
    return told_to_the_truss_designer(survey or worked.survey, worked.price_book, worked.design)


def _value(told: tuple[Told, ...], label: str) -> str:
    return next(each.value for each in told if each.label == label)


@pytest.mark.parametrize(
    ("label", "value"),
    [
        ("Span", "7200 mm"),
        ("Pitch", "35°"),
        ("Spacing, main", "600 mm, 15 trusses"),
        ("Bottom tie, main", "35 × 97 mm"),
        ("Ceiling", "12.5 mm plasterboard: 0.150 kN/m²"),
        ("Insulation found", "100 mm mineral wool: 0.020 kN/m²"),
        ("Clear opening", "530 × 700 mm"),
        ("Widest opening without your design", "1130 mm"),
        ("Tanks", "none was found"),
        ("Clear lengths of the tie, main", "not measured"),
    ],
)
def test_the_designer_is_told_what_was_measured_and_what_was_not(label, value):
    """The list: PD 6693-1, by NHBC Standards 2020 7.2.2."""
    assert _value(_told(), label) == value


def test_every_line_says_where_it_came_from():
    assert all(each.label and each.value and each.source for each in _told())


def test_storage_asked_for_is_what_the_checks_leave():
    left = _worked().checks.trusses.storage_kg_m2
    assert _value(_told(), "Storage asked for") == f"{left.shown} over the deck"


def test_tanks_come_with_litres_trusses_place_and_what_they_do_to_a_node():
    place = lofts.rectangle(6000, 2350, 6650, 2850)
    tank = KeepOut(name="header tank", kind=KeepOutKind.TANK, outline=place, litres=100, carried_by_trusses=2)
    told = _told(replace(_worked().survey, keep_outs=(tank,)))
    assert _value(told, "header tank") == (
        "100 litres, on 2 trusses; 650 × 500 mm, 6000 mm from the left gable and 2350 mm from the front eaves"
    )
    assert _value(told, "header tank, on each node") == "0.25 kN"


def test_a_tank_that_nobody_measured_is_told_as_such():
    place = lofts.rectangle(6000, 2350, 6650, 2850)
    tank = KeepOut(name="header tank", kind=KeepOutKind.TANK, outline=place)
    told = _told(replace(_worked().survey, keep_outs=(tank,)))
    assert _value(told, "header tank").startswith("litres not measured, on a number of trusses not counted")


def test_a_cut_tie_is_told():
    survey = _worked().survey
    cut = JoistCut(joist=3, kind=CutKind.NOTCH, depth_mm=20, from_support_mm=900)
    field = replace(survey.joist_fields[0], cuts=(cut,))
    told = _told(replace(survey, joist_fields=(field,)))
    assert _value(told, "Tie 3, main") == "notch, 20 mm, 900 mm from its support"


def test_a_cut_roof_has_no_designer_to_be_told():
    worked = _worked()
    survey = lofts.cut_roof_loft()
    assert told_to_the_truss_designer(survey, worked.price_book, worked.design) == ()
