"""U-values against published cases; the source of each stands in its row."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from estimating.checks.heat import (
    BridgedLayer,
    Ceiling,
    Layer,
    Resistance,
    area_weighted_u,
    reported_u,
    required_over_thickness,
    u_value,
)
from estimating.published.surface_resistances import RoofSpaceConvention
from tests.published.thermal.cases import Case, cases_in, m2, m2k_w, mm, w_m2k, w_mk

Inputs = dict[str, Any]


def _ceiling(given: Inputs, *above_plasterboard: Layer | BridgedLayer) -> Ceiling:
    plasterboard = Layer("plasterboard", mm(given["plasterboard_mm"]), w_mk(given["plasterboard_lambda"]))
    convention = RoofSpaceConvention(
        name="as the case says",
        roof_space_m2k_w=given["roof_space_R"],
        outside_surface_m2k_w=given["Rse"],
        source="the case",
    )
    return Ceiling((plasterboard, *above_plasterboard), convention, m2k_w(given["Rsi"]))


def _between(given: Inputs) -> BridgedLayer:
    return BridgedLayer(
        "wool between joists",
        mm(given["between_mm"]),
        w_mk(given["between_lambda"]),
        w_mk(given.get("joist_lambda", 0.13)),
        given.get("joist_fraction", given.get("f")),
    )


def _joists_and_over(given: Inputs) -> Ceiling:
    over = Layer("wool over joists", mm(given["over_mm"]), w_mk(given["over_lambda"]))
    return _ceiling(given, _between(given), over)


def _combined(given: Inputs) -> tuple[float, ...]:
    return (u_value(_joists_and_over(given)).u.m_as("W/m**2/K"),)


def _limits(given: Inputs) -> tuple[float, ...]:
    result = u_value(_joists_and_over(given))
    return result.upper.m_as("m**2*K/W"), result.lower.m_as("m**2*K/W")


def _two_bridged(given: Inputs) -> tuple[float, ...]:
    joists, battens = (
        BridgedLayer(timber, mm(each["mm"]), w_mk(each["lam"]), w_mk(each["timber"]), each["f"], timber)
        for timber, each in (("joists", given["layer1"]), ("battens", given["layer2"]))
    )
    return (u_value(_ceiling(given, joists, battens)).u.m_as("W/m**2/K"),)


def _area_weighted(given: Inputs) -> tuple[float, ...]:
    return (area_weighted_u((m2(part["A"]), w_m2k(part["U"])) for part in given["parts"]).m_as("W/m**2/K"),)


def _required_over(given: Inputs) -> tuple[float, ...]:
    bare = _ceiling(given, _between(given))
    return (required_over_thickness(bare, w_mk(given["over_lambda"]), w_m2k(given["target_U"])).m_as("mm"),)


def _reported(given: Inputs) -> tuple[float, ...]:
    return (float(reported_u(w_m2k(given["U"]))),)


ANSWERS = {
    "U_combined": _combined,
    "R_upper_lower": _limits,
    "U_two_bridged_layers": _two_bridged,
    "area_weighted_U": _area_weighted,
    "required_over_mm": _required_over,
    "report_2sf": _reported,
}


@pytest.mark.parametrize("case", cases_in("u_values.csv"), ids=lambda case: case.name)
def test_published_u_value_case(case: Case) -> None:
    case.check(*ANSWERS[case.kind](case.inputs))


def test_a_stud_wall_comes_out_as_the_irish_guidance_prints_it() -> None:
    """TGD L 2011 Appendix A Example A2, pages 37-38: 5.028 and 4.621 printed, 0.21; the method only."""
    outside = RoofSpaceConvention(
        name="outer leaf", roof_space_m2k_w=0.0, outside_surface_m2k_w=0.04, source="TGD L 2011 Example A2"
    )
    layers = (
        Layer("plasterboard", mm(13), w_mk(0.25)),
        BridgedLayer("rigid board between studs", mm(150), w_mk(0.023), w_mk(0.12), 0.15, "studs"),
        Layer("plywood", mm(12), w_mk(0.13)),
        Resistance("cavity", m2k_w(0.18)),
        Layer("brick", mm(102), w_mk(0.77)),
    )
    result = u_value(Ceiling(layers, outside, m2k_w(0.13)))
    assert result.upper.m_as("m**2*K/W") == pytest.approx(5.0294, abs=0.0005)
    assert result.lower.m_as("m**2*K/W") == pytest.approx(4.6214, abs=0.0005)
    assert reported_u(result.u) == Decimal("0.21")
