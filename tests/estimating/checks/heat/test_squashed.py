from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.heat import squashed_wool, timber_fraction, u_value
from estimating.checks.heat.resistance import slab
from estimating.refusals import Refusal
from tests.estimating.checks.heat.ceilings import WOOL, across, between, ceiling, m2k_w, mm


def test_squashing_270_mm_to_joist_level_costs_half_or_more() -> None:
    """Common practice. The wool itself loses 49 % (NPL: 49.4 %), and the joists then bridge all of it."""
    wool = squashed_wool(m2k_w(0.270 / WOOL), mm(270), mm(100))
    as_laid = u_value(ceiling(between(100), across(170)))
    left_w_mk = 0.100 / wool.R.m_as("m**2*K/W")
    squashed = u_value(ceiling(between(100, conductivity=left_w_mk)))
    assert wool.share_lost == pytest.approx(0.494, abs=0.001)
    assert squashed.total_resistance <= as_laid.total_resistance / 2


@given(st.floats(0.5, 10), st.integers(50, 400), st.floats(0.05, 1), st.floats(0.05, 1))
@settings(max_examples=50)
def test_squashing_further_never_keeps_more(r: float, thickness: int, share: float, other: float) -> None:
    harder, softer = sorted((share, other))
    hard = squashed_wool(m2k_w(r), mm(thickness), mm(thickness * harder))
    soft = squashed_wool(m2k_w(r), mm(thickness), mm(thickness * softer))
    assert hard.R <= soft.R * (1 + 1e-12)
    assert 0 <= soft.share_lost <= hard.share_lost + 1e-12 < 1


@given(st.integers(50, 400), st.floats(0.05, 0.99))
@settings(max_examples=30)
def test_squashed_wool_conducts_less_than_before(thickness: int, share: float) -> None:
    """So that it keeps more than its thickness alone would say."""
    full = slab(thickness, WOOL).resistance_m2k_w
    left = squashed_wool(m2k_w(full), mm(thickness), mm(thickness * share))
    assert left.R.m_as("m**2*K/W") > slab(thickness * share, WOOL).resistance_m2k_w


def test_wool_not_squashed_loses_nothing() -> None:
    assert squashed_wool(m2k_w(6.11), mm(270), mm(270)).share_lost == 0


def test_squashing_beyond_the_tests_is_flagged() -> None:
    assert squashed_wool(m2k_w(6.11), mm(270), mm(81)).is_within_tests
    assert not squashed_wool(m2k_w(6.11), mm(270), mm(75)).is_within_tests


def test_wool_cannot_be_stretched() -> None:
    with pytest.raises(Refusal, match="squashed_to: must not be more than the full thickness"):
        squashed_wool(m2k_w(6.11), mm(270), mm(271))


def test_joists_nobody_measured_take_the_published_share() -> None:
    assert timber_fraction() == 0.1275


@pytest.mark.parametrize(
    ("width", "spacing", "words"),
    [
        (mm(47), None, "spacing: must be measured when the other one is"),
        (None, mm(400), "width: must be measured when the other one is"),
        (mm(0), mm(400), "width: must be more than 0 mm"),
        (mm(47), mm(0), "spacing: must be more than 0 mm"),
        (mm(400), mm(400), "width: must be less than the spacing"),
    ],
)
def test_joists_that_cannot_be_are_refused(width, spacing, words: str) -> None:
    with pytest.raises(Refusal) as refused:
        timber_fraction(width, spacing)
    assert str(refused.value) == words
