"""Lifting figures against published cases."""

from __future__ import annotations

import pytest

from estimating.checks.access.lifting import lifting_figure_kg
from estimating.published.manual_handling import Lifter, LiftZone, Reach
from tests.published.structure.cases import Case, cases_in


@pytest.mark.parametrize("case", cases_in("handling.csv"), ids=lambda case: case.name)
def test_published_lift(case: Case) -> None:
    given = case.inputs
    case.check(
        lifting_figure_kg(
            LiftZone(given["zone"].replace("-", " to ")),
            {"m": Lifter.MAN, "f": Lifter.WOMAN}[given["sex"]],
            Reach(given["reach"]),
            twist_degrees=given["twist_deg"],
            lifts_a_minute=given["lifts_per_min"],
        )
    )
