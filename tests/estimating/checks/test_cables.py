"""Cables that insulation would cover: what must hold of any, and what is said of them."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.checks.cables import cable_verdicts, covered_cable_a, insulation_factor
from estimating.published.cable_ratings import RATINGS_A
from estimating.refusals import Refusal
from estimating.survey import Cable, Severity
from tests.estimating.lofts import trussed_loft


@given(st.integers(0, 2000), st.integers(0, 500), st.sampled_from(sorted(RATINGS_A)))
def test_more_of_a_cable_covered_never_lets_it_carry_more(covered: int, more: int, size: Decimal) -> None:
    assert covered_cable_a(size, covered + more) <= covered_cable_a(size, covered)


@given(st.integers(0, 2000))
def test_a_thicker_cable_never_carries_less(covered: int) -> None:
    carried = [covered_cable_a(size, covered) for size in sorted(RATINGS_A)]
    assert carried == sorted(carried)


def test_a_cable_outside_the_tables_is_a_caution_and_one_within_them_a_note() -> None:
    """BS 7671 Tables 4D5 and 52.2, read in reprints: 27 A × 0.51, and 16 A × 0.50."""
    cooker = Cable(size_mm2=Decimal("2.5"), device_a=Decimal(20), covered_mm=400, circuit="cooker")
    lights = Cable(size_mm2=Decimal("1.0"), device_a=Decimal(6), covered_mm=900)
    outside, within = cable_verdicts(replace(trussed_loft(), cables=(cooker, lights)))
    assert outside.severity is Severity.CAUTION
    assert "13.77 A by the tables, outside them for a device of 20 A" in outside.words
    assert "registered electrician" in outside.words
    assert within.severity is Severity.NOTE
    assert "8.00 A by the tables, within them for a device of 6 A" in within.words


def test_what_a_cable_cannot_be_is_refused_by_name() -> None:
    with pytest.raises(Refusal) as refused:
        Cable(size_mm2=Decimal(3), device_a=Decimal(0), covered_mm=-1)
    assert [each.field for each in refused.value.each] == ["size_mm2", "device_a", "covered_mm"]
    with pytest.raises(Refusal, match="covered_mm: must not be less than 0 mm"):
        insulation_factor(-1)
