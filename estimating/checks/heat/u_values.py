"""U-values of a ceiling by the combined method, from quantities to quantities."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pint import Quantity

from estimating.amounts import registry
from estimating.checks.heat.build_up import RESISTANCE, TRANSMITTANCE, Ceiling
from estimating.checks.heat.resistance import GREATEST_RATIO_OF_LIMITS, resistance_limits_m2k_w


@dataclass(frozen=True, slots=True, kw_only=True)
class UValue:
    """The limits of resistance, their mean, and the U-value at full precision."""

    upper: Quantity[Any]
    lower: Quantity[Any]
    total_resistance: Quantity[Any]
    u: Quantity[Any]
    ratio_of_limits: float
    greatest_error: float
    convention: str

    @property
    def is_valid(self) -> bool:
        """Whether the limits lie close enough together for their mean to be trusted."""
        return self.ratio_of_limits <= GREATEST_RATIO_OF_LIMITS


def u_value(build_up: Ceiling) -> UValue:
    """Work out the U-value of a ceiling with any layers and one or two sets of timbers through them.

    Args:
        build_up: The ceiling, inside to outside. Record. [mm, W/mK, m2K/W]

    Returns:
        Upper limit, lower limit, their mean and the U-value, with the greatest relative error and the
        roof-space convention used. Record. [m2K/W, W/m2K]

    Raises:
        Refusal: The layers have no resistance, or more than two sets of timbers cross them.

    Source:
        BS EN ISO 6946 combined method; BR 443 (2019). The limit of 1.5 on the ratio of the two limits is
        BS EN ISO 6946, clause number not confirmed.
    """
    upper, lower = resistance_limits_m2k_w([each.slab for each in build_up.layers], build_up.surfaces_m2k_w)
    total = (upper + lower) / 2
    quantity = registry().Quantity
    return UValue(
        upper=quantity(upper, RESISTANCE),
        lower=quantity(lower, RESISTANCE),
        total_resistance=quantity(total, RESISTANCE),
        u=quantity(1 / total, TRANSMITTANCE),
        ratio_of_limits=upper / lower,
        greatest_error=(upper - lower) / (2 * total),
        convention=build_up.roof_space.name,
    )
