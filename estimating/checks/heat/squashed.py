"""What is left of mineral wool's resistance when boards press it down to the joists."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pint import Quantity

from estimating.checks.heat.build_up import RESISTANCE
from estimating.checks.heat.plain import amount_of, more_than_nothing
from estimating.published.squashed_wool import FITTED_FROM, POWER
from estimating.refusals import Refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class SquashedWool:
    """The resistance left, the share lost, and whether tests reach as far as this."""

    R: Quantity[Any]
    share_lost: float
    is_within_tests: bool


def squashed_wool(
    resistance: Quantity[Any], thickness: Quantity[Any], squashed_to: Quantity[Any]
) -> SquashedWool:
    """Estimate the resistance of mineral wool squashed from one thickness to a lesser one.

    Denser wool conducts less, so that the resistance falls more slowly than the thickness.

    Args:
        resistance: Resistance at the full thickness. Scalar. [m2K/W]
        thickness: The full thickness. Scalar. [mm]
        squashed_to: The thickness it is pressed to. Scalar. [mm]

    Returns:
        The resistance left, the share lost, and whether it was compared with a test. Record. [m2K/W]

    Raises:
        Refusal: A thickness is not more than 0, or the wool would be stretched.

    Source:
        R = R0 (t / t0)^0.686, own fit to tests by the National Physical Laboratory as reproduced in a
        syndicated copy (270 mm pressed to 100 mm keeps 3.09 of 6.11); holds for t / t0 from 0.3.
    """
    full_m2k_w = more_than_nothing(resistance, RESISTANCE, "resistance")
    thickness_m = more_than_nothing(thickness, "m", "thickness")
    squashed_m = more_than_nothing(squashed_to, "m", "squashed_to")
    if squashed_m > thickness_m:
        raise Refusal("squashed_to", "must not be more than the full thickness")
    left_m2k_w = squashed_resistance_m2k_w(full_m2k_w, thickness_m, squashed_m)
    return SquashedWool(
        R=amount_of(left_m2k_w, RESISTANCE),
        share_lost=1 - left_m2k_w / full_m2k_w,
        is_within_tests=squashed_m / thickness_m >= FITTED_FROM,
    )


def squashed_resistance_m2k_w(
    full_m2k_w: float, thickness: float, squashed_to: float, power: float = POWER
) -> float:
    """Estimate the resistance of squashed wool from plain numbers, for the estimate.

    Args:
        full_m2k_w: Resistance at the full thickness. Scalar. [m2K/W]
        thickness: The full thickness. Scalar. [mm]
        squashed_to: The thickness it is pressed to, in the same unit. Scalar. [mm]
        power: How fast the resistance falls; 1 were denser wool to conduct as before. Scalar. [-]

    Returns:
        The resistance left. Scalar. [m2K/W]

    Source:
        R = R0 (t / t0)^0.686, own fit to NPL's tests as reproduced in a syndicated copy.
    """
    kept: float = (squashed_to / thickness) ** power
    return full_m2k_w * kept
