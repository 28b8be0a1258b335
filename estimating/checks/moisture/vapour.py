"""How much vapour air can hold, and when it gives some of it back."""

from __future__ import annotations

from math import exp, log

from estimating.published.vapour import OVER_ICE, OVER_WATER, PRESSURE_AT_FREEZING_PA
from estimating.refusals import Requirements

COLDEST_C, WARMEST_C = -60.0, 100.0


def saturation_pressure_pa(temperature_c: float) -> float:
    """Give the pressure of water vapour in saturated air, over ice below freezing.

    Args:
        temperature_c: Temperature of the air. Scalar. [C]

    Returns:
        The pressure. Scalar. [Pa]

    Raises:
        Refusal: The temperature is outside the formula.

    Source:
        BS EN ISO 13788:2012 Annex E.
    """
    needs = Requirements()
    within = COLDEST_C <= temperature_c <= WARMEST_C
    needs.require(within, "temperature_c", f"must be from {COLDEST_C:.0f} to {WARMEST_C:.0f} °C")
    needs.settle()
    branch = OVER_WATER if temperature_c >= 0 else OVER_ICE
    return PRESSURE_AT_FREEZING_PA * exp(branch.a * temperature_c / (branch.b + temperature_c))


def dew_point_c(temperature_c: float, relative_humidity: float) -> float:
    """Give the temperature at which air begins to give water back.

    Args:
        temperature_c: Temperature of the air. Scalar. [C]
        relative_humidity: Share of the vapour that it could hold, over 0 to 1. Scalar. [-]

    Returns:
        The dew point, the frost point below freezing. Scalar. [C]

    Raises:
        Refusal: The humidity is not above 0 and at most 1, or the temperature is outside the formula.

    Source:
        BS EN ISO 13788:2012 Annex E, solved for the temperature.
    """
    needs = Requirements()
    needs.require(0 < relative_humidity <= 1, "relative_humidity", "must be more than 0 and at most 1")
    needs.settle()
    pressure = relative_humidity * saturation_pressure_pa(temperature_c)
    branch = OVER_WATER if pressure >= PRESSURE_AT_FREEZING_PA else OVER_ICE
    exponent = log(pressure / PRESSURE_AT_FREEZING_PA)
    return branch.b * exponent / (branch.a - exponent)
