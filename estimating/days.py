"""Days as people write them, and the same day of a later month."""

from __future__ import annotations

from calendar import monthrange
from datetime import date

from estimating.refusals import Refusal

_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def day_in_words(day: date) -> str:
    """Write a day as "31 March 2027", whatever language the machine is set to.

    Args:
        day: The day. Date. [-]

    Returns:
        The day in words. Text. [-]

    Source:
        Own definition.
    """
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def months_later(day: date, months: int) -> date:
    """Give the same day of a later month, or that month's last day where it has no such day.

    Args:
        day: The day to count from. Date. [-]
        months: How many months later, never less than 0. Scalar. [months]

    Returns:
        The day. Date. [-]

    Raises:
        Refusal: The months are fewer than 0.

    Source:
        Common practice of reckoning periods of months (the "corresponding date"), from memory.
    """
    if months < 0:
        raise Refusal("months", "must not be less than 0")
    years, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(years, month + 1, min(day.day, monthrange(years, month + 1)[1]))
