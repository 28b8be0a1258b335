"""Registering by what is expected, and leaving again.

VATA 1994 Schedule 1; HMRC internal manual VATREG18300, VATREG25100, second hand; Notice 700/1 supplement.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from estimating.price.vat_registration import duty_by_expectation, may_leave
from estimating.refusals import Refusal

APRIL = date(2026, 4, 22)


def test_an_expectation_is_told_within_thirty_days_and_counts_from_its_day() -> None:
    duty = duty_by_expectation(Decimal(90_001), APRIL)
    assert (duty.must_register, duty.notify_by, duty.effective) == (True, date(2026, 5, 22), APRIL)
    assert "tell HMRC by 22 May 2026 and charge VAT from 22 April 2026" in duty.words


@pytest.mark.parametrize(("expected", "near"), [("90000", True), ("80000", True), ("79999", False)])
def test_up_to_the_threshold_nothing_is_asked(expected: str, near: bool) -> None:
    duty = duty_by_expectation(Decimal(expected), APRIL)
    assert (duty.must_register, duty.near_the_threshold, duty.notify_by) == (False, near, None)


@pytest.mark.parametrize(("expected", "leaves"), [("87999.99", True), ("88000", False)])
def test_a_firm_leaves_under_the_lower_limit(expected: str, leaves: bool) -> None:
    assert may_leave(Decimal(expected), APRIL) is leaves


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(Refusal, match="not be less than 0"):
        duty_by_expectation(Decimal(-1), APRIL)
    with pytest.raises(Refusal, match="threshold is held"):
        may_leave(Decimal(1), date(2020, 1, 1))
