"""Bank holidays by nation and date: dated rows, because a proclamation may add one or move one.

Document: the days of the `holidays` library 0.109 for the four nations, 2026 to 2028, which follow the
Banking and Financial Dealings Act 1971 and its proclamations. A holiday that falls on a weekend stands here
beside the day that takes its place. Read on 25 November 2026.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from estimating.nations import UNITED_KINGDOM, Nation


@dataclass(frozen=True, slots=True)
class BankHoliday:
    """A day on which banks are shut in some nations, and its name."""

    on: date
    name: str
    nations: frozenset[Nation]


@dataclass(frozen=True, slots=True)
class BankHolidays:
    """The days held, whole years from the first to the last; a firm may add one-off days to them."""

    first_year: int
    last_year: int
    days: tuple[BankHoliday, ...]


_SCOTLAND = frozenset({Nation.SCOTLAND})
_NORTHERN_IRELAND = frozenset({Nation.NORTHERN_IRELAND})
_ALL_BUT_SCOTLAND = UNITED_KINGDOM - _SCOTLAND

BANK_HOLIDAYS = BankHolidays(
    first_year=2026,
    last_year=2028,
    days=(
        BankHoliday(date(2026, 1, 1), "New Year's Day", UNITED_KINGDOM),
        BankHoliday(date(2026, 1, 2), "New Year Holiday", _SCOTLAND),
        BankHoliday(date(2026, 3, 17), "Saint Patrick's Day", _NORTHERN_IRELAND),
        BankHoliday(date(2026, 4, 3), "Good Friday", UNITED_KINGDOM),
        BankHoliday(date(2026, 4, 6), "Easter Monday", _ALL_BUT_SCOTLAND),
        BankHoliday(date(2026, 5, 4), "May Day", UNITED_KINGDOM),
        BankHoliday(date(2026, 5, 25), "Spring Bank Holiday", UNITED_KINGDOM),
        BankHoliday(date(2026, 6, 15), "Scotland's participation in the FIFA World Cup final", _SCOTLAND),
        BankHoliday(date(2026, 7, 12), "Battle of the Boyne", _NORTHERN_IRELAND),
        BankHoliday(date(2026, 7, 13), "Battle of the Boyne (observed)", _NORTHERN_IRELAND),
        BankHoliday(date(2026, 8, 3), "Summer Bank Holiday", _SCOTLAND),
        BankHoliday(date(2026, 8, 31), "Late Summer Bank Holiday", _ALL_BUT_SCOTLAND),
        BankHoliday(date(2026, 11, 30), "Saint Andrew's Day", _SCOTLAND),
        BankHoliday(date(2026, 12, 25), "Christmas Day", UNITED_KINGDOM),
        BankHoliday(date(2026, 12, 26), "Boxing Day", UNITED_KINGDOM),
        BankHoliday(date(2026, 12, 28), "Boxing Day (observed)", UNITED_KINGDOM),
        BankHoliday(date(2027, 1, 1), "New Year's Day", UNITED_KINGDOM),
        BankHoliday(date(2027, 1, 2), "New Year Holiday", _SCOTLAND),
        BankHoliday(date(2027, 1, 4), "New Year Holiday (observed)", _SCOTLAND),
        BankHoliday(date(2027, 3, 17), "Saint Patrick's Day", _NORTHERN_IRELAND),
        BankHoliday(date(2027, 3, 26), "Good Friday", UNITED_KINGDOM),
        BankHoliday(date(2027, 3, 29), "Easter Monday", _ALL_BUT_SCOTLAND),
        BankHoliday(date(2027, 5, 3), "May Day", UNITED_KINGDOM),
        BankHoliday(date(2027, 5, 31), "Spring Bank Holiday", UNITED_KINGDOM),
        BankHoliday(date(2027, 7, 12), "Battle of the Boyne", _NORTHERN_IRELAND),
        BankHoliday(date(2027, 8, 2), "Summer Bank Holiday", _SCOTLAND),
        BankHoliday(date(2027, 8, 30), "Late Summer Bank Holiday", _ALL_BUT_SCOTLAND),
        BankHoliday(date(2027, 11, 30), "Saint Andrew's Day", _SCOTLAND),
        BankHoliday(date(2027, 12, 25), "Christmas Day", UNITED_KINGDOM),
        BankHoliday(date(2027, 12, 26), "Boxing Day", UNITED_KINGDOM),
        BankHoliday(date(2027, 12, 27), "Christmas Day (observed)", UNITED_KINGDOM),
        BankHoliday(date(2027, 12, 28), "Boxing Day (observed)", UNITED_KINGDOM),
        BankHoliday(date(2028, 1, 1), "New Year's Day", UNITED_KINGDOM),
        BankHoliday(date(2028, 1, 2), "New Year Holiday", _SCOTLAND),
        BankHoliday(date(2028, 1, 3), "New Year's Day (observed)", UNITED_KINGDOM),
        BankHoliday(date(2028, 1, 4), "New Year Holiday (observed)", _SCOTLAND),
        BankHoliday(date(2028, 3, 17), "Saint Patrick's Day", _NORTHERN_IRELAND),
        BankHoliday(date(2028, 4, 14), "Good Friday", UNITED_KINGDOM),
        BankHoliday(date(2028, 4, 17), "Easter Monday", _ALL_BUT_SCOTLAND),
        BankHoliday(date(2028, 5, 1), "May Day", UNITED_KINGDOM),
        BankHoliday(date(2028, 5, 29), "Spring Bank Holiday", UNITED_KINGDOM),
        BankHoliday(date(2028, 7, 12), "Battle of the Boyne", _NORTHERN_IRELAND),
        BankHoliday(date(2028, 8, 7), "Summer Bank Holiday", _SCOTLAND),
        BankHoliday(date(2028, 8, 28), "Late Summer Bank Holiday", _ALL_BUT_SCOTLAND),
        BankHoliday(date(2028, 11, 30), "Saint Andrew's Day", _SCOTLAND),
        BankHoliday(date(2028, 12, 25), "Christmas Day", UNITED_KINGDOM),
        BankHoliday(date(2028, 12, 26), "Boxing Day", UNITED_KINGDOM),
    ),
)
