"""Notches and holes against published cases."""

from __future__ import annotations

import pytest

from estimating.checks.structure.cuts_in_joists import hole_allowed, notch_allowed
from tests.published.structure.cases import Case, cases_in


@pytest.mark.parametrize("case", cases_in("notches.csv"), ids=lambda case: case.name)
def test_published_notch_or_hole(case: Case) -> None:
    given = case.inputs
    joist = {"depth_mm": given["h_mm"], "span_mm": given["span_mm"]}
    place = given["distance_from_support_mm"]
    if case.topic == "notch":
        case.check(notch_allowed(**joist, notch_depth_mm=given["notch_depth_mm"], from_support_mm=place))
        return
    case.check(
        hole_allowed(
            **joist,
            diameter_mm=given["hole_diameter_mm"],
            from_support_mm=place,
            on_neutral_axis=given["on_neutral_axis"],
        )
    )
