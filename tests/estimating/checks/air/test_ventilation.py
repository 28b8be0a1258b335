"""Openings at eaves and ridge, and what the survey's figures come to beside them."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.air.ventilation import (
    Openings,
    openings_asked_for,
    ventilation_of,
    ventilation_verdicts,
)
from estimating.estimate import estimate
from estimating.published.ventilation import BS_5250
from estimating.refusals import Refusal
from estimating.survey import Finding, Severity, Underlay
from tests.estimating.lofts import choices, price_book, trussed_loft

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


@given(st.floats(1, 89), st.floats(2, 15), st.sampled_from(Underlay))
@settings(max_examples=40)
def test_a_flatter_roof_never_asks_for_less_at_the_eaves_nor_a_wider_one_at_the_ridge(
    pitch: float, span: float, underlay: Underlay
) -> None:
    roof = openings_asked_for(underlay, pitch_degrees=pitch, span_m=span, eaves_length_m=8)
    flatter = openings_asked_for(underlay, pitch_degrees=pitch / 2, span_m=span, eaves_length_m=8)
    wider = openings_asked_for(underlay, pitch_degrees=pitch, span_m=span * 2, eaves_length_m=8)
    assert flatter.eaves_mm2_m >= roof.eaves_mm2_m
    assert wider.ridge_in_all_mm2 >= roof.ridge_in_all_mm2


def test_underlays_that_breathe_ask_for_less_and_none_for_nothing() -> None:
    """BS 5250:2021 by two summaries: 7 mm under a ceiling not well sealed; no underlay: common practice."""
    asked = {
        each: openings_asked_for(each, pitch_degrees=45, span_m=8, eaves_length_m=10) for each in Underlay
    }
    assert asked[Underlay.BREATHING] == Openings(7_000, 140_000, 50_000)
    assert asked[Underlay.NONE] == Openings(0, 0, 0)


def test_a_firm_may_reckon_with_later_figures() -> None:
    """The figures are settings of the day they were read."""
    stricter = replace(BS_5250, ridge_mm=10, steep_pitch_degrees=30)
    asked = openings_asked_for(
        Underlay.NON_BREATHING, pitch_degrees=32, span_m=8, eaves_length_m=10, practice=stricter
    )
    assert asked.ridge_in_all_mm2 == 100_000


def test_a_roof_that_cannot_be_is_refused_by_name() -> None:
    with pytest.raises(Refusal) as refused:
        openings_asked_for(
            "straw",  # type: ignore[arg-type]
            pitch_degrees=90,
            span_m=0,
            eaves_length_m=-1,
            sides=0,
        )
    assert [str(each) for each in refused.value.each] == [
        "underlay: must be one of: non-breathing, breathing, none",
        "pitch_degrees: must be between 0 and 90 degrees",
        "span_m: must be more than 0 m",
        "eaves_length_m: must be more than 0 m",
        "sides: must be at least 1",
    ]
    for pitch in (0, float("nan")):
        with pytest.raises(Refusal, match="pitch_degrees"):
            openings_asked_for(Underlay.NONE, pitch_degrees=pitch, span_m=8, eaves_length_m=8)


def said(*findings: Finding, **changes: object) -> list[tuple[Severity, str]]:
    survey = trussed_loft(findings=findings)
    survey = replace(survey, roof=replace(survey.roof, **changes))  # type: ignore[arg-type]
    verdicts = ventilation_verdicts(survey, ventilation_of(survey))
    return [(each.severity, each.words.replace("\N{NO-BREAK SPACE}", " ")) for each in verdicts]


def test_openings_nobody_measured_are_to_be_looked_at() -> None:
    """The loft is 9 m from gable to gable; its eaves run along it, one in front and one behind."""
    [(severity, words)] = said()
    assert severity is Severity.CAUTION
    assert "Look along both and measure before insulation is added" in words
    assert "a gap of 10 mm along each eaves (10 000 mm² a metre, 180 000 mm² in all)" in words


def test_openings_measured_are_compared_with_those_asked_for() -> None:
    [(severity, words)] = said(eaves_opening_mm2_m=10_000)
    assert severity is Severity.NOTE
    assert words.startswith("A gap of 10 mm was measured at each eaves, within the table")
    [(severity, words)] = said(eaves_opening_mm2_m=4_000)
    assert severity is Severity.CAUTION
    assert words.startswith("A gap of 4 mm was measured at each eaves, outside the table")
    assert "6 000 mm² a metre more. Clear the eaves or fit ventilators" in words


@given(st.integers(0, 30_000), st.integers(0, 30_000))
@settings(max_examples=30)
def test_a_wider_opening_is_never_judged_worse(measured: int, wider: int) -> None:
    order = list(Severity)
    [(narrow, _)] = said(eaves_opening_mm2_m=measured)
    [(wide, _)] = said(eaves_opening_mm2_m=measured + wider)
    assert order.index(wide) >= order.index(narrow)


def test_a_steep_roof_is_asked_for_air_at_the_ridge() -> None:
    steep = {"pitch_degrees": Decimal(45), "eaves_opening_mm2_m": 10_000}
    (_, _), (severity, words) = said(**steep)
    assert severity is Severity.CAUTION
    assert "with a pitch above 35°, a gap of 5 mm along the ridge is asked for, 45 000 mm² in all" in words
    (_, _), (severity, words) = said(**steep, ridge_opening_mm2_m=2_000)
    assert severity is Severity.CAUTION
    assert "3 000 mm² a metre more" in words
    assert [each for each, _ in said(**steep, ridge_opening_mm2_m=5_000)] == [Severity.NOTE, Severity.NOTE]


def test_a_wide_roof_is_told_that_its_span_asks_for_air_at_the_ridge() -> None:
    assert "with a span above 10 m" in said(span_mm=10_001)[1][1]
    assert len(said(span_mm=10_000)) == 1


def test_blocked_eaves_are_told_with_what_to_leave_open_and_not_asked_to_be_measured() -> None:
    [(severity, words)] = said(eaves_path_open=False)
    assert severity is Severity.CAUTION
    assert words.startswith("The path for air at the eaves is blocked: open it before insulation is added")
    assert "keep 50 mm clear between insulation and underlay, and leave a gap of 10 mm" in words


def test_blocked_eaves_that_are_a_finding_already_are_not_told_twice() -> None:
    found = Finding(hazard="ventilation", severity=Severity.CAUTION, words="Wool against the felt.")
    told = estimate(
        replace(trussed_loft(findings=(found,)), roof=replace(trussed_loft().roof, eaves_path_open=False)),
        price_book(),
        choices(),
    ).checks.verdicts
    assert not [verdict for verdict in told if "is blocked" in verdict.words]
    assert [verdict for verdict in told if verdict.words == "Wool against the felt."]
    [(severity, words)] = said(found, eaves_path_open=False)
    assert severity is Severity.CAUTION
    assert words.startswith("When the path for air is opened")


def test_a_roof_without_underlay_has_no_figure_and_one_that_breathes_an_unsure_one() -> None:
    [(severity, words)] = said(underlay=Underlay.NONE)
    assert severity is Severity.NOTE
    assert "no figure is published" in words
    [(severity, words)] = said(underlay=Underlay.BREATHING)
    assert severity is Severity.CAUTION
    assert "sources differ" in words
    survey = trussed_loft(roof=replace(trussed_loft().roof, underlay=Underlay.BREATHING))
    assert "second hand, low" in ventilation_of(survey).eaves_mm2_m.working.source
