"""Moisture: vapour in air, where it condenses between layers, and what that says of a deck.

Read it in this order: vapour (pressure and dew point), interstitial (a build-up on one cold day), under_deck
(the build-up of the loft, with the deck on the wool and with a gap), verdict (what is said of it).
"""

from estimating.checks.moisture.interstitial import (
    Climate,
    CondensingPlane,
    VapourLayer,
    condensate_g_m2,
    condensing_planes,
    temperatures_c,
    vapour_points,
)
from estimating.checks.moisture.vapour import dew_point_c, saturation_pressure_pa

__all__ = [
    "Climate",
    "CondensingPlane",
    "VapourLayer",
    "condensate_g_m2",
    "condensing_planes",
    "dew_point_c",
    "saturation_pressure_pa",
    "temperatures_c",
    "vapour_points",
]
