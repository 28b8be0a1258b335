from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.contracts.cancelling import (
    CountedFrom,
    cancellation_period,
    last_day_to_cancel,
    refund_due_by,
)

days = st.dates(date(2014, 6, 13), date(2060, 1, 1))
told = st.none() | days


@given(made=days, delivered=st.none() | days, informed=told)
def test_last_day_printed_is_never_before_either_way_of_counting(
    made: date, delivered: date | None, informed: date | None
) -> None:
    period = cancellation_period(
        contract_made=made, last_goods_delivered=delivered, information_given=informed
    )
    assert period.last_day.on >= period.by_contract.on >= made + timedelta(14)
    assert period.may_move == (delivered is None)
    if period.by_goods:
        assert period.last_day.on >= period.by_goods.on
        assert period.last_day in (period.by_contract, period.by_goods)
        assert period.may_cancel_on(period.last_day.on)
        assert not period.may_cancel_on(period.last_day.on + timedelta(1))


@given(base=days, informed=days)
def test_being_told_late_never_shortens_the_period_nor_outlasts_never_being_told(
    base: date, informed: date
) -> None:
    found = last_day_to_cancel(CountedFrom.CONTRACT, base, information_given=informed)
    never = last_day_to_cancel(CountedFrom.CONTRACT, base, information_given=None)
    assert base + timedelta(14) <= found.on <= never.on


@pytest.mark.parametrize(
    ("informed", "last"),
    [  # reg 31: 14 days from being told, within twelve months of the usual end, 16 March 2026
        (date(2026, 3, 1), date(2026, 3, 16)),
        (date(2026, 3, 3), date(2026, 3, 17)),
        (date(2027, 3, 2), date(2027, 3, 16)),
        (date(2027, 3, 3), date(2027, 3, 16)),
        (date(2029, 1, 1), date(2027, 3, 16)),
    ],
)
def test_day_of_being_told_moves_the_end_up_to_a_year(informed: date, last: date) -> None:
    found = last_day_to_cancel(CountedFrom.CONTRACT, date(2026, 3, 2), information_given=informed)
    assert found.on == last


def test_a_year_more_from_the_last_day_of_february_ends_on_the_last_of_the_next() -> None:
    found = last_day_to_cancel(CountedFrom.CONTRACT, date(2028, 2, 15), information_given=None)
    assert found.on == date(2029, 2, 28)


def test_while_goods_are_to_come_any_day_is_in_time() -> None:
    period = cancellation_period(
        contract_made=date(2026, 11, 25), last_goods_delivered=None, information_given=date(2026, 11, 25)
    )
    assert period.may_cancel_on(date(2027, 5, 1))
    assert period.last_day.on == date(2026, 12, 9)


def test_words_name_the_day_that_the_count_began_after() -> None:
    period = cancellation_period(
        contract_made=date(2026, 11, 25),
        last_goods_delivered=date(2026, 12, 7),
        information_given=date(2026, 11, 25),
    )
    assert period.last_day.why == "14 days after the day the last goods arrived, 7 December 2026"
    assert period.by_contract.why == "14 days after the day the contract was made, 25 November 2026"


def test_refund_is_due_fourteen_calendar_days_after_the_notice() -> None:
    assert refund_due_by(date(2026, 12, 20)) == date(2027, 1, 3)
