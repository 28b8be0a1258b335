"""Openings at eaves and ridge, and what the survey's figures come to beside them."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.ventilation import openings_asked_for, ventilation_of, ventilation_verdicts
from estimating.refusals import Refusal
from estimating.survey import Severity, Underlay
from tests.estimating.lofts import trussed_loft

SOURCE = "BS 5250:2021, read in a summary"


@pytest.mark.parametrize(
    ("pitch", "span", "eaves", "ridge"),
    [
        (30, 8, 10_000, 0),
        (15, 8, 25_000, 0),
        (15.1, 8, 10_000, 0),
        (35, 10, 10_000, 0),
        (35.1, 8, 10_000, 5_000),
        (30, 10.1, 10_000, 5_000),
        (12, 12, 25_000, 5_000),
    ],
)
def test_openings_of_a_roof_with_non_breathing_underlay(
    pitch: float, span: float, eaves: int, ridge: int
) -> None:
    asked = openings_asked_for(
        Underlay.NON_BREATHING, pitch_degrees=pitch, span_m=span, eaves_length_m=1, sides=1
    )
    assert (asked.eaves_mm2_m, asked.ridge_in_all_mm2) == (eaves, ridge), SOURCE


@given(st.floats(1, 89), st.floats(2, 15), st.floats(1, 20), st.floats(0, 5))
@settings(max_examples=40)
def test_a_longer_eaves_never_asks_for_less(pitch: float, span: float, length: float, more: float) -> None:
    short, long = (
        openings_asked_for(
            Underlay.NON_BREATHING, pitch_degrees=pitch, span_m=span, eaves_length_m=each
        ).eaves_in_all_mm2
        for each in (length, length + more)
    )
    assert long >= short


def test_a_roof_that_cannot_be_is_refused_by_name() -> None:
    with pytest.raises(Refusal) as refused:
        openings_asked_for(Underlay.BREATHING, pitch_degrees=90, span_m=0, eaves_length_m=-1)
    assert [each.field for each in refused.value.each] == ["pitch_degrees", "span_m", "eaves_length_m"]


def said(**changes: object) -> list[tuple[Severity, str]]:
    survey = trussed_loft()
    survey = replace(survey, roof=replace(survey.roof, **changes))
    verdicts = ventilation_verdicts(survey, ventilation_of(survey))
    return [(each.severity, each.words) for each in verdicts]


def test_openings_are_asked_for_measured_and_compared() -> None:
    [(severity, words)] = said()
    assert severity is Severity.CAUTION
    assert words.endswith("Measure it before insulation is added.")
    [(severity, words)] = said(eaves_opening_mm2_m=10_000)
    assert severity is Severity.NOTE
    assert "a gap of 10 mm was measured at each eaves, within the table" in words
    [(severity, words)] = said(eaves_opening_mm2_m=4_000)
    assert severity is Severity.CAUTION
    assert "a gap of 4 mm was measured: outside the table" in words


def test_a_steep_roof_is_asked_for_air_at_the_ridge() -> None:
    steep = {"pitch_degrees": Decimal(45), "eaves_opening_mm2_m": 10_000}
    assert [severity for severity, _ in said(**steep)] == [Severity.NOTE, Severity.CAUTION]
    open_ridge = said(**steep, ridge_opening_mm2_m=5_000)
    assert [severity for severity, _ in open_ridge] == [Severity.NOTE, Severity.NOTE]


def test_blocked_eaves_are_said_once_and_a_roof_without_underlay_has_no_table() -> None:
    [(severity, words)] = [each for each in said(eaves_path_open=False) if "blocked" in each[1]]
    assert severity is Severity.CAUTION
    [(severity, words)] = said(underlay=Underlay.NONE)
    assert severity is Severity.NOTE
    assert "no table" in words
