"""Plane geometry: exact areas and overlaps, turning, and the gap kept at walls."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.plane import (
    Polygon,
    area_mm2,
    bounds,
    contains,
    inset_at_walls,
    is_simple,
    overlap_area_mm2,
    quarter_turned,
    trapezoids,
)
from estimating.refusals import Refusal

L_SHAPE: Polygon = ((0, 0), (4000, 0), (4000, 1000), (1500, 1000), (1500, 3000), (0, 3000))
FEW = settings(max_examples=30, deadline=None)

BOW_TIE: Polygon = ((0, 0), (10, 10), (10, 0), (0, 10))


def rectangle(x0: int, y0: int, x1: int, y1: int) -> Polygon:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


@st.composite
def rectangles(draw: st.DrawFn) -> Polygon:
    x, y = draw(st.integers(-500, 500)), draw(st.integers(-500, 500))
    return rectangle(x, y, x + draw(st.integers(1, 900)), y + draw(st.integers(1, 900)))


@st.composite
def triangles(draw: st.DrawFn) -> Polygon:
    points = st.tuples(st.integers(-500, 500), st.integers(-500, 500))
    return draw(st.tuples(points, points, points).filter(is_simple))


def test_area_of_an_l_shape_is_its_two_rectangles():
    assert area_mm2(L_SHAPE) == 4000 * 1000 + 1500 * 2000
    assert area_mm2(L_SHAPE[::-1]) == area_mm2(L_SHAPE)


@pytest.mark.parametrize(
    ("polygon", "simple"),
    [
        (L_SHAPE, True),
        (rectangle(0, 0, 1, 1), True),
        (((0, 0), (5, 0), (10, 0), (10, 10)), True),  # a corner in line is no fault
        (BOW_TIE, False),
        (((0, 0), (10, 0)), False),
        (((0, 0), (10, 0), (5, 0)), False),
        (((0, 0), (10, 0), (4, 0), (4, 8)), False),  # runs back along its own side
        (((0, 0), (10, 0), (10, 10), (5, 0), (0, 10)), False),  # touches its own side
        (((0, 0), (10, 0), (10, 10), (0, 0), (-5, 5)), False),
    ],
)
def test_a_simple_polygon_never_meets_itself(polygon: Polygon, simple: bool):
    assert is_simple(polygon) is simple


@pytest.mark.parametrize(
    ("point", "inside"),
    [
        ((10, 10), True),
        ((0, 0), True),
        ((4000, 500), True),
        ((1500, 2000), True),
        ((1501, 2000), False),
        ((-1, 5), False),
    ],
)
def test_a_point_on_the_edge_is_contained(point: tuple[int, int], inside: bool):
    assert contains(L_SHAPE, point) is inside


@FEW
@given(rectangles(), rectangles())
def test_rectangles_overlap_by_their_common_rectangle(one: Polygon, other: Polygon):
    ax0, ay0, ax1, ay1 = bounds(one)
    bx0, by0, bx1, by1 = bounds(other)
    wide, high = max(0, min(ax1, bx1) - max(ax0, bx0)), max(0, min(ay1, by1) - max(ay0, by0))
    assert overlap_area_mm2(one, other) == wide * high == overlap_area_mm2(other, one)


@FEW
@given(triangles(), triangles())
def test_overlap_is_exact_and_the_same_both_ways(one: Polygon, other: Polygon):
    common = overlap_area_mm2(one, other)
    assert common == overlap_area_mm2(other, one)
    assert 0 <= common <= min(area_mm2(one), area_mm2(other))
    assert overlap_area_mm2(one, one) == area_mm2(one)


@FEW
@given(triangles(), triangles())
def test_what_is_taken_out_and_what_is_left_make_up_the_whole(one: Polygon, other: Polygon):
    left = sum(
        Fraction(s.right - s.left) * (s.high_left - s.low_left + s.high_right - s.low_right) / 2
        for s in trapezoids(one, (other,))
    )
    assert left + overlap_area_mm2(one, other) == area_mm2(one)


@FEW
@given(triangles(), st.integers(-5, 5))
def test_turning_back_undoes_turning_and_never_mirrors(polygon: Polygon, turns: int):
    turned = quarter_turned(polygon, turns)
    assert quarter_turned(turned, -turns) == polygon

    def way_round(corners: Polygon) -> bool:
        (ax, ay), (bx, by), (cx, cy) = corners
        return (bx - ax) * (cy - ay) > (by - ay) * (cx - ax)

    assert way_round(turned) == way_round(polygon)
    assert area_mm2(turned) == area_mm2(polygon)


def test_a_quarter_turn_is_anticlockwise():
    assert quarter_turned(((1, 0), (3, 0), (3, 2)), 1) == ((0, 1), (0, 3), (-2, 3))


def test_only_edges_at_walls_move_in():
    walls = rectangle(0, 0, 8000, 6000)
    assert inset_at_walls(walls, walls, 16) == rectangle(16, 16, 7984, 5984)
    in_the_open = rectangle(1000, 1000, 5000, 4000)
    assert inset_at_walls(in_the_open, walls, 16) == in_the_open
    at_one_wall = rectangle(0, 1000, 5000, 4000)
    assert inset_at_walls(at_one_wall, walls, 16) == rectangle(16, 1000, 5000, 4000)


def test_an_edge_that_keeps_part_of_the_gap_moves_by_the_rest():
    walls = rectangle(0, 0, 8000, 6000)
    assert inset_at_walls(rectangle(6, 1000, 5000, 4000), walls, 16) == rectangle(16, 1000, 5000, 4000)
    assert inset_at_walls(rectangle(16, 1000, 5000, 4000), walls, 16) == rectangle(16, 1000, 5000, 4000)


@pytest.mark.parametrize("turn", [1, -1])
def test_the_gap_is_kept_around_inner_corners_either_way_round(turn: int):
    inset = inset_at_walls(L_SHAPE[::turn], L_SHAPE, 10)
    expected = ((10, 10), (3990, 10), (3990, 990), (1490, 990), (1490, 2990), (10, 2990))
    assert set(inset) == set(expected)
    assert area_mm2(inset) == area_mm2(expected)


def test_a_slanted_wall_keeps_its_gap_square_to_itself():
    walls: Polygon = ((0, 0), (4000, 0), (0, 3000))
    inset = inset_at_walls(walls, walls, 100)
    # the corners of a 3-4-5 triangle drawn 100 mm in
    assert inset == ((100, 100), (3700, 100), (100, 2800))


def test_a_deck_that_the_gap_eats_up_is_refused():
    walls = rectangle(0, 0, 18, 6000)
    with pytest.raises(Refusal, match="leaves no deck"):
        inset_at_walls(walls, walls, 10)


def test_a_side_shorter_than_the_gap_takes_off_is_gone_and_its_neighbours_meet():
    chamfered: Polygon = ((0, 0), (4000, 0), (4000, 2995), (3995, 3000), (0, 3000))
    assert inset_at_walls(chamfered, chamfered, 20) == rectangle(20, 20, 3980, 2980)


def test_sides_in_line_that_move_unequally_make_a_step():
    walls: Polygon = ((0, 0), (3000, 0), (3000, -2000), (6000, -2000), (6000, 4000), (0, 4000))
    deck: Polygon = ((0, 0), (3000, 0), (5000, 0), (5000, 3000), (0, 3000))
    inset = inset_at_walls(deck, walls, 16)
    assert inset == ((16, 16), (3000, 16), (3000, 0), (5000, 0), (5000, 3000), (16, 3000))


@FEW
@given(triangles(), st.integers(1, 40))
def test_a_deck_never_grows_by_its_gap(polygon: Polygon, gap_mm: int):
    try:
        inset = inset_at_walls(polygon, polygon, gap_mm)
    except Refusal:
        return
    assert area_mm2(inset) < area_mm2(polygon)
