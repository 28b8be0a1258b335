"""The deck proposed for a loft: clear of what stands there, under headroom, and reached from the hatch."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.access.proposed_deck import proposed_deck
from estimating.plane import area_mm2, bounds, overlap_area_mm2
from estimating.survey import Polygon
from tests.estimating.lofts import rectangle

LOFT = rectangle(0, 0, 9000, 7200)
HATCH = rectangle(3335, 3200, 3865, 3900)
L_SHAPE = ((0, 0), (11000, 0), (11000, 6000), (5000, 6000), (5000, 11000), (0, 11000))


def test_an_empty_loft_is_decked_wall_to_wall_under_the_headroom() -> None:
    assert proposed_deck(LOFT, HATCH, ()) == LOFT
    assert proposed_deck(LOFT, HATCH, (), (1781, 5419)) == rectangle(0, 1781, 9000, 5419)


def test_it_keeps_clear_of_a_tank_on_the_side_of_the_hatch() -> None:
    tank = rectangle(6000, 2000, 7000, 4500)
    assert proposed_deck(LOFT, HATCH, (tank,), (1781, 5419)) == rectangle(0, 1781, 6000, 5419)


def test_it_lies_in_the_arm_of_an_l_shape_that_the_hatch_is_in() -> None:
    assert proposed_deck(L_SHAPE, rectangle(3600, 2800, 4200, 3500), ()) == rectangle(0, 0, 11000, 6000)
    wing = proposed_deck(L_SHAPE, rectangle(2000, 9000, 2700, 9600), ())
    assert wing == rectangle(0, 0, 5000, 11000)


def test_there_is_none_where_no_headroom_reaches_the_hatch() -> None:
    at_the_eaves = rectangle(3335, 200, 3865, 900)
    assert proposed_deck(LOFT, at_the_eaves, (), (1781, 5419)) is None
    anywhere = proposed_deck(LOFT, at_the_eaves, (), (1781, 5419), from_hatch=False)
    assert anywhere == rectangle(0, 1781, 9000, 5419)
    assert proposed_deck(LOFT, HATCH, (), (3600, 3600)) is None


boxes = st.builds(
    lambda x, y, w, d: rectangle(x, y, min(9000, x + w), min(7200, y + d)),
    st.integers(0, 8000),
    st.integers(0, 6000),
    st.integers(100, 2500),
    st.integers(100, 2500),
)


@given(st.lists(boxes, max_size=4))
@settings(max_examples=25)
def test_whatever_stands_there_it_is_clear_of_it_and_one_more_thing_never_makes_it_larger(
    keep_outs: list[Polygon],
) -> None:
    found = proposed_deck(LOFT, HATCH, keep_outs)
    if found is None:
        return
    assert not any(overlap_area_mm2(found, each) for each in keep_outs)
    assert overlap_area_mm2(found, LOFT) == area_mm2(found)
    left, low, right, high = bounds(found)
    assert overlap_area_mm2(rectangle(left - 1, low - 1, right + 1, high + 1), HATCH)
    if keep_outs:
        with_fewer = proposed_deck(LOFT, HATCH, keep_outs[:-1])
        assert with_fewer is not None
        assert area_mm2(with_fewer) >= area_mm2(found)
