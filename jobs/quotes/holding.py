"""How long an offer holds: the firm's days, but never past the last day of a VAT rate in its price."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from estimating.days import day_in_words
from estimating.estimate import Estimate
from estimating.price.notices import change_in_words, changes_that_concern
from estimating.price.vat import CONFIRM, RateChange


@dataclass(frozen=True, slots=True)
class Holding:
    """The last day of an offer, and the change of rate that ends it sooner than the firm's days, if any."""

    until: date
    usual: date
    change: RateChange | None = None

    @property
    def in_words(self) -> str:
        """Say why it ends sooner; nothing where it does not."""
        if self.change is None:
            return ""
        return (
            f"Issued today it holds until {day_in_words(self.until)} only, and not until "
            f"{day_in_words(self.usual)}. {change_in_words(self.change)}, and the price is worked out at the "
            f"rate before. For work that is complete later, say so under “Work expected to be complete on”."
        )


def holds_until(worked: Estimate, today: date, days: int) -> Holding:
    """Return how long an offer holds that is issued today.

    The rate is that of the tax point: where the work is expected to be complete after the change, the price
    has the new rate in it, and the change ends nothing.
    """
    usual = today + timedelta(days=days)
    ahead = [change for change in _changes(worked, today, usual) if worked.choices.tax_point < change.on]
    if not ahead:
        return Holding(usual, usual)
    return Holding(ahead[0].on - timedelta(days=1), usual, ahead[0])


def why_rate_has_gone(worked: Estimate, today: date) -> str:
    """Say that a rate in the price ended between the expected completion and today; nothing if none did."""
    gone = _changes(worked, worked.choices.tax_point, today)
    if not gone:
        return ""
    return (
        f"The work is expected to be complete on {day_in_words(worked.choices.tax_point)}, which has passed. "
        f"{change_in_words(gone[-1])}: say anew when it will be complete."
    )


def money_before_a_change(worked: Estimate, today: date) -> str:
    """Say that money taken before a rate changes is taxed at another rate than the price shows."""
    ahead = _changes(worked, today, worked.choices.tax_point)
    early = [stage for stage in worked.price.stages if not stage.is_rest]
    if not ahead or not early:
        return ""
    return (
        f"{change_in_words(ahead[0])}. The price is worked out at the later rate; what comes in before "
        f"{day_in_words(ahead[0].on)}, or is invoiced before, takes the rate of its own day. {CONFIRM}"
    )


def _changes(worked: Estimate, after: date, until: date) -> tuple[RateChange, ...]:
    return changes_that_concern(
        worked.price.lines, worked.survey, worked.price_book, worked.choices, after=after, until=until
    )
