"""Quantities made plain and plain numbers made quantities, with a refusal that names the field.

pint reads a unit's name in 30 to 100 µs and compares units it has read in a tenth of that, so that each name
is read once.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from math import isfinite
from typing import Any

from pint import DimensionalityError, Quantity, Unit

from estimating.amounts import registry
from estimating.refusals import Refusal

DAYS_OF_MONTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_SPOKEN = {
    "m": "mm",
    "W/m/K": "W/mK",
    "W/m**2/K": "W/m²K",
    "m**2*K/W": "m²K/W",
    "m**2": "m²",
    "1/m**2": "per m²",
    "kelvin*day": "K·day",
    "degC": "°C",
}


@cache
def _unit(name: str) -> Unit:
    return registry().Unit(name)


def amount_of(number: float, unit: str) -> Quantity[Any]:
    """Make a quantity of a plain number.

    Args:
        number: The number. Scalar. [as unit]
        unit: Its unit, as pint writes it. Text. [-]

    Returns:
        The quantity. Scalar. [as unit]

    Source:
        Own definition.
    """
    return registry().Quantity(number, _unit(unit))


def in_unit(amount: Quantity[Any], unit: str, field: str) -> float:
    """Give a quantity as a plain number of one unit.

    Args:
        amount: The quantity. Scalar. [any unit of the same kind]
        unit: The unit wanted, as pint writes it. Text. [-]
        field: The input to name in a refusal. Text. [-]

    Returns:
        The number. Scalar. [as unit]

    Raises:
        Refusal: It is no quantity of that kind, or no number.

    Source:
        Own definition.
    """
    spoken = _SPOKEN.get(unit, unit)
    try:
        number = float(amount.m_as(_unit(unit)))
    except (AttributeError, DimensionalityError):
        raise Refusal(field, f"must be given in {spoken} or a unit of the same kind") from None
    if not isfinite(number):
        raise Refusal(field, f"must be a number of {spoken}")
    return number


def at_least_nothing(amount: Quantity[Any], unit: str, field: str) -> float:
    """Give a quantity that may be 0 but not less, as a plain number.

    Args:
        amount: The quantity. Scalar. [any unit of the same kind]
        unit: The unit wanted, as pint writes it. Text. [-]
        field: The input to name in a refusal. Text. [-]

    Returns:
        The number. Scalar. [as unit]

    Raises:
        Refusal: It is less than 0, or no quantity of that kind.

    Source:
        Own definition.
    """
    number = in_unit(amount, unit, field)
    if number < 0:
        raise Refusal(field, f"must not be less than 0 {_SPOKEN.get(unit, unit)}")
    return number


def more_than_nothing(amount: Quantity[Any], unit: str, field: str) -> float:
    """Give a quantity that must be more than 0, as a plain number.

    Args:
        amount: The quantity. Scalar. [any unit of the same kind]
        unit: The unit wanted, as pint writes it. Text. [-]
        field: The input to name in a refusal. Text. [-]

    Returns:
        The number. Scalar. [as unit]

    Raises:
        Refusal: It is 0 or less, or no quantity of that kind.

    Source:
        Own definition.
    """
    number = in_unit(amount, unit, field)
    if number <= 0:
        raise Refusal(field, f"must be more than 0 {_SPOKEN.get(unit, unit)}")
    return number


def fraction(share: float, field: str) -> float:
    """Give a share of the whole.

    Args:
        share: The share. Scalar. [-]
        field: The input to name in a refusal. Text. [-]

    Returns:
        The share. Scalar. [-]

    Raises:
        Refusal: It is not from 0 to 1.

    Source:
        Own definition.
    """
    if not 0 <= share <= 1:
        raise Refusal(field, "must be from 0 to 1")
    return float(share)


def degree_days_k(monthly_means_c: Sequence[float], base_c: float) -> float:
    """Add up the heating degree days of a year from the means of its months, as plain numbers.

    Args:
        monthly_means_c: Mean temperature outside, January to December. Twelve values. [C]
        base_c: The temperature outside above which the house needs no heating. Scalar. [C]

    Returns:
        The degree days of a year of 365 days. Scalar. [K.day]

    Source:
        Definition of degree days.
    """
    return sum(
        max(0.0, base_c - mean) * days for mean, days in zip(monthly_means_c, DAYS_OF_MONTHS, strict=True)
    )
