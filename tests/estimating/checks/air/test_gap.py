"""The gap between insulation and deck: what was asked for, and that the quote says which."""

from __future__ import annotations

from typing import Any

import pytest

from estimating.checks.air.gap import gap_in_words
from estimating.checks.verdicts import Verdict
from estimating.estimate import estimate
from estimating.published.ventilation import CLEAR_GAP_MM
from estimating.refusals import Refusal
from estimating.survey import Severity
from tests.estimating.lofts import choices, price_book, trussed_loft


def said(**changes: Any) -> Verdict:
    checks = estimate(trussed_loft(), price_book(), choices(**changes)).checks
    return next(verdict for verdict in checks.verdicts if verdict.subject == "gap above insulation")


def test_50_mm_unless_the_firm_says_otherwise() -> None:
    """Common practice, no published clause."""
    assert choices().gap_mm == CLEAR_GAP_MM == 50
    words = said().words
    assert "clears the insulation by 50 mm or more" in words
    assert "50 mm is common practice, and no published clause asks for it" in words


@pytest.mark.parametrize(
    ("gap", "words"),
    [
        (0, "o gap was asked for, less than usual; 50 mm is common practice"),
        (30, "30 mm was asked for, less than usual; 50 mm is common practice"),
        (80, "80 mm was asked for, more than usual; 50 mm is common practice"),
    ],
)
def test_the_verdict_says_which_gap_was_asked_for(gap: int, words: str) -> None:
    assert words in gap_in_words(gap)
    assert words in said(gap_mm=gap).words


def test_a_gap_below_nothing_is_refused_by_name() -> None:
    with pytest.raises(Refusal, match="gap_mm: must not be less than 0 mm"):
        choices(gap_mm=-1)


def test_a_gap_that_no_support_reaches_is_a_stop() -> None:
    assert said(gap_mm=250).severity is Severity.STOP
