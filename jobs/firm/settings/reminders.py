"""What of the firm's settings waits to be mended: what the law wants said, and insurances that run out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from jobs.firm.insurance_models import Insurance
from jobs.firm.kinds import missing_particulars
from jobs.firm.models import Firm

RUNS_OUT_WITHIN = timedelta(days=30)


@dataclass(frozen=True, slots=True)
class Reminder:
    """One thing to mend: in what words, by when, on which page of the settings."""

    words: str
    day: date | None
    page: str
    is_over: bool = False


def reminders(firm: Firm, insurances: Iterable[Insurance], *, today: date) -> list[Reminder]:
    """Return what waits to be mended in the firm's settings."""
    found = []
    missing = missing_particulars(firm)
    if missing:
        words = f"The law wants more said of the firm on quotes and orders: {', '.join(missing)}."
        found.append(Reminder(words, None, "firm"))
    for each in insurances:
        day = f"{each.until:%-d %B %Y}"
        if each.until < today:
            words = f"{each.what}: the insurance ran out on {day} and is printed on no quote."
            found.append(Reminder(words, each.until, "firm_payment", is_over=True))
        elif each.until <= today + RUNS_OUT_WITHIN:
            words = f"{each.what}: the insurance runs out on {day}."
            found.append(Reminder(words, each.until, "firm_payment"))
    return found
