"""U-values of the loft's own ceiling, against the trade's figures and the combined method's limits."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.warmth.ceiling import (
    Insulation,
    ceiling_u_value,
    meets,
    squashed_u_value,
    timber_fraction,
    to_two_figures,
)
from estimating.survey import JoistField, evenly_spaced
from tests.estimating.lofts import trussed_loft

WOOL = Decimal("0.044")


def joists(width: int, centres: int, depth: int = 100) -> JoistField:
    field = trussed_loft().joist_fields[0]
    lines = evenly_spaced(first_mm=0, centres_mm=centres, count=10)
    return replace(field, centre_lines_mm=lines, width_mm=width, depth_mm=depth)


def wool(between: int, across: int) -> tuple[Insulation, ...]:
    return (Insulation("wool", between, WOOL, across=False), Insulation("wool", across, WOOL, across=True))


@pytest.mark.parametrize(
    ("width", "centres", "fraction", "source"),
    [(47, 400, "0.1275", "BR 443 (2019) 4.5.1"), (35, 600, "0.0683", "BR 443 (2019) 4.5, printed 0.068")],
)
def test_timber_fraction(width: int, centres: int, fraction: str, source: str) -> None:
    assert timber_fraction(joists(width, centres)) == Decimal(fraction), source


@pytest.mark.parametrize(("between", "across", "u_value"), [(100, 0, "0.4430"), (100, 200, "0.1455")])
def test_the_ceiling_agrees_with_the_combined_method(between: int, across: int, u_value: str) -> None:
    """Joists 47 at 400, 12.5 mm board, wool 0.044: recomputed by ISO 6946, checked against TGD L 2022 A3."""
    layers = wool(between, across)[: 2 if across else 1]
    assert ceiling_u_value(trussed_loft(), joists(47, 400), layers).value == Decimal(u_value)


def test_270_mm_of_mineral_wool_between_and_across_is_0_16() -> None:
    """The trade's figure; joists 35 at 600."""
    u_value = ceiling_u_value(trussed_loft(), joists(35, 600), wool(100, 170)).value
    assert to_two_figures(u_value) == Decimal("0.16")
    assert meets(u_value, Decimal("0.16"))


def test_battens_cost_heat_that_pedestals_do_not() -> None:
    """Joists crossed by battens, four paths: 0.1831 by own computation of the combined method."""
    field = joists(47, 600)
    plain = ceiling_u_value(trussed_loft(), field, wool(100, 150)).value
    crossed = ceiling_u_value(trussed_loft(), field, wool(100, 150), batten_fraction=Decimal("0.0783")).value
    assert crossed == Decimal("0.1831")
    assert plain < crossed


@settings(max_examples=40, deadline=None)
@given(st.integers(1, 100), st.integers(0, 400), st.integers(1, 100))
def test_more_insulation_never_loses_more_heat(between: int, across: int, more: int) -> None:
    field = joists(47, 400)
    thin = ceiling_u_value(trussed_loft(), field, wool(between, across)).value
    assert ceiling_u_value(trussed_loft(), field, wool(between, across + more)).value <= thin


@settings(max_examples=40, deadline=None)
@given(st.integers(101, 400))
def test_squashing_always_costs_heat(thickness: int) -> None:
    field, lying = joists(35, 600), (Insulation("wool", thickness, WOOL, across=False),)
    squashed = squashed_u_value(trussed_loft(), field, lying).value
    assert squashed > ceiling_u_value(trussed_loft(), field, lying).value


def test_squashing_to_joist_level_costs_half_or_more() -> None:
    """NPL, read second hand: 270 mm squashed to 100 mm keeps 3.09 of 6.11 m²K/W."""
    field, lying = joists(1, 600), wool(100, 170)
    whole = 1 / ceiling_u_value(trussed_loft(), field, lying).value
    squashed = 1 / squashed_u_value(trussed_loft(), field, lying).value
    assert squashed <= Decimal("0.55") * whole


@pytest.mark.parametrize(
    ("u_value", "reported"), [("0.1649", "0.16"), ("0.1650", "0.17"), ("1.449", "1.4"), ("0.0996", "0.10")]
)
def test_u_values_are_reported_to_two_figures(u_value: str, reported: str) -> None:
    """BS EN ISO 6946:2017 6.5.2."""
    assert to_two_figures(Decimal(u_value)) == Decimal(reported)
    assert meets(Decimal("0.1649"), Decimal("0.16"))
    assert not meets(Decimal("0.1650"), Decimal("0.16"))


def test_the_inputs_of_a_u_value_are_enough_to_work_it_out_again() -> None:
    inputs = {
        each.name: each.value for each in ceiling_u_value(trussed_loft(), joists(35, 600), ()).working.inputs
    }
    surfaces = sum(float(inputs[name]) for name in ("inside surface", "roof space", "outside surface"))
    board = float(inputs["plasterboard"]) / 1000 / float(inputs["plasterboard conductivity"])
    bare = trussed_loft()
    assert ceiling_u_value(bare, joists(35, 600), ()).value == round(Decimal(1 / (surfaces + board)), 4)
