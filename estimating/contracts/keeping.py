"""Until when a record is kept: the longest claim that it may have to answer."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from estimating.days import months_later
from estimating.published.retention_periods import RETENTION_PERIODS, KeptRecord, RetentionPeriod
from estimating.refusals import Refusal

_MONTHS_A_YEAR = 12


def keep_until(
    record: KeptRecord, written_on: date, *, periods: Sequence[RetentionPeriod] = RETENTION_PERIODS
) -> date:
    """Give the day until which a record is kept at least, that day included.

    Args:
        record: What kind of record it is. Choice. [-]
        written_on: The day it belongs to: the tax point, or the end of the work. Date. [-]
        periods: The years of each kind. Sequence. [years]

    Returns:
        The last day. Date. [-]

    Raises:
        Refusal: No period is held for such a record.

    Source:
        HMRC Notice 700/21; Defective Premises Act 1972 s.2A; the rows in published.retention_periods.
    """
    for period in periods:
        if period.record is record:
            return months_later(written_on, period.years * _MONTHS_A_YEAR)
    raise Refusal("record", f"must be one whose years are held, which {record} is not")
