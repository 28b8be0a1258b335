"""What is said of moisture under the deck of a loft, with boards on the insulation and above a gap."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.moisture.record import Moisture
from estimating.checks.moisture.under_deck import moisture_under_deck
from estimating.checks.moisture.verdict import moisture_verdicts
from estimating.checks.warmth.ceiling import Insulation
from estimating.estimate import estimate
from estimating.survey import ExistingInsulation, InsulationMaterial, Severity, Survey
from tests.estimating.lofts import choices, cut_roof_loft, price_book, trussed_loft

BETWEEN = Insulation("existing mineral wool", 100, Decimal("0.044"), across=False)
ACROSS = Insulation("mineral wool roll 170 mm", 170, Decimal("0.044"), across=True)


def screened(*insulation: Insulation, survey: Survey | None = None, board_mm: int = 18) -> Moisture:
    found = moisture_under_deck(survey or trussed_loft(), insulation or (BETWEEN, ACROSS), board_mm)
    assert found is not None
    return found


def said(gap_mm: int, moisture: Moisture | None = None) -> tuple[Severity, str]:
    [verdict] = moisture_verdicts(moisture or screened(), gap_mm)
    return verdict.severity, verdict.words


def test_18_mm_boards_on_100_and_170_mm_of_wool_gather_what_the_published_case_says() -> None:
    """Cases GL2 and GL3, own computation beside the published ones: 31.457 g/m² a day, and nothing."""
    moisture = screened()
    assert moisture.boards_on_wool_g_m2_day.value == Decimal("31.5")
    assert moisture.boards_above_gap_g_m2_day.value == 0
    assert moisture.dew_point_inside_c.value == Decimal("12.0")
    assert moisture.under_boards_c.value < moisture.dew_point_inside_c.value


def test_the_weather_is_printed_as_taken_and_not_measured() -> None:
    weather = {
        "inside temperature": "20 °C",
        "inside humidity": "60 %",
        "outside temperature": "0 °C",
        "outside humidity": "90 %",
    }
    moisture = screened()
    for figure in (moisture.boards_on_wool_g_m2_day, moisture.boards_above_gap_g_m2_day):
        defaults = {each.name: each.shown for each in figure.working.inputs if each.origin == "default"}
        assert defaults == weather
        assert "screening, steady state; not a full year" in figure.working.source


def test_a_pencil_gets_the_same_water_from_the_points_of_the_working() -> None:
    """Permeability × change of slope at the boards × a day, from the numbers that are printed."""
    shown = {each.name: each.shown for each in screened().boards_on_wool_g_m2_day.working.inputs}
    points = [
        shown[name] for name in ("point inside", "point after mineral wool roll 170 mm", "point outside")
    ]
    (s0, p0), (s1, p1), (s2, p2) = [
        (float(way.split()[0]), float(pressure.split()[0]))
        for way, pressure in (each.split(", ") for each in points)
    ]
    water = 2.0e-10 * ((p0 - p1) / (s1 - s0) - (p1 - p2) / (s2 - s1)) * 86_400 * 1000
    assert water == pytest.approx(31.457, abs=0.1)


def test_boards_on_the_insulation_are_a_caution_and_a_gap_of_50_mm_is_a_note() -> None:
    """Common practice, no published clause, for the 50 mm."""
    severity, words = said(0)
    assert severity is Severity.CAUTION
    assert (
        "31.5 g of water would gather on each square metre under boards that lie on the insulation" in words
    )
    severity, words = said(49)
    assert severity is Severity.CAUTION
    assert "The gap of 49 mm is less than the 50 mm" in words
    severity, words = said(50)
    assert severity is Severity.NOTE
    assert "laid on the insulation, and none under this deck" in words


def test_every_verdict_says_that_it_is_a_screening() -> None:
    for gap in (-20, 0, 30, 50, 80):
        assert "screening, steady state; not a full year" in said(gap)[1]


@given(st.integers(-50, 200), st.integers(0, 100))
@settings(max_examples=30)
def test_a_greater_gap_is_never_judged_worse(gap: int, more: int) -> None:
    order = list(Severity)
    assert order.index(said(gap + more)[0]) >= order.index(said(gap)[0])


@given(st.integers(50, 400), st.integers(0, 200))
@settings(max_examples=30)
def test_more_insulation_never_leaves_boards_laid_on_it_warmer(across: int, more: int) -> None:
    thin = screened(BETWEEN, replace(ACROSS, thickness_mm=across))
    deep = screened(BETWEEN, replace(ACROSS, thickness_mm=across + more))
    assert deep.under_boards_c.value <= thin.under_boards_c.value


def test_rigid_board_lets_less_vapour_up_than_wool() -> None:
    """Vapour resistance factors 60 and 1, by the table of conductivities."""
    rigid = trussed_loft(
        insulation=ExistingInsulation(material=InsulationMaterial.RIGID_BOARD, depth_readings_mm=(100,))
    )
    on_rigid = screened(survey=rigid).boards_on_wool_g_m2_day
    assert on_rigid.value < screened().boards_on_wool_g_m2_day.value


def test_a_ceiling_that_nothing_lies_on_has_nothing_to_be_screened() -> None:
    bare = estimate(cut_roof_loft(), price_book(), choices(parts=frozenset())).checks
    assert bare.moisture is None
    assert not [verdict for verdict in bare.verdicts if verdict.subject == "moisture"]


def test_an_estimate_tells_it_of_the_gap_that_is_built() -> None:
    usual = estimate(trussed_loft(), price_book(), choices())
    assert usual.checks.moisture is not None
    told = {verdict.subject: verdict for verdict in usual.checks.verdicts}["moisture"]
    assert told.severity is Severity.NOTE
    assert told.figure == usual.checks.moisture.boards_on_wool_g_m2_day
