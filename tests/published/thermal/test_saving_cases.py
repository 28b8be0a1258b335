"""Degree days and savings against published cases."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from estimating.amounts import registry
from estimating.checks.heat import CeilingChange, Heating, annual_saving, degree_days
from estimating.published.sap_climate import CLIMATE_REGIONS, climate_region
from estimating.refusals import Refusal
from tests.published.thermal.cases import Case, cases_in, celsius, m2, rows_in, w_m2k


def _degree_days(given: dict[str, Any]) -> tuple[float, ...]:
    means = [celsius(mean) for mean in climate_region(given["region"]).monthly_means_c]
    return (degree_days(means, celsius(given["base_C"])).m_as("kelvin*day"),)


def _saving(given: dict[str, Any]) -> tuple[float, ...]:
    change = CeilingChange(
        area=m2(given["area_m2"]), u_before=w_m2k(given["U_before"]), u_after=w_m2k(given["U_after"])
    )
    heating = Heating(
        efficiency=given["efficiency"],
        co2_kg_kwh=Decimal(str(given["co2_factor"])),
        price_pence_kwh=Decimal(str(given["price_p"])),
    )
    saving = annual_saving(change, registry().Quantity(given["degree_days"], "kelvin*day"), heating)
    return saving.fuel.m_as("kW*hour"), saving.co2.m_as("kg"), float(saving.cost)


ANSWERS = {"hdd_from_monthly_means": _degree_days, "annual_saving": _saving}


@pytest.mark.parametrize("case", cases_in("savings.csv"), ids=lambda case: case.name)
def test_published_saving_case(case: Case) -> None:
    case.check(*ANSWERS[case.kind](case.inputs))


def test_every_region_has_twelve_months() -> None:
    assert sorted(CLIMATE_REGIONS) == list(range(22))
    assert {len(region.monthly_means_c) for region in CLIMATE_REGIONS.values()} == {12}


def test_a_region_that_is_not_in_the_table_is_refused() -> None:
    with pytest.raises(Refusal, match="climate_region: must be a SAP region from 0 to 21"):
        climate_region(22)


@pytest.mark.parametrize(
    "row", rows_in("degree_days.csv"), ids=lambda row: f"region {row['region']} to {row['base_c']} C"
)
def test_degree_days_of_every_region(row: dict[str, str]) -> None:
    days = _degree_days({"region": int(row["region"]), "base_C": float(row["base_c"])})
    assert days[0] == pytest.approx(float(row["degree_days"]), abs=0.5), row["source"]
