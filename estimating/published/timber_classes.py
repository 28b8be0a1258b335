"""Strength classes of structural timber: strengths, stiffness and density.

Documents: EN 338:2016 Table 1, read in two transcriptions that agree (github.com/DanBeranek/desssign,
strength_classes.py; github.com/egilmonsas/materialclasses, solidtimber.py). TR26 is of PD 6693-1 and
BS 5268-2, from memory; its shear strength and its strength across the grain are the least sure.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

SOURCE = "EN 338:2016 Table 1, read in transcriptions"
TR26_SOURCE = "PD 6693-1 and BS 5268-2, from memory"


@dataclass(frozen=True, slots=True)
class TimberClass:
    """One row: characteristic strengths and mean moduli [N/mm2], densities [kg/m3]."""

    name: str
    bending: float
    compression_across: float
    shear: float
    modulus_mean: float
    modulus_fifth: float
    shear_modulus: float
    density_characteristic: float
    density_mean: float
    source: str = SOURCE


STRENGTH_CLASSES: Mapping[str, TimberClass] = MappingProxyType(
    {
        each.name: each
        for each in (
            TimberClass("C14", 14, 2.0, 3.0, 7_000, 4_700, 440, 290, 350),
            TimberClass("C16", 16, 2.2, 3.2, 8_000, 5_400, 500, 310, 370),
            TimberClass("C18", 18, 2.2, 3.4, 9_000, 6_000, 560, 320, 380),
            TimberClass("C20", 20, 2.3, 3.6, 9_500, 6_400, 590, 330, 400),
            TimberClass("C22", 22, 2.4, 3.8, 10_000, 6_700, 630, 340, 410),
            TimberClass("C24", 24, 2.5, 4.0, 11_000, 7_400, 690, 350, 420),
            TimberClass("C27", 27, 2.5, 4.0, 11_500, 7_700, 720, 360, 430),
            TimberClass("C30", 30, 2.7, 4.0, 12_000, 8_000, 750, 380, 460),
            TimberClass("TR26", 28.3, 2.5, 4.0, 11_000, 7_400, 690, 370, 440, TR26_SOURCE),
        )
    }
)
