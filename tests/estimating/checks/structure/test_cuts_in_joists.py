"""Cuts found in joists: the shares are those of BS 5268-2:2002 and NHBC Standards 6.4, from memory."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.structure.cuts_in_joists import cut_verdicts, hole_allowed, notch_allowed
from estimating.checks.verdicts import Verdict
from estimating.survey import CutKind, Finding, JoistCut, Severity, Survey
from tests.estimating import lofts

# The joists of the loft are 100 mm deep and span 3400 mm.
NOTCH_WITHIN = JoistCut(joist=3, kind=CutKind.NOTCH, depth_mm=12, from_support_mm=500)
HOLE_WITHIN = JoistCut(joist=3, kind=CutKind.HOLE, depth_mm=20, from_support_mm=1000)
HOLE_NEAR_SUPPORT = JoistCut(joist=3, kind=CutKind.HOLE, depth_mm=20, from_support_mm=200)
SAWN = JoistCut(joist=3, kind=CutKind.CUT_THROUGH, depth_mm=100, from_support_mm=900)


def _told(cut: JoistCut, survey: Survey | None = None) -> Verdict:
    survey = survey or lofts.cut_roof_loft()
    field = replace(survey.joist_fields[0], cuts=(cut,))
    (verdict,) = cut_verdicts(replace(survey, joist_fields=(field,)))
    return verdict


@pytest.mark.parametrize("cut", [NOTCH_WITHIN, HOLE_NEAR_SUPPORT, SAWN])
def test_a_cut_or_notched_joist_holds_work_and_says_where(cut: JoistCut) -> None:
    told = _told(cut)
    assert told.severity is Severity.STOP
    assert told.words.startswith("Joist 3 of ceiling")
    assert f"{cut.from_support_mm} mm from its support" in told.words
    assert "Ask a structural engineer before any work" in told.words


def test_a_notch_says_whether_the_rules_would_allow_it_and_holds_work_either_way() -> None:
    assert "within the rules" in _told(NOTCH_WITHIN).words
    deep = replace(NOTCH_WITHIN, depth_mm=13)
    assert "outside the rules" in _told(deep).words
    assert _told(deep).severity is _told(NOTCH_WITHIN).severity is Severity.STOP


def test_a_hole_within_the_rules_is_a_note() -> None:
    assert _told(HOLE_WITHIN).severity is Severity.NOTE


def test_a_hole_in_one_of_several_spans_must_be_within_the_rules_in_each() -> None:
    survey = lofts.cut_roof_loft()
    field = replace(survey.joist_fields[0], span_mm=None, spans_mm=(3400, 1500))
    assert _told(HOLE_WITHIN, replace(survey, joist_fields=(field,))).severity is Severity.STOP


def test_a_recorded_clearance_lets_work_go_on() -> None:
    words = "Sistered; A. Pellworth, chartered engineer, 12 November 2026"
    finding = Finding(hazard="structure", severity=Severity.STOP, words="Sawn joist.", clearance=words)
    told = _told(SAWN, lofts.cut_roof_loft(findings=(finding,)))
    assert told.severity is Severity.NOTE
    assert words in told.words


def test_another_hazard_s_clearance_does_not() -> None:
    finding = Finding(hazard="asbestos", severity=Severity.STOP, words="Lagging.", clearance="Tested.")
    assert _told(SAWN, lofts.cut_roof_loft(findings=(finding,))).severity is Severity.STOP


def test_no_hole_in_a_tie_is_within_any_rule() -> None:
    told = _told(HOLE_WITHIN, lofts.trussed_loft())
    assert told.severity is Severity.STOP
    assert "no trussed rafter may be cut, notched or drilled" in told.words
    assert "truss designer" in told.words


@settings(max_examples=60)
@given(depth=st.integers(60, 400), size=st.integers(1, 120), at=st.integers(0, 4000), less=st.integers(0, 60))
def test_less_taken_away_at_the_same_place_is_never_worse(depth: int, size: int, at: int, less: int) -> None:
    smaller = max(1, size - less)
    joist = {"depth_mm": depth, "span_mm": 4000, "from_support_mm": at}
    assert not notch_allowed(notch_depth_mm=size, **joist) or notch_allowed(notch_depth_mm=smaller, **joist)
    assert not hole_allowed(diameter_mm=size, **joist) or hole_allowed(diameter_mm=smaller, **joist)
