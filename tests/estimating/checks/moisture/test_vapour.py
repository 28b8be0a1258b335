"""Dew points against another library, and what must hold of vapour whatever the air."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.moisture import dew_point_c, saturation_pressure_pa
from estimating.refusals import Refusal
from tests.published.thermal.cases import rows_in

temperatures = st.floats(-20, 40)
humidities = st.floats(0.2, 1)
ROOM_C = 0.1
"""ISO 13788 and ASHRAE differ by less, from -20 to 40 °C and 20 to 100 %, that is dew points down to -36 °C;
in colder or drier air they part by more: 0.14 °C at -20 °C and 10 %."""


@pytest.mark.parametrize("row", rows_in("dew_points.csv"), ids=lambda row: f"{row['t_c']} C, {row['rh']}")
def test_dew_points_are_those_of_psychrolib(row: dict[str, str]) -> None:
    ours = dew_point_c(float(row["t_c"]), float(row["rh"]))
    assert ours == pytest.approx(float(row["dew_point_c"]), abs=ROOM_C), row["source"]


@given(temperatures, humidities)
@settings(max_examples=200)
def test_any_dew_point_is_that_of_psychrolib(temperature: float, humidity: float) -> None:
    """PsychroLib 2.5.0, GetTDewPointFromRelHum; it comes with the dependency group `slow`."""
    psychrolib = pytest.importorskip("psychrolib")
    psychrolib.SetUnitSystem(psychrolib.SI)
    theirs = psychrolib.GetTDewPointFromRelHum(temperature, humidity)
    assert dew_point_c(temperature, humidity) == pytest.approx(theirs, abs=ROOM_C)


@given(temperatures)
@settings(max_examples=50)
def test_saturated_air_holds_what_psychrolib_says(temperature: float) -> None:
    """PsychroLib 2.5.0, GetSatVapPres: within 0.6 % from -20 to 40 °C."""
    psychrolib = pytest.importorskip("psychrolib")
    psychrolib.SetUnitSystem(psychrolib.SI)
    assert saturation_pressure_pa(temperature) == pytest.approx(
        psychrolib.GetSatVapPres(temperature), rel=0.006
    )


def test_the_branches_over_ice_and_water_meet_at_freezing() -> None:
    """BS EN ISO 13788:2012 Annex E: 610.5 Pa at 0 °C, which is counted as water."""
    assert saturation_pressure_pa(0) == 610.5
    assert saturation_pressure_pa(-1e-9) == pytest.approx(610.5)
    assert dew_point_c(0, 1) == 0
    assert dew_point_c(0, 0.999) < 0 < dew_point_c(0.1, 1)


@given(temperatures, humidities)
@settings(max_examples=50)
def test_air_gives_water_back_at_its_own_temperature_or_below(temperature: float, humidity: float) -> None:
    dew_point = dew_point_c(temperature, humidity)
    assert dew_point <= temperature + 1e-9
    held = humidity * saturation_pressure_pa(temperature)
    assert saturation_pressure_pa(dew_point) == pytest.approx(held, rel=1e-9)


@given(temperatures, humidities, st.floats(0, 0.5))
@settings(max_examples=50)
def test_damper_air_never_has_a_lower_dew_point(temperature: float, humidity: float, more: float) -> None:
    damper = min(1.0, humidity + more)
    assert dew_point_c(temperature, damper) >= dew_point_c(temperature, humidity)


@given(temperatures, st.floats(0, 10), humidities)
@settings(max_examples=50)
def test_warmer_air_of_one_humidity_never_has_a_lower_dew_point(
    temperature: float, warmer: float, humidity: float
) -> None:
    assert dew_point_c(temperature + warmer, humidity) >= dew_point_c(temperature, humidity) - 1e-9


@given(st.floats(-60, 99), st.floats(0, 1))
@settings(max_examples=50)
def test_warmer_air_never_holds_less(temperature: float, warmer: float) -> None:
    assert saturation_pressure_pa(temperature + warmer) >= saturation_pressure_pa(temperature)


@pytest.mark.parametrize("humidity", [0, -0.1, 1.01, 60, float("nan")])
def test_a_humidity_that_no_air_has_is_refused_by_name(humidity: float) -> None:
    with pytest.raises(Refusal, match="relative_humidity: must be more than 0 and at most 1"):
        dew_point_c(20, humidity)


@pytest.mark.parametrize("temperature", [-61, 120, float("nan"), float("inf")])
def test_a_temperature_beyond_the_formula_is_refused_by_name(temperature: float) -> None:
    with pytest.raises(Refusal, match="temperature_c: must be from -60 to 100 °C"):
        saturation_pressure_pa(temperature)
