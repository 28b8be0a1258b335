"""U-values that an energy assessor assumes for a roof, by the depth of insulation at the joists.

Documents: RdSAP 2012 version 9.94 (20 September 2019) Table S9, slates or tiles; RdSAP 10 Table 16 column 1,
which adds 125, 175 and 225 mm. Read in transcriptions; the rows of 75, 125, 175, 225, 270 and 350 mm are from
memory.
Address: github.com/building-energy/rdsap2012, rdsap2012/tables/table_S9_roof_u_values.csv.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from enum import StrEnum
from types import MappingProxyType

from estimating.refusals import Refusal


class RdsapEdition(StrEnum):
    """The two editions in use, each named with its table."""

    RDSAP_2012 = "RdSAP 2012 Table S9"
    RDSAP_10 = "RdSAP 10 Table 16"


FROM_MEMORY_MM = frozenset({75, 125, 175, 225, 270, 350})

_BOTH_EDITIONS = {
    0: Decimal("2.30"),
    12: Decimal("1.50"),
    25: Decimal("1.00"),
    50: Decimal("0.68"),
    75: Decimal("0.50"),
    100: Decimal("0.40"),
    150: Decimal("0.30"),
    200: Decimal("0.21"),
    250: Decimal("0.17"),
    270: Decimal("0.16"),
    300: Decimal("0.14"),
    350: Decimal("0.12"),
    400: Decimal("0.11"),
}
_ADDED_IN_10 = {125: Decimal("0.35"), 175: Decimal("0.25"), 225: Decimal("0.19")}

U_W_M2K_BY_THICKNESS_MM: Mapping[RdsapEdition, Mapping[int, Decimal]] = MappingProxyType(
    {
        RdsapEdition.RDSAP_2012: MappingProxyType(_BOTH_EDITIONS),
        RdsapEdition.RDSAP_10: MappingProxyType(dict(sorted((_BOTH_EDITIONS | _ADDED_IN_10).items()))),
    }
)
_LAST_ROW_MM = 400


def assessed_roof_u_at_row(thickness_mm: int, edition: RdsapEdition = RdsapEdition.RDSAP_10) -> Decimal:
    """Give the assumed U-value of one row of the table.

    Args:
        thickness_mm: Insulation at the joists, one of the table's rows, or 400 and more. Scalar. [mm]
        edition: The edition of the table. Choice. [-]

    Returns:
        The U-value as printed. Scalar. [W/m2K]

    Raises:
        Refusal: The table has no such row.

    Source:
        RdSAP 2012 version 9.94 Table S9; RdSAP 10 Table 16 column 1; as reproduced in transcriptions, and
        from memory for 75, 125, 175, 225, 270 and 350 mm.
    """
    rows = U_W_M2K_BY_THICKNESS_MM[edition]
    row_mm = min(thickness_mm, _LAST_ROW_MM)
    if row_mm not in rows:
        raise Refusal("thickness_mm", f"must be a row of {edition}: {', '.join(map(str, rows))} mm")
    return rows[row_mm]


def assessed_roof_u(thickness_mm: int, edition: RdsapEdition = RdsapEdition.RDSAP_10) -> Decimal:
    """Give the assumed U-value of insulation of any thickness, by the next thinner row.

    An assessor may not read between rows, and the thinner row never flatters the loft.

    Args:
        thickness_mm: Insulation at the joists. Scalar. [mm]
        edition: The edition of the table. Choice. [-]

    Returns:
        The U-value as printed. Scalar. [W/m2K]

    Raises:
        Refusal: The thickness is less than 0.

    Source:
        RdSAP 2012 version 9.94 Table S9; RdSAP 10 Table 16 column 1; taking the next thinner row is our own
        caution.
    """
    if thickness_mm < 0:
        raise Refusal("thickness_mm", "must not be less than 0 mm")
    thinner_mm = max(row for row in U_W_M2K_BY_THICKNESS_MM[edition] if row <= thickness_mm)
    return assessed_roof_u_at_row(thinner_mm, edition)
