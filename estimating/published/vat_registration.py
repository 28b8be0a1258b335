"""When a firm must register for VAT: dated thresholds, because a Budget may change them.

Documents: HMRC policy paper of 7 March 2024; HMRC Notice 700/1 and its supplement. Read on 25 November 2026;
the days allowed for telling HMRC second hand.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class RegistrationThreshold:
    """The turnover of twelve months above which a firm must register, and under which it may leave."""

    valid_from: date
    register_above: Decimal
    leave_below: Decimal
    notify_within_days: int
    source: str


REGISTRATION_THRESHOLDS = (
    RegistrationThreshold(
        valid_from=date(2024, 4, 1),
        register_above=Decimal(90_000),
        leave_below=Decimal(88_000),
        notify_within_days=30,
        source="HMRC policy paper of 7 March 2024; Notice 700/1 supplement",
    ),
)
# From here on a firm does well to look at its turnover every month; common practice, no source.
WARN_ABOVE_SHARE = Decimal(8) / Decimal(9)
