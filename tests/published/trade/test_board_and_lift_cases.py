"""Boards, lifts and the weather against published cases; the source of each stands in its row."""

from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.checks.access.lifting import lifting_figure_kg
from estimating.checks.structure.panels import board_weight_kg
from estimating.published.manual_handling import Lifter, LiftZone, Reach
from estimating.published.sap_climate import climate_region
from tests.published.trade.cases import Case, cases_in

LEAST_KG_M3, MOST_KG_M3 = 650, 700
"""P5 chipboard, from memory."""


@pytest.mark.parametrize("case", cases_in("boards_and_lifts.csv"), ids=lambda case: case.name)
def test_published_case(case: Case) -> None:
    given, expected = case.inputs, case.expected
    if case.kind == "sap_u1":
        means = climate_region(given["region"]).monthly_means_c
        assert means[given["month"] - 1] == expected["deg_c"], case.source
    elif case.kind == "lift_filter":
        lifter = Lifter.MAN if given["sex"] == "any male" else Lifter.WOMAN
        figure = lifting_figure_kg(LiftZone.KNUCKLE_TO_ELBOW, lifter, Reach.CLOSE)
        assert figure == expected["kg"], case.source
    else:
        sides = given["l_mm"], given["w_mm"], given["t_mm"]
        assert Decimal(given["l_mm"] * given["w_mm"]) / 10**6 == Decimal(expected["area_m2"]), case.source
        weights = [board_weight_kg(*sides, density) for density in (LEAST_KG_M3, MOST_KG_M3)]
        assert weights == pytest.approx(expected["kg_range"], abs=float(case.tolerance)), case.source
