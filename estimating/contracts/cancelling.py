"""Until when a contract may be cancelled, by both ways of counting, and when money must be back.

Boards and insulation are goods, fitting is a service, and the law counts the two from different days. Nobody
should have to argue which a loft job is, so both are worked out and the later one is printed.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from estimating.days import day_in_words, months_later
from estimating.published.consumer_contracts import (
    CONSUMER_CONTRACT_TERMS,
    SOURCE,
    ConsumerContractTerms,
)


class CountedFrom(StrEnum):
    """The day that a way of counting begins after."""

    CONTRACT = "the day the contract was made"
    LAST_GOODS = "the day the last goods arrived"


@dataclass(frozen=True, slots=True)
class LastDay:
    """The last day to cancel by one way of counting, the whole of that day included."""

    counted_from: CountedFrom
    on: date
    why: str


@dataclass(frozen=True, slots=True)
class CancellationPeriod:
    """Both ways of counting; `by_goods` is None until the last goods have come."""

    by_contract: LastDay
    by_goods: LastDay | None
    source: str

    @property
    def last_day(self) -> LastDay:
        """The later of the two, which is the one to print; before the goods have come it may still move."""
        if self.by_goods is None or self.by_goods.on <= self.by_contract.on:
            return self.by_contract
        return self.by_goods

    @property
    def may_move(self) -> bool:
        """Whether goods are still to come, so that no last day is sure yet."""
        return self.by_goods is None

    def may_cancel_on(self, day: date) -> bool:
        """Tell whether a notice sent on a day is in time; while goods are still to come, any day is."""
        return self.may_move or day <= self.last_day.on


def last_day_to_cancel(
    counted_from: CountedFrom,
    begins_after: date,
    *,
    information_given: date | None,
    terms: ConsumerContractTerms = CONSUMER_CONTRACT_TERMS,
) -> LastDay:
    """Give the last day to cancel, counted one way.

    The days are calendar days. Who was told late of the right has the days from then, and who was never told
    has a year more; being told very late cannot make it longer than never being told.

    Args:
        counted_from: Which day begins the count, for the words. Choice. [-]
        begins_after: That day. Date. [-]
        information_given: The day the customer was told of the right, or None for never. Date. [-]
        terms: The periods to read. Record. [days]

    Returns:
        The last day and how it came about. Record. [-]

    Source:
        Consumer Contracts Regulations 2013 reg 30 and 31.
    """
    days = timedelta(days=terms.cancel_within_days)
    usual = begins_after + days
    longest = months_later(usual, terms.extension_months)
    count = f"{terms.cancel_within_days} days after"
    if information_given is None:
        more = f"and {terms.extension_months} months more, as the customer was not told of the right"
        return LastDay(counted_from, longest, f"{count} {counted_from}, {more}")
    if information_given <= begins_after:
        return LastDay(counted_from, usual, f"{count} {counted_from}, {day_in_words(begins_after)}")
    told = f"the customer was told of the right, {day_in_words(information_given)}"
    if information_given + days > longest:
        more = f"{terms.extension_months} months more than the usual period, the longest there is"
        return LastDay(counted_from, longest, f"{more}, as {told}, only then")
    return LastDay(counted_from, information_given + days, f"{count} {told}")


def cancellation_period(
    *,
    contract_made: date,
    last_goods_delivered: date | None,
    information_given: date | None,
    terms: ConsumerContractTerms = CONSUMER_CONTRACT_TERMS,
) -> CancellationPeriod:
    """Work out the last day to cancel both as a service and as goods with fitting.

    Args:
        contract_made: The day the contract was made. Date. [-]
        last_goods_delivered: The day the last goods came, or None while they are to come. Date. [-]
        information_given: The day the customer was told of the right, or None for never. Date. [-]
        terms: The periods to read. Record. [days]

    Returns:
        Both last days; the later is the one to print. Record. [-]

    Source:
        Consumer Contracts Regulations 2013 reg 5, 30 and 31; trading standards guidance that home
        improvement with goods counts as goods.
    """
    by_contract = last_day_to_cancel(
        CountedFrom.CONTRACT, contract_made, information_given=information_given, terms=terms
    )
    by_goods = None
    if last_goods_delivered is not None:
        by_goods = last_day_to_cancel(
            CountedFrom.LAST_GOODS, last_goods_delivered, information_given=information_given, terms=terms
        )
    return CancellationPeriod(by_contract, by_goods, f"{SOURCE} reg 30 and 31")


def refund_due_by(told_on: date, *, terms: ConsumerContractTerms = CONSUMER_CONTRACT_TERMS) -> date:
    """Give the last day on which what a customer paid must be back, by the means it was paid by.

    Args:
        told_on: The day the firm was told of the cancelling. Date. [-]
        terms: The periods to read. Record. [days]

    Returns:
        The day. Date. [-]

    Source:
        Consumer Contracts Regulations 2013 reg 34, from memory.
    """
    return told_on + timedelta(days=terms.refund_within_days)
