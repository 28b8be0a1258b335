"""Permissible stresses of softwood, behind the span tables that builders grew up with.

Documents: BS 5268-2:1988 Table 9 and BS 5268-2:2002 Tables 8 and 17, clauses 2.9 and 2.10.6; from memory,
some of it read in copies. The stresses of SC3 and SC4 are those that give the joist tables of Approved
Document A (1992) back, within 12 mm of span, five deep ceiling joists within 24 mm.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

SOURCE = (
    "BS 5268-2 permissible stresses, from memory; they give Approved Document A (1992) Tables A1 to A4 back"
)

LOAD_SHARING = 1.1
"""K8, for four or more joists at no more than 610 mm: BS 5268-2 clause 2.9."""
LONG_TERM, SHORT_TERM = 1.0, 1.5
"""K3 by duration of load: BS 5268-2 Table 17, from memory."""
SHEAR_MODULUS_SHARE = 1 / 16
DEPTH_AS_TESTED_MM, LEAST_DEPTH_MM, LEAST_DEPTH_FACTOR = 300.0, 72.0, 1.17
DEPTH_POWER = 0.11
"""K7 = (300 / h)^0.11, and 1.17 at 72 mm or less: BS 5268-2 clause 2.10.6."""

CEILING_STORAGE_KN_M2, PERSON_N = 0.25, 900.0
FLOOR_KN_M2, FLOOR_KN_M = 1.5, 3.6
"""BS 6399-1 and -3: a floor carries 1.5 kN/m², or 3.6 kN on a metre width of a shorter span."""
DEFLECTION_SHARE, FLOOR_DEFLECTION_MM = 0.003, 14.0


@dataclass(frozen=True, slots=True)
class PermissibleStresses:
    """One class: stresses and mean modulus [N/mm2], and the density its self-weight was taken at [kg/m3]."""

    name: str
    bending: float
    compression_across: float
    shear: float
    modulus_mean: float
    density: float


PERMISSIBLE_STRESSES: Mapping[str, PermissibleStresses] = MappingProxyType(
    {
        each.name: each
        for each in (
            PermissibleStresses("SC3", 5.3, 2.2, 0.67, 8_800, 540),
            PermissibleStresses("SC4", 7.5, 2.4, 0.71, 9_900, 590),
            PermissibleStresses("C16", 5.3, 2.2, 0.67, 8_800, 370),
            PermissibleStresses("C24", 7.5, 2.4, 0.71, 10_800, 420),
        )
    }
)
