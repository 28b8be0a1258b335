from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from estimating.price.vat_registration import registration_duty
from estimating.published.vat_registration import REGISTRATION_THRESHOLDS
from estimating.refusals import Refusal, Refusals


def test_registration_counts_days_over_a_short_month_and_a_year_end() -> None:
    # HMRC Notice 700/1: 30 days after the month's end, then the first of the second month
    duty = registration_duty(Decimal("95000"), date(2027, 1, 31))
    assert (duty.notify_by, duty.effective) == (date(2027, 3, 2), date(2027, 3, 1))
    duty = registration_duty(Decimal("95000"), date(2026, 11, 30))
    assert (duty.notify_by, duty.effective) == (date(2026, 12, 30), date(2027, 1, 1))


@pytest.mark.parametrize(("turnover", "near"), [("79999.99", False), ("80000", True), ("90000", True)])
def test_firm_near_the_threshold_is_told_in_time(turnover: str, near: bool) -> None:
    duty = registration_duty(Decimal(turnover), date(2026, 10, 31))
    assert not duty.must_register
    assert duty.near_the_threshold is near


def test_day_that_ends_no_month_and_turnover_below_nothing_are_refused_at_once() -> None:
    with pytest.raises(Refusals) as refused:
        registration_duty(Decimal(-1), date(2026, 10, 30))
    assert [each.field for each in refused.value.each] == ["turnover_of_twelve_months", "month_end"]


def test_a_threshold_holds_from_its_own_first_day() -> None:
    # own definition of a dated row; the row's figure is that of no law
    row = REGISTRATION_THRESHOLDS[-1]
    from_month_end = replace(row, valid_from=date(2026, 4, 30), register_above=Decimal(1))
    rows = (row, from_month_end)
    assert not registration_duty(Decimal(2), date(2026, 3, 31), thresholds=rows).must_register
    assert registration_duty(Decimal(2), date(2026, 4, 30), thresholds=rows).must_register


def test_month_before_the_first_threshold_held_is_refused() -> None:
    with pytest.raises(Refusal, match="month_end"):
        registration_duty(Decimal(1), date(2024, 2, 29))
