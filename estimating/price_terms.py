"""What was chosen about a price beside its parts: discounts, the stages it is paid in, and who owes the VAT.

Names and records only; they are worked out in `price/`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from estimating.amounts import PENNY
from estimating.refusals import Requirements

MOST_STAGES = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Discount:
    """A part of the price that is not asked, for a reason: a share of the lines, or pounds without VAT."""

    reason: str
    percent: Decimal | None = None
    amount: Decimal | None = None

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.reason.strip()), "reason", "must say why less is asked")
        one = (self.percent is None) != (self.amount is None)
        needs.require(one, "percent" if self.percent is not None else "amount", _ONE_OF_TWO)
        share = self.percent
        needs.require(share is None or 0 < share < 100, "percent", "must be more than 0 and less than 100")
        needs.require(_whole_pence(self.amount), "amount", "must be more than 0 pounds, in whole pence")
        needs.settle()


class StageDue(StrEnum):
    """The events of a job at which a part of its price may be asked."""

    ACCEPTANCE = "acceptance"
    START = "start of work"
    COMPLETION = "completion"

    @property
    def in_words(self) -> str:
        """When it is paid, as the customer reads it."""
        return _WHEN[self]


_WHEN = {
    StageDue.ACCEPTANCE: "When you accept",
    StageDue.START: "On the day the work starts",
    StageDue.COMPLETION: "When the work is complete and you have walked through it with us",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A part of the price that is asked before the rest: by an event or on a day, a share or pounds with VAT.

    The rest is asked last, when the work is complete, and needs no stage.
    """

    due: StageDue | None = None
    on: date | None = None
    percent: Decimal | None = None
    amount: Decimal | None = None

    def __post_init__(self) -> None:
        needs = Requirements()
        one_time = (self.due is None) != (self.on is None)
        needs.require(one_time, "due", "must be one event, or else a day, and not both")
        one = (self.percent is None) != (self.amount is None)
        needs.require(one, "percent" if self.percent is not None else "amount", _ONE_OF_TWO)
        share = self.percent
        needs.require(share is None or 0 < share <= 100, "percent", "must be more than 0 and at most 100")
        needs.require(_whole_pence(self.amount), "amount", "must be more than 0 pounds, in whole pence")
        needs.settle()


_ONE_OF_TWO = "must be given either per cent or in pounds, and not both"


def _whole_pence(amount: Decimal | None) -> bool:
    return amount is None or (amount > 0 and amount % PENNY == 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReverseChargeAnswers:
    """What a business customer said that decides who accounts for the VAT; None where nobody has asked yet.

    `end_user_notice`: the customer wrote that it is an end user or an intermediary.
    """

    customer_registered: bool | None = None
    reported_in_cis: bool | None = None
    end_user_notice: bool | None = None

    @property
    def is_settled(self) -> bool:
        """Whether enough was answered: one "no" that settles it needs no further question."""
        if self.customer_registered is False or self.reported_in_cis is False or self.end_user_notice:
            return True
        return None not in (self.customer_registered, self.reported_in_cis, self.end_user_notice)


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceTerms:
    """All of it, as it is needed to add up an offer."""

    discounts: tuple[Discount, ...] = ()
    stages: tuple[Stage, ...] = ()
    reverse_charge: ReverseChargeAnswers | None = None
