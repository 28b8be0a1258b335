"""Thicknesses against the roof tables of Approved Document L, as reproduced in a textbook."""

from __future__ import annotations

from typing import Any

import pytest

from estimating.checks.heat import BridgingJoists, continuous_thickness, table_thickness_between_and_over
from estimating.published.timber_fractions import APPROVED_DOCUMENT_L_TABLES
from tests.published.thermal.cases import Case, cases_in, m2k_w, mm, rows_in, w_m2k, w_mk

TABLE_JOISTS = BridgingJoists(
    depth=mm(100), timber_fraction=APPROVED_DOCUMENT_L_TABLES, timber_conductivity=w_mk(0.13)
)
TABLE_SURFACES = m2k_w(0.14)


def _between_and_over(given: dict[str, Any]) -> float:
    joists = BridgingJoists(
        depth=mm(given["joist_depth_mm"]),
        timber_fraction=given["joist_fraction"],
        timber_conductivity=w_mk(given["joist_lambda"]),
    )
    surfaces = m2k_w(given["Rsi_plus_Rse"])
    thickness = table_thickness_between_and_over(
        w_m2k(given["target_U"]), w_mk(given["lam"]), joists, surfaces
    )
    return float(thickness.m_as("mm"))


def _continuous(given: dict[str, Any]) -> float:
    surfaces = m2k_w(given["Rsi_plus_Rse"])
    return float(continuous_thickness(w_m2k(given["target_U"]), w_mk(given["lam"]), surfaces).m_as("mm"))


ANSWERS = {
    "adl_between_over_thickness_lower_limit": _between_and_over,
    "adl_continuous_thickness": _continuous,
}


@pytest.mark.parametrize("case", cases_in("approved_document_l.csv"), ids=lambda case: case.name)
def test_published_thickness_case(case: Case) -> None:
    case.check(ANSWERS[case.kind](case.inputs))


@pytest.mark.parametrize(
    "row",
    rows_in("approved_document_l_table.csv"),
    ids=lambda row: f"{row['arrangement']}, U {row['u_w_m2k']}, {row['conductivity_w_mk']} W/mK",
)
def test_every_cell_of_the_table_comes_out_within_its_rounding(row: dict[str, str]) -> None:
    target, conductivity = w_m2k(float(row["u_w_m2k"])), w_mk(float(row["conductivity_w_mk"]))
    if row["arrangement"] == "continuous":
        thickness = continuous_thickness(target, conductivity, TABLE_SURFACES)
        room_mm = 0.6
    else:
        thickness = table_thickness_between_and_over(target, conductivity, TABLE_JOISTS, TABLE_SURFACES)
        room_mm = 1.5
    assert thickness.m_as("mm") == pytest.approx(float(row["thickness_mm"]), abs=room_mm), row["source"]
