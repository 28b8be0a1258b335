"""Corrections, timber fractions and squashed wool against published cases."""

from __future__ import annotations

from typing import Any

import pytest

from estimating.amounts import registry
from estimating.checks.heat import (
    AirGaps,
    Fixings,
    air_gap_correction,
    fixing_correction,
    squashed_wool,
    timber_fraction,
)
from estimating.published.squashed_wool import NPL
from estimating.published.u_corrections import ADDED_BY_AIR_GAPS_W_M2K, FIXING_FACTOR
from tests.published.thermal.cases import Case, cases_in, m2k_w, mm, w_mk

LEVELS = {added: AirGaps(level) for level, added in ADDED_BY_AIR_GAPS_W_M2K.items()}


def _air_gap(given: dict[str, Any]) -> float:
    added = air_gap_correction(LEVELS[given["level_dU"]], m2k_w(given["R1"]), m2k_w(given["RTh"]))
    return float(added.m_as("W/m**2/K"))


def _fixings(given: dict[str, Any]) -> float:
    quantity = registry().Quantity
    fixings = Fixings(
        conductivity=w_mk(given["lambda_f"]),
        cross_section=quantity(given["A_f_mm2"], "mm**2"),
        number_per_area=quantity(given["n_f"], "1/m**2"),
        length=mm(given["d1_mm"]),
        depth=mm(given["d1_mm"] * FIXING_FACTOR / given["alpha"]),
    )
    added = fixing_correction(fixings, m2k_w(given["R1"]), m2k_w(given["RTh"]))
    return float(added.m_as("W/m**2/K"))


def _timber(given: dict[str, Any]) -> float:
    return timber_fraction(mm(given["width_mm"]), mm(given["spacing_mm"]))


def _squashed(given: dict[str, Any]) -> float:
    left = squashed_wool(m2k_w(given["R0"]), mm(given["t0_mm"]), mm(given["t_mm"]))
    return float(left.R.m_as("m**2*K/W"))


ANSWERS = {
    "dU_air_gap": _air_gap,
    "dU_fastener_approx": _fixings,
    "timber_fraction": _timber,
    "compressed_R": _squashed,
}


@pytest.mark.parametrize(
    "case", cases_in("corrections.csv") + cases_in("timber_and_wool.csv"), ids=lambda case: case.name
)
def test_published_correction_case(case: Case) -> None:
    case.check(ANSWERS[case.kind](case.inputs))


def test_the_power_law_agrees_with_the_test_it_was_fitted_to() -> None:
    left = squashed_wool(
        m2k_w(NPL.full_resistance_m2k_w), mm(NPL.full_thickness_mm), mm(NPL.squashed_thickness_mm)
    )
    assert left.R.m_as("m**2*K/W") == pytest.approx(NPL.squashed_resistance_m2k_w, abs=0.01), NPL.source
    assert left.is_within_tests
