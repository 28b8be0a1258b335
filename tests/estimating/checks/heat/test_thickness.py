from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.heat import (
    BridgingJoists,
    continuous_thickness,
    required_over_thickness,
    table_thickness_between_and_over,
    u_value,
)
from estimating.refusals import Refusal
from tests.estimating.checks.heat.ceilings import across, between, ceiling, m2k_w, mm, w_m2k, w_mk


@given(st.floats(0.08, 0.5), st.floats(0.02, 0.05), st.integers(50, 250), st.floats(0, 0.3))
@settings(max_examples=40)
def test_the_thickness_solved_for_just_meets_the_target(
    target: float, conductivity: float, joist_depth: int, fraction: float
) -> None:
    bare = between(joist_depth, fraction=fraction)
    over_mm = required_over_thickness(ceiling(bare), w_mk(conductivity), w_m2k(target)).m_as("mm")
    u = u_value(ceiling(bare, across(over_mm, conductivity))).u.m_as("W/m**2/K")
    assert u <= target * (1 + 1e-9)
    assert over_mm == 0 or u == pytest.approx(target)


def test_nothing_is_added_where_the_target_is_met_already() -> None:
    assert required_over_thickness(ceiling(across(300)), w_mk(0.044), w_m2k(0.16)).m_as("mm") == 0


@given(st.floats(0.1, 0.4), st.floats(0.02, 0.05))
@settings(max_examples=30)
def test_joists_that_take_no_area_leave_a_continuous_layer(target: float, conductivity: float) -> None:
    joists = BridgingJoists(depth=mm(100), timber_fraction=0, timber_conductivity=w_mk(0.13))
    asked = w_m2k(target), w_mk(conductivity)
    table = table_thickness_between_and_over(*asked, joists, m2k_w(0.14))
    assert table.m_as("mm") == pytest.approx(continuous_thickness(*asked, m2k_w(0.14)).m_as("mm"))


@pytest.mark.parametrize("target", [0, -0.16])
def test_a_target_that_cannot_be_is_refused(target: float) -> None:
    with pytest.raises(Refusal, match="target: must be more than 0 W/m²K"):
        required_over_thickness(ceiling(), w_mk(0.044), w_m2k(target))
    with pytest.raises(Refusal, match="target: must be more than 0 W/m²K"):
        continuous_thickness(w_m2k(target), w_mk(0.044), m2k_w(0.14))


def test_wool_that_conducts_nothing_is_refused() -> None:
    with pytest.raises(Refusal, match="conductivity: must be more than 0 W/mK"):
        required_over_thickness(ceiling(), w_mk(0), w_m2k(0.16))
