"""Trussed rafters and the least hatch against published cases."""

from __future__ import annotations

from typing import Any

import pytest

from estimating.checks.structure.truss_figures import (
    reduced_bay_mm,
    storage_on_bay_kn,
    tank_node_load_kn,
    tank_within_limit,
    tie_bay_mm,
    truss_rise_mm,
    widest_opening_mm,
    width_between_webs_mm,
)
from estimating.published.access import opening_is_large_enough
from tests.published.structure.cases import Case, cases_in


def _of_truss(given: dict[str, Any]) -> tuple[float, float]:
    return given["span_mm"], given["pitch_deg"]


ANSWERS = {
    "w_max_mm": lambda given: widest_opening_mm(given["a_mm"], given["t_mm"]),
    "b_mm": lambda given: reduced_bay_mm(given["a_mm"], given["t_mm"], given["w_mm"]),
    "bay_mm": lambda given: tie_bay_mm(given["span_mm"]),
    "rise_mm": lambda given: truss_rise_mm(*_of_truss(given)),
    "clear_width_between_inner_webs_mm": lambda given: width_between_webs_mm(
        *_of_truss(given), given["height_above_tie_mm"]
    ),
    "storage_load_per_bay_per_truss_kN": lambda given: storage_on_bay_kn(
        given["q_kN_m2"], given["centres_mm"], given["span_mm"]
    ),
    "node_load_kN": lambda given: tank_node_load_kn(given["litres"], given["trusses"]),
    "within_0.45_kN": lambda given: tank_within_limit(given["litres"], given["trusses"]),
    "meets_520_each_way": lambda given: opening_is_large_enough(given["length_mm"], given["width_mm"]),
}


@pytest.mark.parametrize("case", cases_in("trusses.csv"), ids=lambda case: case.name)
def test_published_truss_case(case: Case) -> None:
    case.check(ANSWERS[case.quantity](case.inputs))
