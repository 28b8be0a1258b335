"""Where water stays between layers: what must hold of any build-up and any cold day."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.checks.moisture import (
    Climate,
    VapourLayer,
    condensate_g_m2,
    condensing_planes,
    temperatures_c,
)
from estimating.refusals import Refusal

layers = st.lists(
    st.builds(VapourLayer, st.just("layer"), st.floats(0.01, 5), st.floats(0.01, 5)), min_size=1, max_size=5
)
climates = st.builds(Climate, st.floats(15, 25), st.floats(0.3, 0.8), st.floats(-10, 10), st.floats(0.5, 1.0))
COLD_DAY = Climate(20, 0.6, 0, 0.9)
WOOL_UNDER_BOARDS = (
    VapourLayer("plasterboard", 0.06, 0.125),
    VapourLayer("wool", 6.1, 0.27),
    VapourLayer("boards", 0.13, 0.9),
)


@given(layers, climates)
@settings(max_examples=60)
def test_temperatures_fall_from_the_warm_side_to_the_cold_one(
    build_up: list[VapourLayer], climate: Climate
) -> None:
    falling = temperatures_c(build_up, climate)
    assert list(falling) == sorted(falling, reverse=True)
    assert climate.outside_c <= falling[-1] <= falling[0] <= climate.inside_c


@given(layers, climates)
@settings(max_examples=60)
def test_water_stays_between_layers_only_and_never_less_than_none(
    build_up: list[VapourLayer], climate: Climate
) -> None:
    planes = condensing_planes(build_up, climate)
    assert all(0 <= plane.layer < len(build_up) - 1 for plane in planes)
    assert all(plane.rate_kg_m2_s >= 0 for plane in planes)


@given(layers, climates, st.floats(0.0, 0.2))
@settings(max_examples=60)
def test_a_drier_room_never_leaves_more_water(
    build_up: list[VapourLayer], climate: Climate, drier: float
) -> None:
    dry = replace(climate, inside_humidity=climate.inside_humidity - drier)
    assert condensate_g_m2(build_up, dry) <= condensate_g_m2(build_up, climate) + 1e-9


@given(st.floats(0.01, 5), st.floats(0, 5))
@settings(max_examples=60)
def test_tighter_boards_on_the_wool_never_leave_less_water(still_air_m: float, tighter: float) -> None:
    under = WOOL_UNDER_BOARDS[:2]
    loose = (*under, VapourLayer("boards", 0.13, still_air_m))
    tight = (*under, VapourLayer("boards", 0.13, still_air_m + tighter))
    assert condensate_g_m2(tight, COLD_DAY) >= condensate_g_m2(loose, COLD_DAY) - 1e-9


def test_water_stays_under_boards_on_the_wool_and_nowhere_under_a_gap() -> None:
    assert [plane.layer for plane in condensing_planes(WOOL_UNDER_BOARDS, COLD_DAY)] == [1]
    assert condensing_planes(WOOL_UNDER_BOARDS[:2], COLD_DAY) == ()


def test_what_a_build_up_cannot_be_is_refused_by_name() -> None:
    with pytest.raises(Refusal, match="layers: must name at least one layer"):
        condensing_planes([], COLD_DAY)
    with pytest.raises(Refusal, match="still_air_m: must be more than 0 m"):
        VapourLayer("foil", 0.0, 0.0)
    with pytest.raises(Refusal, match="inside_humidity: must be from 0 to 1"):
        Climate(20, 60, 0, 0.9)
