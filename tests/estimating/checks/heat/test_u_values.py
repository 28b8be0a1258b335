from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.amounts import registry
from estimating.checks.heat import (
    BridgedLayer,
    Ceiling,
    Layer,
    Resistance,
    UValue,
    area_weighted_u,
    reported_u,
    u_value,
)
from estimating.checks.heat.u_values import to_two_figures
from estimating.published.surface_resistances import VENTILATED_LOFT
from estimating.refusals import Refusal
from tests.estimating.checks.heat.ceilings import (
    across,
    between,
    ceiling,
    m2k_w,
    mm,
    plasterboard,
    w_m2k,
    w_mk,
)

depths = st.integers(1, 600)
fractions = st.floats(0, 1)
conductivities = st.floats(0.02, 0.2)


def plain_u(result: UValue) -> float:
    return float(result.u.m_as("W/m**2/K"))


def total(result: UValue) -> float:
    return float(result.total_resistance.m_as("m**2*K/W"))


def test_270_mm_of_mineral_wool_gives_u_0_16() -> None:
    """Common practice: 100 mm between joists and 170 mm across them, 0.044 W/mK."""
    assert reported_u(u_value(ceiling(between(100), across(170))).u) == Decimal("0.16")


@given(depths, depths, depths, fractions)
@settings(max_examples=50)
def test_more_insulation_never_lets_more_heat_through(
    joist_depth: int, over: int, more: int, fraction: float
) -> None:
    thin = u_value(ceiling(between(joist_depth, fraction=fraction), across(over)))
    thick = u_value(ceiling(between(joist_depth, fraction=fraction), across(over + more)))
    assert plain_u(thick) < plain_u(thin)


@given(depths, st.tuples(fractions, fractions), conductivities, conductivities)
@settings(max_examples=50)
def test_the_upper_limit_is_never_below_the_lower(
    depth: int, shares: tuple[float, float], wool: float, timber: float
) -> None:
    joists, battens = shares
    result = u_value(
        ceiling(
            between(depth, fraction=joists, conductivity=wool, timber_conductivity=timber),
            between(150, fraction=battens, conductivity=wool, timber="battens"),
        )
    )
    assert result.ratio_of_limits >= 1 - 1e-12
    assert result.lower.m_as("m**2*K/W") <= total(result) * (1 + 1e-12)


@given(depths, depths, fractions, fractions)
@settings(max_examples=50)
def test_more_timber_never_lets_less_heat_through(
    depth: int, over: int, fraction: float, other: float
) -> None:
    less, more = sorted((fraction, other))
    open_ceiling = u_value(ceiling(between(depth, fraction=less), across(over)))
    timbered = u_value(ceiling(between(depth, fraction=more), across(over)))
    assert plain_u(timbered) >= plain_u(open_ceiling) * (1 - 1e-12)


@given(depths, fractions, conductivities)
@settings(max_examples=30)
def test_timber_that_conducts_like_the_wool_bridges_nothing(
    depth: int, fraction: float, conductivity: float
) -> None:
    bridged = between(depth, fraction=fraction, conductivity=conductivity, timber_conductivity=conductivity)
    assert plain_u(u_value(ceiling(bridged))) == pytest.approx(
        plain_u(u_value(ceiling(across(depth, conductivity))))
    )


@given(depths, depths, fractions)
@settings(max_examples=30)
def test_wool_laid_between_the_same_joists_in_two_layers_counts_like_one(
    first: int, second: int, fraction: float
) -> None:
    one = u_value(ceiling(between(first + second, fraction=fraction)))
    two = u_value(ceiling(between(first, fraction=fraction), between(second, fraction=fraction)))
    assert total(two) == pytest.approx(total(one))


def test_battens_across_joists_are_other_timbers_than_the_joists() -> None:
    """Along one path heat meets either a batten or none, whatever it met between the joists."""
    crossing = u_value(ceiling(between(100, fraction=0.1), between(100, fraction=0.1, timber="battens")))
    in_line = u_value(ceiling(between(100, fraction=0.1), between(100, fraction=0.1)))
    assert crossing.upper > in_line.upper
    assert crossing.lower.m_as("m**2*K/W") == pytest.approx(in_line.lower.m_as("m**2*K/W"))


@given(st.permutations((plasterboard(), between(100), across(170), Resistance("air", m2k_w(0.16)))))
@settings(max_examples=24)
def test_the_order_of_layers_changes_nothing(layers: list[Layer | BridgedLayer | Resistance]) -> None:
    inside_out = Ceiling((plasterboard(), between(100), across(170), Resistance("air", m2k_w(0.16))))
    assert plain_u(u_value(Ceiling(tuple(layers)))) == pytest.approx(plain_u(u_value(inside_out)))


def test_inches_and_millimetres_give_one_answer() -> None:
    inches = Layer("wool across joists", registry().Quantity(4, "inch"), w_mk(0.044))
    assert plain_u(u_value(ceiling(inches))) == pytest.approx(plain_u(u_value(ceiling(across(101.6)))))


def test_a_layer_of_no_thickness_changes_nothing() -> None:
    assert plain_u(u_value(ceiling(across(170), between(0)))) == plain_u(u_value(ceiling(across(170))))


def test_the_roof_space_convention_is_told_beside_the_result() -> None:
    counted = u_value(ceiling(across(270)))
    ventilated = u_value(Ceiling((plasterboard(), across(270)), VENTILATED_LOFT))
    assert "0.20" in counted.convention
    assert "ventilated" in ventilated.convention
    assert total(counted) - total(ventilated) == pytest.approx(0.20 + 0.04 - 0.10)


def test_limits_too_far_apart_are_flagged() -> None:
    steel = between(200, fraction=0.1, timber_conductivity=50)
    assert u_value(ceiling(between(100), across(170))).is_valid
    assert not u_value(ceiling(steel)).is_valid


@pytest.mark.parametrize(
    ("exact", "reported"),
    [
        ("0.157993", "0.16"),
        ("0.165", "0.17"),
        ("0.1649999", "0.16"),
        ("0.0996", "0.10"),
        ("0.995", "1.0"),
        ("2.25", "2.3"),
    ],
)
def test_u_values_are_reported_to_two_figures_half_up(exact: str, reported: str) -> None:
    assert str(to_two_figures(Decimal(exact))) == reported
    assert str(reported_u(w_m2k(float(exact)))) == reported


@given(st.lists(st.tuples(st.floats(0.1, 100), st.floats(0.1, 3)), min_size=1, max_size=5))
@settings(max_examples=30)
def test_the_whole_ceiling_lies_between_its_best_and_worst_parts(parts: list[tuple[float, float]]) -> None:
    square_metre = registry().Quantity(1, "m**2")
    whole = area_weighted_u((area * square_metre, w_m2k(u)) for area, u in parts).m_as("W/m**2/K")
    values = [u for _, u in parts]
    assert min(values) * (1 - 1e-12) <= whole <= max(values) * (1 + 1e-12)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: across(-1), "thickness: must not be less than 0 mm"),
        (lambda: across(100, 0), "conductivity: must be more than 0 W/mK"),
        (lambda: across(float("nan")), "thickness: must be a number of mm"),
        (
            lambda: Layer("wool", 100, w_mk(0.044)),
            "thickness: must be given in mm or a unit of the same kind",
        ),
        (lambda: Layer("wool", w_mk(0.044), mm(100)), "thickness: must be given in mm"),
        (lambda: between(100, fraction=1.01), "timber_fraction: must be from 0 to 1"),
        (lambda: between(100, fraction=-0.01), "timber_fraction: must be from 0 to 1"),
        (lambda: between(100, timber_conductivity=0), "timber_conductivity: must be more than 0 W/mK"),
        (lambda: between(100, timber=""), "timber: must name the timbers"),
        (lambda: Resistance("air", m2k_w(-0.1)), "R: must not be less than 0 m²K/W"),
        (
            lambda: u_value(ceiling(between(100, fraction=0.1), between(50, fraction=0.2))),
            "timber_fraction: must be the same in every layer that the joists cross",
        ),
        (
            lambda: u_value(
                ceiling(*(between(50, timber=name) for name in ("joists", "battens", "rafters")))
            ),
            "layers: must be crossed by two sets of timbers at most",
        ),
        (lambda: area_weighted_u([]), "parts: must have some area together"),
        (lambda: reported_u(w_m2k(0)), "u: must be more than 0 W/m²K"),
    ],
)
def test_a_ceiling_that_cannot_be_is_refused_by_field(make, words: str) -> None:
    with pytest.raises(Refusal) as refused:
        make()
    assert words in str(refused.value)
