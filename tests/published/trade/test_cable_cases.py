"""Cables in insulation against published cases; the source of each stands in its row."""

from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.checks.cables import cable_rating_a, covered_cable_a, insulation_factor, load_current_a
from tests.published.trade.cases import Case, cases_in


@pytest.mark.parametrize("case", cases_in("cables.csv"), ids=lambda case: case.name)
def test_published_cable_case(case: Case) -> None:
    given, expected = case.inputs, case.expected
    if case.kind == "ci":
        assert insulation_factor(given["length_mm"]) == Decimal(expected["ci"]), case.source
        return
    if case.kind == "load_current":
        amps = load_current_a(Decimal(given["watts"]), Decimal(given["volts"]))
        assert abs(amps - Decimal(expected["amps"])) <= case.tolerance, case.source
        return
    size = Decimal(given["csa_mm2"])
    if case.kind == "te_rating":
        assert cable_rating_a(size, given["method"]) == Decimal(str(expected["amps"])), case.source
        return
    carries = covered_cable_a(size, given["length_mm"], given["base_method"])
    assert abs(carries - Decimal(expected["iz_A"])) <= case.tolerance, case.source
    assert (carries >= given["protective_device_A"]) is expected["ok"], case.source
