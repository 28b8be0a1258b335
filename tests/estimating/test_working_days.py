from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.days import months_later
from estimating.nations import Nation
from estimating.refusals import Refusal
from estimating.working_days import is_working_day, working_day_before, working_day_from

inside = st.dates(date(2026, 2, 1), date(2028, 11, 30))
nations = st.sampled_from(Nation)


@given(day=inside, nation=nations)
def test_working_days_found_are_working_days_and_the_nearest(day: date, nation: Nation) -> None:
    after, before = working_day_from(day, nation), working_day_before(day, nation)
    assert before < day <= after
    assert is_working_day(after, nation)
    assert is_working_day(before, nation)
    between = (before + timedelta(step) for step in range(1, (after - before).days))
    assert not any(is_working_day(each, nation) for each in between if each != before)


def test_christmas_of_2026_ends_on_the_tuesday() -> None:
    assert working_day_from(date(2026, 12, 25), Nation.ENGLAND) == date(2026, 12, 29)


def test_day_that_the_firm_added_is_no_working_day() -> None:
    day = date(2027, 6, 9)
    assert is_working_day(day, Nation.WALES)
    assert not is_working_day(day, Nation.WALES, also_shut={day})


@pytest.mark.parametrize("day", [date(2025, 12, 31), date(2029, 1, 1)])
def test_year_whose_holidays_are_not_held_is_refused(day: date) -> None:
    with pytest.raises(Refusal, match="2026 to 2028"):
        is_working_day(day, Nation.ENGLAND)


@given(day=st.dates(date(2000, 1, 1), date(2100, 1, 1)), months=st.integers(0, 240))
def test_months_later_is_the_same_day_or_the_last_of_its_month(day: date, months: int) -> None:
    later = months_later(day, months)
    assert (later.year * 12 + later.month) - (day.year * 12 + day.month) == months
    assert later.day == day.day or (later + timedelta(1)).day == 1


def test_months_before_are_refused() -> None:
    with pytest.raises(Refusal, match="months"):
        months_later(date(2026, 1, 1), -1)
