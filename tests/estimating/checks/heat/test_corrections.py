from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.amounts import registry
from estimating.checks.heat import AirGaps, Fixings, air_gap_correction, corrected_u, fixing_correction
from estimating.refusals import Refusal
from tests.estimating.checks.heat.ceilings import m2k_w, mm, w_m2k, w_mk


def fixings(*, conductivity: float = 50, length_mm: float = 100, depth_mm: float = 100) -> Fixings:
    quantity = registry().Quantity
    return Fixings(
        conductivity=w_mk(conductivity),
        cross_section=quantity(12.5, "mm**2"),
        number_per_area=quantity(2.5, "1/m**2"),
        length=mm(length_mm),
        depth=mm(depth_mm),
    )


def corrected(u: float, *added: float) -> float:
    return float(corrected_u(w_m2k(u), [w_m2k(each) for each in added]).m_as("W/m**2/K"))


def test_corrections_under_three_per_cent_together_are_left_out() -> None:
    assert corrected(0.2, 0.0059) == 0.2
    assert corrected(0.2, 0.003, 0.0029) == 0.2


def test_corrections_of_three_per_cent_together_count_in_full() -> None:
    assert corrected(0.2, 0.0061) == pytest.approx(0.2061)
    assert corrected(0.2, 0.003, 0.0031) == pytest.approx(0.2061)


@given(st.floats(0.05, 3), st.lists(st.floats(0, 0.2), max_size=3))
def test_corrections_never_make_a_ceiling_better(u: float, added: list[float]) -> None:
    assert corrected(u, *added) >= u


def test_plastic_pedestals_need_no_correction() -> None:
    added = fixing_correction(fixings(conductivity=0.25), m2k_w(2.5), m2k_w(3))
    assert added.m_as("W/m**2/K") == 0


def test_a_fixing_half_way_through_counts_like_one_right_through() -> None:
    """0.8 × length / depth, over the length: the length itself cancels out, as formula F.5 has it."""
    through = fixing_correction(fixings(), m2k_w(2.5), m2k_w(3))
    half = fixing_correction(fixings(length_mm=50), m2k_w(2.5), m2k_w(3))
    assert half.m_as("W/m**2/K") == pytest.approx(through.m_as("W/m**2/K"))


def test_two_layers_of_insulation_have_no_air_gaps() -> None:
    assert air_gap_correction(AirGaps.NONE, m2k_w(6.25), m2k_w(6.642)).m_as("W/m**2/K") == 0


def test_more_gaps_let_more_heat_through() -> None:
    added = [air_gap_correction(level, m2k_w(6.25), m2k_w(6.642)) for level in AirGaps]
    assert added == sorted(added)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (
            lambda: air_gap_correction(AirGaps.SOME, m2k_w(7), m2k_w(6)),
            "layer: must not resist more than the whole ceiling",
        ),
        (
            lambda: fixing_correction(fixings(length_mm=120), m2k_w(2.5), m2k_w(3)),
            "fixings.length: must not be more than the depth of the insulation",
        ),
        (
            lambda: fixing_correction(fixings(length_mm=0), m2k_w(2.5), m2k_w(3)),
            "fixings.length: must be more than 0 mm",
        ),
        (
            lambda: fixing_correction(fixings(conductivity=0), m2k_w(2.5), m2k_w(3)),
            "fixings.conductivity: must be more than 0 W/mK",
        ),
        (lambda: corrected(0), "u: must be more than 0 W/m²K"),
        (lambda: corrected(0.2, -0.1), "corrections: must not be less than 0 W/m²K"),
    ],
)
def test_corrections_that_cannot_be_are_refused(make, words: str) -> None:
    with pytest.raises(Refusal) as refused:
        make()
    assert str(refused.value) == words
