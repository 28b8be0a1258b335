"""What a lower U-value saves in a year: fuel, carbon dioxide and pounds by the degree-day formula."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from pint import Quantity

from estimating.checks.heat.build_up import TRANSMITTANCE
from estimating.checks.heat.plain import (
    DAYS_OF_MONTHS,
    amount_of,
    at_least_nothing,
    degree_days_k,
    in_unit,
    more_than_nothing,
)
from estimating.refusals import Requirements

DEGREE_DAYS = "kelvin*day"


@dataclass(frozen=True, slots=True, kw_only=True)
class Heating:
    """What heats the house; `efficiency` is useful heat over fuel, more than 1 for a heat pump."""

    efficiency: float
    co2_kg_kwh: Decimal
    price_pence_kwh: Decimal

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(self.efficiency > 0, "efficiency", "must be more than 0")
        needs.require(self.co2_kg_kwh >= 0, "co2_kg_kwh", "must not be less than 0 kg/kWh")
        needs.require(self.price_pence_kwh >= 0, "price_pence_kwh", "must not be less than 0 pence/kWh")
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class CeilingChange:
    """An area of ceiling before and after."""

    area: Quantity[Any]
    u_before: Quantity[Any]
    u_after: Quantity[Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class AnnualSaving:
    """The simple figure for one year, unrounded; less than 0 where the change loses heat.

    Metered savings are lower than this formula's, so that it is only ever shown as an estimate.
    """

    fuel: Quantity[Any]
    co2: Quantity[Any]
    cost: Decimal


def degree_days(monthly_means: Sequence[Quantity[Any]], base: Quantity[Any]) -> Quantity[Any]:
    """Add up the heating degree days of a year from the mean temperature of each month.

    Means of months hide the cold days of mild months, so that this comes out lower than figures from daily
    readings.

    Args:
        monthly_means: Mean temperature outside, January to December. Twelve values. [C]
        base: The temperature outside above which the house needs no heating. Scalar. [C]

    Returns:
        The degree days of a year of 365 days. Scalar. [K.day]

    Raises:
        Refusal: There are not twelve months.

    Source:
        Definition of degree days; the means are those of SAP 10.2 Table U1.
    """
    needs = Requirements()
    needs.require(len(monthly_means) == len(DAYS_OF_MONTHS), "monthly_means", "must be twelve")
    needs.settle()
    base_c = in_unit(base, "degC", "base")
    means_c = [in_unit(each, "degC", "monthly_means") for each in monthly_means]
    return amount_of(degree_days_k(means_c, base_c), DEGREE_DAYS)


def annual_saving(change: CeilingChange, degree_days: Quantity[Any], heating: Heating) -> AnnualSaving:
    """Work out what a lower U-value saves in a year by the simple formula.

    Args:
        change: The area, and its U-value before and after. Record. [m2, W/m2K]
        degree_days: Heating degree days of the year. Scalar. [K.day]
        heating: Efficiency, carbon dioxide and price of the fuel. Record. [-, kg/kWh, p/kWh]

    Returns:
        Fuel, carbon dioxide and pounds. Record. [kWh, kg, GBP]

    Raises:
        Refusal: An amount is less than 0.

    Source:
        (U before − U after) × area × degree days × 24 / 1000 / efficiency: definition; emission factors of
        SAP 10.2 Table 12.
    """
    area_m2 = at_least_nothing(change.area, "m**2", "area")
    before_w_m2k = more_than_nothing(change.u_before, TRANSMITTANCE, "u_before")
    after_w_m2k = more_than_nothing(change.u_after, TRANSMITTANCE, "u_after")
    days_k = at_least_nothing(degree_days, DEGREE_DAYS, "degree_days")
    fuel_kwh = (before_w_m2k - after_w_m2k) * area_m2 * days_k * 24 / 1000 / heating.efficiency
    exact_kwh = Decimal(str(fuel_kwh))
    return AnnualSaving(
        fuel=amount_of(fuel_kwh, "kW*hour"),
        co2=amount_of(float(exact_kwh * heating.co2_kg_kwh), "kg"),
        cost=exact_kwh * heating.price_pence_kwh / 100,
    )
