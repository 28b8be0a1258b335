"""How long a firm keeps what it wrote: settings with the day they were checked.

Documents: HMRC Notice 700/21 (VAT records at least 6 years); Limitation Act 1980 s.5 (contract, 6 years, from
memory; 5 in Scotland by its own Act); Defective Premises Act 1972 s.2A with the Building Safety Act 2022
s.134-135 (work on a dwelling finished after 28 June 2022, 15 years, second hand); Environmental Protection
(Duty of Care) Regulations 1991 (waste transfer note, 2 years, second hand).
Read on 25 November 2026.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class KeptRecord(StrEnum):
    """A kind of record that must be kept for years."""

    VAT = "VAT record"
    CONTRACT = "contract"
    DWELLING_WORK = "job file of work on a dwelling"
    WASTE_NOTE = "waste transfer note"


@dataclass(frozen=True, slots=True)
class RetentionPeriod:
    """The years a record is kept, and what asks for them."""

    record: KeptRecord
    years: int
    source: str


RETENTION_PERIODS = (
    RetentionPeriod(KeptRecord.VAT, 6, "HMRC Notice 700/21"),
    RetentionPeriod(KeptRecord.CONTRACT, 6, "Limitation Act 1980 s.5, from memory"),
    RetentionPeriod(
        KeptRecord.DWELLING_WORK, 15, "Defective Premises Act 1972 s.2A; Building Safety Act 2022 s.134-135"
    ),
    RetentionPeriod(
        KeptRecord.WASTE_NOTE,
        2,
        "Environmental Protection (Duty of Care) Regulations 1991, name from memory",
    ),
)
