from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.amounts import registry
from estimating.checks.heat import AnnualSaving, CeilingChange, Heating, annual_saving, degree_days
from estimating.refusals import Refusal
from tests.estimating.checks.heat.ceilings import w_m2k

GAS = Heating(efficiency=0.9, co2_kg_kwh=Decimal("0.21"), price_pence_kwh=Decimal("6"))


def saving(before: float, after: float, *, area_m2: float = 45, days: float = 2062) -> AnnualSaving:
    quantity = registry().Quantity
    change = CeilingChange(area=quantity(area_m2, "m**2"), u_before=w_m2k(before), u_after=w_m2k(after))
    return annual_saving(change, quantity(days, "kelvin*day"), GAS)


def year_of(celsius: float, base: float = 15.5) -> float:
    quantity = registry().Quantity
    return float(degree_days([quantity(celsius, "degC")] * 12, quantity(base, "degC")).m_as("kelvin*day"))


def test_a_job_that_changes_no_insulation_saves_nothing() -> None:
    unchanged = saving(0.16, 0.16)
    assert unchanged.fuel.magnitude == 0
    assert unchanged.cost == 0


def test_insulation_squashed_by_the_job_costs_fuel_instead_of_saving_it() -> None:
    assert saving(0.16, 0.37).cost < 0


@given(st.floats(0.2, 2.3), st.floats(0.1, 0.2), st.floats(1, 200))
@settings(max_examples=30)
def test_twice_the_area_saves_twice_as_much(before: float, after: float, area_m2: float) -> None:
    one, two = (saving(before, after, area_m2=area_m2 * times) for times in (1, 2))
    assert two.fuel.magnitude == pytest.approx(2 * one.fuel.magnitude)
    assert float(two.cost) == pytest.approx(2 * float(one.cost))


def test_pounds_stay_decimal_and_follow_the_fuel() -> None:
    result = saving(0.4, 0.16, days=2462)
    assert isinstance(result.cost, Decimal)
    assert float(result.cost) == pytest.approx(result.fuel.m_as("kW*hour") * 0.06)


def test_a_year_at_the_base_temperature_needs_no_heating() -> None:
    assert year_of(15.5) == 0
    assert year_of(20) == 0


def test_a_year_one_degree_below_the_base_has_365_degree_days() -> None:
    assert year_of(14.5) == pytest.approx(365)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: saving(0, 0.16), "u_before: must be more than 0 W/m²K"),
        (lambda: saving(0.4, 0.16, area_m2=-1), "area: must not be less than 0 m²"),
        (lambda: saving(0.4, 0.16, days=-1), "degree_days: must not be less than 0 K·day"),
        (lambda: degree_days([], registry().Quantity(15.5, "degC")), "monthly_means: must be twelve"),
        (
            lambda: Heating(efficiency=0, co2_kg_kwh=Decimal(0), price_pence_kwh=Decimal(0)),
            "efficiency: must be more than 0",
        ),
    ],
)
def test_savings_that_cannot_be_are_refused(make, words: str) -> None:
    with pytest.raises(Refusal) as refused:
        make()
    assert str(refused.value) == words
