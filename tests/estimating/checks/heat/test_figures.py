from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.checks.heat import u_value
from estimating.checks.heat.figures import (
    area_weighted_figure,
    required_over_figure,
    squashed_wool_figure,
    timber_fraction_figure,
    u_value_figure,
)
from estimating.refusals import Refusal
from estimating.working import Figure, Given, Origin, Working, measured
from tests.estimating.checks.heat.ceilings import across, between, ceiling, mm, w_m2k, w_mk

LAYERS = (between(100, fraction=0.1), across(170))
ORIGINS = {
    "plasterboard": Origin.DEFAULT,
    "wool between joists": Origin.MEASURED,
    "wool across joists": Origin.PRICE_BOOK,
}


def known(name: str, value: str, unit: str) -> Figure[Decimal]:
    working = Working("as measured", (measured(name, Decimal(value), unit),), "own definition")
    return Figure(name, Decimal(value), unit, working)


def test_a_u_value_shows_every_number_of_every_layer_and_where_it_came_from() -> None:
    figure = u_value_figure("U-value as proposed", ceiling(*LAYERS), ORIGINS)
    shown = {given.name: given for given in figure.working.inputs}
    assert shown["wool between joists, thickness"] == Given(
        "wool between joists, thickness", Decimal(100), "mm", Origin.MEASURED
    )
    assert shown["wool between joists, share of joists"].value == Decimal("0.1")
    assert shown["wool between joists, conductivity of joists"].value == Decimal("0.13")
    assert shown["wool across joists, conductivity"].value == Decimal("0.044")
    assert shown["wool across joists, conductivity"].origin is Origin.PRICE_BOOK
    assert shown["plasterboard, thickness"].origin is Origin.DEFAULT
    assert "0.20" in str(shown["roof-space convention"].value)


def test_the_figure_is_the_u_value_and_its_limits_can_be_checked_by_hand() -> None:
    figure = u_value_figure("U-value as proposed", ceiling(*LAYERS), ORIGINS)
    limits = [given.value for given in figure.working.inputs if given.name.endswith("limit")]
    assert float(figure.value) == pytest.approx(2 / float(sum(limits)), abs=1e-6)
    assert float(figure.value) == pytest.approx(u_value(ceiling(*LAYERS)).u.m_as("W/m**2/K"), abs=1e-6)
    assert figure.unit == "W/m²K"
    assert "BS EN ISO 6946" in figure.working.source


def test_a_u_value_outside_the_method_says_so_in_its_working() -> None:
    steel = between(200, fraction=0.1, timber_conductivity=50)
    assert "outside the method" in u_value_figure("U-value", ceiling(steel), ORIGINS).working.formula


def test_a_layer_whose_numbers_came_from_nowhere_is_refused() -> None:
    with pytest.raises(Refusal, match="origins: must say where the numbers of wool across joists came from"):
        u_value_figure("U-value", ceiling(across(170)), {"plasterboard": Origin.DEFAULT})


def test_measured_joists_and_unmeasured_ones_say_which_they_are() -> None:
    by_tape = timber_fraction_figure("timber", mm(47), mm(400))
    by_default = timber_fraction_figure("timber")
    assert by_tape.value == by_default.value == Decimal("0.1275")
    assert by_tape.working.inputs[0].origin is Origin.MEASURED
    assert by_default.working.inputs[0].origin is Origin.DEFAULT


def test_squashed_wool_stands_beside_the_test_it_rests_on() -> None:
    figure = squashed_wool_figure("wool squashed", known("wool", "6.11", "m²K/W"), mm(270), mm(100))
    assert figure.value == pytest.approx(Decimal("3.09"), abs=Decimal("0.01"))
    assert "estimate" in figure.working.formula
    assert Decimal("3.09") in [Decimal(str(given.value)) for given in figure.working.inputs]


def test_wool_squashed_beyond_the_tests_says_so() -> None:
    figure = squashed_wool_figure("wool squashed", known("wool", "6.11", "m²K/W"), mm(270), mm(50))
    assert "further than any test" in figure.working.formula


def test_the_thickness_needed_shows_its_target() -> None:
    figure = required_over_figure("wool to add", ceiling(LAYERS[0]), ORIGINS, w_mk(0.044), w_m2k(0.16))
    assert figure.unit == "mm"
    assert Given("target", Decimal("0.16"), "W/m²K", Origin.CHOSEN) in figure.working.inputs


def test_the_whole_ceiling_shows_every_part() -> None:
    deck = known("deck", "44.6", "m²"), known("U under the deck", "0.16", "W/m²K")
    hatch = known("hatch", "0.4", "m²"), known("U of the hatch", "1.5", "W/m²K")
    figure = area_weighted_figure("U of the whole ceiling", [deck, hatch])
    assert figure.value == Decimal("0.171911")
    assert [given.origin for given in figure.working.inputs] == [Origin.WORKED_OUT] * 4
