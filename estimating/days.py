"""Days as people write them."""

from __future__ import annotations

from datetime import date

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
