"""Resistance of mineral wool when it is squashed: tests and trade charts.

Documents: National Physical Laboratory, "Squashed loft insulation 50 percent less effective", read in a
syndicated copy, the original not seen; compression figures of R-19 batts quoted in US trade articles,
converted here from ft²·h·°F/Btu.
Addresses: energyvanguard.com/blog/compressed-fiberglass-insulation-really-so-bad; jlconline.com (questions
and answers). No address was given for the syndicated copy.
"""

from __future__ import annotations

from dataclasses import dataclass

_M2K_W_PER_FT2_H_F_BTU = 0.176110

SOURCE = "NPL tests, read second hand: an estimate"

POWER = 0.686
"""Fitted to the NPL pair: R = R0 (t / t0) ^ 0.686, the same as conductivity0 (t / t0) ^ 0.314."""

FITTED_FROM = 0.3
"""Thickness left over thickness at first, below which the power was never compared with a test."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SquashedPair:
    """One test: the resistance at the full thickness, and at the squashed one."""

    source: str
    full_thickness_mm: float
    full_resistance_m2k_w: float
    squashed_thickness_mm: float
    squashed_resistance_m2k_w: float


NPL = SquashedPair(
    source="NPL, second hand",
    full_thickness_mm=270,
    full_resistance_m2k_w=6.11,
    squashed_thickness_mm=100,
    squashed_resistance_m2k_w=3.09,
)
US_R19_BATT = SquashedPair(
    source="US R-19 batt chart, second hand",
    full_thickness_mm=158.75,
    full_resistance_m2k_w=19 * _M2K_W_PER_FT2_H_F_BTU,
    squashed_thickness_mm=139.7,
    squashed_resistance_m2k_w=18 * _M2K_W_PER_FT2_H_F_BTU,
)
US_R19_NOMINAL_BATT = SquashedPair(
    source="US R-19 batt, nominal 6 in, second hand",
    full_thickness_mm=152.4,
    full_resistance_m2k_w=19 * _M2K_W_PER_FT2_H_F_BTU,
    squashed_thickness_mm=88.9,
    squashed_resistance_m2k_w=14 * _M2K_W_PER_FT2_H_F_BTU,
)
TESTS = (NPL, US_R19_BATT, US_R19_NOMINAL_BATT)
