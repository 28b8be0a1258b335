"""U-values asked of a ceiling that is insulated in an existing home, by nation, dated.

Documents: Approved Document L Volume 1 (2021, amended 2023) Table 4.3, read in a transcription, and
what was read of the other nations' books second hand. Only England's is confirmed; a firm confirms its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from estimating.nations import Nation


@dataclass(frozen=True, slots=True, kw_only=True)
class UTarget:
    """A U-value [W/m2K] asked for in one nation, from one day on."""

    nation: Nation
    u_w_m2k: Decimal
    from_day: date
    source: str
    confirmed: bool


U_TARGETS = (
    UTarget(
        nation=Nation.ENGLAND,
        u_w_m2k=Decimal("0.16"),
        from_day=date(2022, 6, 15),
        source="Approved Document L Volume 1 (2021, amended 2023) Table 4.3",
        confirmed=True,
    ),
    UTarget(
        nation=Nation.WALES,
        u_w_m2k=Decimal("0.16"),
        from_day=date(2022, 11, 23),
        source="Approved Document L1 2022 (Wales), second hand",
        confirmed=False,
    ),
    UTarget(
        nation=Nation.SCOTLAND,
        u_w_m2k=Decimal("0.15"),
        from_day=date(2015, 10, 1),
        source="Technical Handbook Domestic 6.2, second hand; changed since",
        confirmed=False,
    ),
    UTarget(
        nation=Nation.NORTHERN_IRELAND,
        u_w_m2k=Decimal("0.16"),
        from_day=date(2022, 6, 30),
        source="Technical Booklet F1 2022: the value was not seen, England's is taken",
        confirmed=False,
    ),
)
