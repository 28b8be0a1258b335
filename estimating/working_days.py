"""Working days of a nation: not a Saturday, a Sunday or a bank holiday."""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from datetime import date, timedelta

from estimating.nations import Nation
from estimating.published.bank_holidays import BANK_HOLIDAYS, BankHolidays
from estimating.refusals import Refusal

_SATURDAY = 5
_ONE_DAY = timedelta(days=1)
_NO_DAYS: frozenset[date] = frozenset()


def is_working_day(
    day: date,
    nation: Nation,
    *,
    also_shut: AbstractSet[date] = _NO_DAYS,
    holidays: BankHolidays = BANK_HOLIDAYS,
) -> bool:
    """Tell whether people work on a day in a nation.

    Outside the years held nobody can tell, and a guess would be a wrong date on a paper.

    Args:
        day: The day. Date. [-]
        nation: Where the work is. Choice. [-]
        also_shut: One-off days that the firm added by hand. Set. [-]
        holidays: The bank holidays to read. Record. [-]

    Returns:
        True when they do. Flag. [-]

    Raises:
        Refusal: The year's bank holidays are not held.

    Source:
        Banking and Financial Dealings Act 1971; the rows in published.bank_holidays.
    """
    if not holidays.first_year <= day.year <= holidays.last_year:
        held = f"{holidays.first_year} to {holidays.last_year}"
        raise Refusal("day", f"must be in the years whose bank holidays are held, {held}")
    if day.weekday() >= _SATURDAY or day in also_shut:
        return False
    return not any(each.on == day and nation in each.nations for each in holidays.days)


def working_day_from(
    day: date,
    nation: Nation,
    *,
    also_shut: AbstractSet[date] = _NO_DAYS,
    holidays: BankHolidays = BANK_HOLIDAYS,
) -> date:
    """Give the first working day on or after a day: what ends on a holiday is let run to the next.

    Args:
        day: The day to begin with. Date. [-]
        nation: Where the work is. Choice. [-]
        also_shut: One-off days that the firm added by hand. Set. [-]
        holidays: The bank holidays to read. Record. [-]

    Returns:
        That day or the next working day. Date. [-]

    Raises:
        Refusal: The bank holidays of a year looked at are not held.

    Source:
        Common practice, no source: a period that ends on a day off runs to the next working day.
    """
    while not is_working_day(day, nation, also_shut=also_shut, holidays=holidays):
        day += _ONE_DAY
    return day


def working_day_before(
    day: date,
    nation: Nation,
    *,
    also_shut: AbstractSet[date] = _NO_DAYS,
    holidays: BankHolidays = BANK_HOLIDAYS,
) -> date:
    """Give the last working day before a day: by then goods must have come.

    Args:
        day: The day that is not counted. Date. [-]
        nation: Where the work is. Choice. [-]
        also_shut: One-off days that the firm added by hand. Set. [-]
        holidays: The bank holidays to read. Record. [-]

    Returns:
        The working day. Date. [-]

    Raises:
        Refusal: The bank holidays of a year looked at are not held.

    Source:
        Common practice, no source.
    """
    day -= _ONE_DAY
    while not is_working_day(day, nation, also_shut=also_shut, holidays=holidays):
        day -= _ONE_DAY
    return day
