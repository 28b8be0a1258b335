"""Vapour pressure, dew point, condensation and openings against published cases."""

from __future__ import annotations

from typing import Any

import pytest

from estimating.checks.air.ventilation import openings_asked_for
from estimating.checks.moisture import (
    Climate,
    VapourLayer,
    condensate_g_m2,
    condensing_planes,
    dew_point_c,
    saturation_pressure_pa,
    temperatures_c,
)
from estimating.survey import Underlay
from tests.published.thermal.cases import Case, cases_in, rows_in


def _condensate(given: dict[str, Any]) -> tuple[float, ...]:
    layers = [VapourLayer("", each["R"], each["Sd"]) for each in given["layers_in_to_out"]]
    climate = Climate(
        given["ti"], given["rhi"], given["te"], given["rhe"], given["Rsi"], given["Rse"], given["delta0"]
    )
    return (condensate_g_m2(layers, climate, seconds=given.get("seconds", 86_400)),)


def _openings(given: dict[str, Any]) -> tuple[float, ...]:
    underlay = {"HR": Underlay.NON_BREATHING}[given["underlay"]]
    asked = openings_asked_for(
        underlay,
        pitch_degrees=given["pitch_deg"],
        span_m=given["span_m"],
        eaves_length_m=given["eaves_length_m"],
        sides=given["sides"],
    )
    return asked.eaves_mm2_m, asked.eaves_in_all_mm2, asked.ridge_in_all_mm2


ANSWERS = {
    "psat": lambda given: (saturation_pressure_pa(given["t_C"]),),
    "dew_point": lambda given: (dew_point_c(given["t_C"], given["rh"]),),
    "glaser_g_m2_day": _condensate,
    "glaser_g_m2_month": _condensate,
    "eaves_opening_mm2": _openings,
}


@pytest.mark.parametrize("case", cases_in("moisture.csv"), ids=lambda case: case.name)
def test_published_moisture_case(case: Case) -> None:
    case.check(*ANSWERS[case.kind](case.inputs))


def test_the_worked_wall_has_the_temperatures_and_pressures_that_its_test_gives() -> None:
    """github.com/pachi/condensaciones, test_cerramiento.py: a wall of the Spanish code by EN ISO 13788."""
    faces = rows_in("glaser_wall.csv")
    layers = [VapourLayer("", float(row["r_m2k_w"]), float(row["sd_m"])) for row in faces[1:]]
    climate = Climate(20, 0.55, 5, 0.96, 0.13, 0.04)
    found = temperatures_c(layers, climate)
    for row, temperature in zip(faces, found, strict=True):
        assert temperature == pytest.approx(float(row["face_c"]), abs=1e-5)
        assert saturation_pressure_pa(temperature) == pytest.approx(float(row["saturated_pa"]), abs=1e-2)
    planes = condensing_planes(layers, climate)
    assert [faces[plane.layer + 1]["layer"] for plane in planes] == ["insulation", "mortar"]
    month = [plane.rate_kg_m2_s * 2_592_000 * 1000 for plane in planes]
    assert month == pytest.approx([15.533, 15.865], abs=1e-3)
