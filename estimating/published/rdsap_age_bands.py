"""U-values that an energy assessor assumes for a roof whose insulation cannot be seen, by the house's age.

Documents: RdSAP 2012 version 9.94 Table S10; RdSAP 10 Table 18 column 1, which takes at least 100 mm (0.40)
for bands A to F. Pitched, slates or tiles, insulation between joists or unknown. Read in transcriptions;
bands F and I of the 2012 edition and band I of edition 10 are from memory.
Address: github.com/building-energy/rdsap2012, table_S10.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from estimating.refusals import Refusal


@dataclass(frozen=True, slots=True)
class AgeBand:
    """What both editions assume for one age band; band M is in edition 10 only."""

    thickness_2012_mm: int | None
    u_2012_w_m2k: Decimal | None
    u_10_w_m2k: Decimal


AGE_BANDS: Mapping[str, AgeBand] = MappingProxyType(
    {
        "A": AgeBand(0, Decimal("2.30"), Decimal("0.40")),
        "B": AgeBand(0, Decimal("2.30"), Decimal("0.40")),
        "C": AgeBand(0, Decimal("2.30"), Decimal("0.40")),
        "D": AgeBand(0, Decimal("2.30"), Decimal("0.40")),
        "E": AgeBand(12, Decimal("1.50"), Decimal("0.40")),
        "F": AgeBand(50, Decimal("0.68"), Decimal("0.40")),
        "G": AgeBand(100, Decimal("0.40"), Decimal("0.40")),
        "H": AgeBand(150, Decimal("0.30"), Decimal("0.30")),
        "I": AgeBand(150, Decimal("0.26"), Decimal("0.26")),
        "J": AgeBand(270, Decimal("0.16"), Decimal("0.16")),
        "K": AgeBand(270, Decimal("0.16"), Decimal("0.16")),
        "L": AgeBand(270, Decimal("0.16"), Decimal("0.16")),
        "M": AgeBand(None, None, Decimal("0.15")),
    }
)


def assessed_age_band(letter: str) -> AgeBand:
    """Give what an assessor assumes for a house of one age band.

    Args:
        letter: The band, A to M. Text. [-]

    Returns:
        The assumed depth and the U-values of both editions. Record. [mm, W/m2K]

    Raises:
        Refusal: There is no such band.

    Source:
        RdSAP 2012 version 9.94 Table S10; RdSAP 10 Table 18 column 1; as reproduced in transcriptions, and
        from memory for F and I.
    """
    band = AGE_BANDS.get(letter.strip().upper())
    if band is None:
        raise Refusal("age_band", f"must be one of {', '.join(AGE_BANDS)}")
    return band
