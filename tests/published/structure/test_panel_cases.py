"""Boards on supports against published cases."""

from __future__ import annotations

from typing import Any

import pytest

from estimating.checks.structure.design_strength import design_strength_n_mm2
from estimating.checks.structure.panels import (
    board_weight_kg,
    least_fixing_mm,
    spans_two_bays,
    strip_use,
    wall_gap_mm,
)
from estimating.design.zones import perimeter_gap_mm
from estimating.published.eurocode_5 import Duration, Material
from estimating.published.panel_centres import CHIPBOARD, greatest_centres_mm
from estimating.published.panel_strengths import p5_bending_n_mm2
from tests.published.structure.cases import Case, cases_in


def _allowed_by_table(given: dict[str, Any]) -> bool:
    material = CHIPBOARD if given["board"] == "P5" else given["board"]
    greatest = greatest_centres_mm(given["t_mm"], material)
    return greatest is not None and greatest >= given["support_centres_mm"]


ANSWERS = {
    "allowed_by_table": _allowed_by_table,
    "perimeter_gap_mm": lambda given: wall_gap_mm(given["deck_run_m"] * 1000),
    "min_nail_length_mm": lambda given: least_fixing_mm(given["t_mm"]),
    "meets_two_spacing_rule": lambda given: spans_two_bays(
        given["board_length_mm"], given["support_centres_mm"]
    ),
    "mass_kg": lambda given: board_weight_kg(
        given["length_mm"], given["width_mm"], given["t_mm"], given["density_kg_m3"]
    ),
    "bending_utilisation": lambda given: strip_use(
        given["P_N"],
        given["support_centres_mm"],
        thickness_mm=given["t_mm"],
        effective_width_mm=given["effective_width_mm"],
        service_class=given["service_class"],
    ),
    "f_m_d": lambda given: design_strength_n_mm2(
        p5_bending_n_mm2(given["t_mm"]),
        Material.P5,
        Duration(given["duration"]),
        service_class=given["service_class"],
    ),
}


@pytest.mark.parametrize("case", cases_in("panels.csv"), ids=lambda case: case.name)
def test_published_panel_case(case: Case) -> None:
    case.check(ANSWERS[case.quantity](case.inputs))


@pytest.mark.parametrize("run_mm", [900, 5000, 6800, 7250, 12_340])
def test_the_deck_is_set_out_to_the_gap_of_the_rule_or_less_than_a_millimetre_more(run_mm: int) -> None:
    deck = ((0, 0), (run_mm, 0), (run_mm, 800), (0, 800))
    assert 0 <= perimeter_gap_mm(deck) - wall_gap_mm(run_mm) < 1
