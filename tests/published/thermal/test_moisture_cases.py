"""Vapour pressure, dew point, condensation and openings against published cases."""

from __future__ import annotations

from typing import Any

import pytest

from estimating.checks.moisture import (
    Climate,
    VapourLayer,
    condensate_g_m2,
    dew_point_c,
    saturation_pressure_pa,
)
from estimating.checks.ventilation import openings_asked_for
from estimating.survey import Underlay
from tests.published.thermal.cases import Case, cases_in


def _condensate(given: dict[str, Any]) -> tuple[float, ...]:
    layers = [VapourLayer("", each["R"], each["Sd"]) for each in given["layers_in_to_out"]]
    climate = Climate(given["ti"], given["rhi"], given["te"], given["rhe"], given["Rsi"], given["Rse"])
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
