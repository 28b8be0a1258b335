"""Where water stays between layers: what must hold of any build-up and any cold day."""

from __future__ import annotations

from collections.abc import Callable
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
    vapour_points,
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


def by_hand(build_up: list[VapourLayer], climate: Climate) -> float:
    """Another way to the same water: the least line under the points is sought point by point."""
    points = vapour_points(build_up, climate)
    ways, lowest = [way for way, _ in points], []
    for at, (way, pressure) in enumerate(points):
        chords = [p + (q - p) * (way - s) / (t - s) for s, p in points[:at] for t, q in points[at + 1 :]]
        lowest.append(min([pressure, *chords]))
    comes = (lowest[0] - lowest[1]) / (ways[1] - ways[0])
    goes = (lowest[-2] - lowest[-1]) / (ways[-1] - ways[-2])
    return climate.vapour_permeability_of_air * (comes - goes) * 86_400 * 1000


@given(layers, climates)
@settings(max_examples=60)
def test_water_is_what_comes_in_less_what_goes_out(build_up: list[VapourLayer], climate: Climate) -> None:
    assert condensate_g_m2(build_up, climate) == pytest.approx(by_hand(build_up, climate), rel=1e-6, abs=1e-6)


@given(layers, climates, st.floats(1, 10))
@settings(max_examples=60)
def test_a_tighter_outside_never_leaves_less_water_nor_a_tighter_inside_more(
    build_up: list[VapourLayer], climate: Climate, times: float
) -> None:
    def tightened(number: int) -> float:
        changed = list(build_up)
        changed[number] = replace(changed[number], still_air_m=changed[number].still_air_m * times)
        return condensate_g_m2(changed, climate)

    water = condensate_g_m2(build_up, climate)
    assert tightened(-1) >= water - 1e-9
    assert tightened(0) <= water + 1e-9


@given(layers, climates, st.floats(0, 20))
@settings(max_examples=60)
def test_a_colder_day_never_leaves_less_water(
    build_up: list[VapourLayer], climate: Climate, colder: float
) -> None:
    cold = replace(climate, outside_c=climate.outside_c - colder)
    assert condensate_g_m2(build_up, cold) >= condensate_g_m2(build_up, climate) - 1e-9


@given(layers, climates)
@settings(max_examples=30)
def test_a_month_leaves_as_much_as_its_days(build_up: list[VapourLayer], climate: Climate) -> None:
    month = condensate_g_m2(build_up, climate, seconds=30 * 86_400)
    assert month == pytest.approx(30 * condensate_g_m2(build_up, climate))


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: condensing_planes([], COLD_DAY), "layers: must name at least one layer"),
        (lambda: VapourLayer("foil", 0.0, 0.0), "still_air_m: must be more than 0 m"),
        (lambda: VapourLayer("wool", -1.0, 0.1), "resistance_m2k_w: must not be less than 0 m²K/W"),
        (lambda: VapourLayer("wool", float("nan"), 0.1), "resistance_m2k_w: must not be less than"),
        (lambda: Climate(20, 60, 0, 0.9), "inside_humidity: must be from 0 to 1"),
        (lambda: Climate(20, 0.6, -80, 0.9), "outside_c: must be from -60 to 100 °C"),
        (lambda: replace(COLD_DAY, outside_surface_m2k_w=-1), "outside_surface_m2k_w: must not be less"),
        (lambda: replace(COLD_DAY, vapour_permeability_of_air=0), "vapour_permeability_of_air: must be more"),
        (lambda: condensate_g_m2(WOOL_UNDER_BOARDS, COLD_DAY, seconds=-1), "seconds: must not be less than"),
    ],
)
def test_what_a_build_up_cannot_be_is_refused_by_name(make: Callable[[], object], words: str) -> None:
    with pytest.raises(Refusal, match=words):
        make()
