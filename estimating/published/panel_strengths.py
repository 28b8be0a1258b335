"""Design values of chipboard for floors, P5, by thickness.

Document: EN 12369-1:2001, bending strengths read in a transcription of a construction manual, bands of
thickness from memory. Those of EN 312 are minima of a product and no design values.
Address: github.com/H-S-W/MAB-CALC, input/material/skivor.toml.
"""

from __future__ import annotations

from estimating.refusals import Requirements

SOURCE = "EN 12369-1:2001, second hand; bands of thickness from memory"

_BENDING_N_MM2 = ((13, 15.0), (20, 13.3), (25, 11.7), (32, 10.0), (40, 8.3), (None, 7.5))
"""Characteristic bending strength up to and with a thickness; the first band begins above 6 mm."""
_THINNEST_MM = 6


def p5_bending_n_mm2(thickness_mm: float) -> float:
    """Give the characteristic bending strength of P5 chipboard.

    Args:
        thickness_mm: The board's thickness. Scalar. [mm]

    Returns:
        The strength. Scalar. [N/mm2]

    Raises:
        Refusal: The board is 6 mm thick or less, for which the table has no row.

    Source:
        EN 12369-1:2001, second hand.
    """
    needs = Requirements()
    needs.require(thickness_mm > _THINNEST_MM, "thickness_mm", f"must be more than {_THINNEST_MM} mm")
    needs.settle()
    return next(strength for most, strength in _BENDING_N_MM2 if most is None or thickness_mm <= most)
