"""Periods and limits of consumer contracts: settings with the day they were checked, for a firm to change.

Document: Consumer Contracts (Information, Cancellation and Additional Charges) Regulations 2013 (SI
2013/3134), in force from 13 June 2014. Address: legislation.gov.uk/uksi/2013/3134.
Read on 25 November 2026: regulations 5, 7, 10, 27 and 30; regulations 31, 34 and 36 second hand or from
memory, to be read again before a text that rests on them is printed.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from estimating.refusals import Requirements

SOURCE = "Consumer Contracts Regulations 2013 (SI 2013/3134)"


@dataclass(frozen=True, slots=True, kw_only=True)
class ConsumerContractTerms:
    """What the regulations count with; the off-premises rules begin above the floor."""

    checked_on: date
    cancel_within_days: int
    extension_months: int
    refund_within_days: int
    off_premises_floor: Decimal

    def __post_init__(self) -> None:
        needs = Requirements()
        for name in ("cancel_within_days", "extension_months", "refund_within_days"):
            needs.require(getattr(self, name) >= 0, name, "must not be less than 0")
        needs.require(self.off_premises_floor >= 0, "off_premises_floor", "must not be less than 0")
        needs.settle()


CONSUMER_CONTRACT_TERMS = ConsumerContractTerms(
    checked_on=date(2026, 11, 25),
    cancel_within_days=14,
    extension_months=12,
    refund_within_days=14,
    off_premises_floor=Decimal("42.00"),
)
