"""Edges of a deck: named as they lie on plan, and moved with their neighbours meeting them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.design.boards.edges import EdgeMove, Facing, edge_names, edges_of, with_edge_moved
from estimating.plane import Polygon, area_mm2, quarter_turned
from tests.estimating.boards.problems import OUTLINES

RECTANGLE = ((0, 0), (5000, 0), (5000, 3000), (0, 3000))
L_SHAPE = ((0, 0), (5000, 0), (5000, 2000), (3000, 2000), (3000, 4000), (0, 4000))
CUT_CORNER = ((0, 0), (5000, 0), (5000, 2000), (3000, 4000), (0, 4000))


def edge(outline: Polygon, facing: Facing):
    return next(edge for edge in edges_of(outline) if edge.facing is facing)


@pytest.mark.parametrize("turns", range(4))
@pytest.mark.parametrize("backwards", [False, True])
def test_edges_keep_their_names_however_the_zone_is_turned_and_walked_round(turns, backwards):
    outline = RECTANGLE[::-1] if backwards else RECTANGLE
    turned = quarter_turned(outline, turns)
    names = edge_names(turned, turns)
    for each in edges_of(turned):
        a, b = (quarter_turned(turned, -turns)[(each.side + end) % 4] for end in (0, 1))
        expected = {(0, 3000): "left-hand", (5000, 3000): "right-hand"}.get(
            (a[0] if a[0] == b[0] else -1, 3000)
        )
        assert names[each.side] == f"{expected or ('front' if a[1] == 0 else 'back')} edge"


def test_edges_that_face_the_same_way_are_told_apart_by_where_they_lie():
    assert sorted(edge_names(L_SHAPE).values()) == [
        "back edge at 2000 mm",
        "back edge at 4000 mm",
        "front edge",
        "left-hand edge",
        "right-hand edge at 3000 mm",
        "right-hand edge at 5000 mm",
    ]
    turned = quarter_turned(L_SHAPE, 1)
    assert sorted(edge_names(turned, 1).values()) == sorted(edge_names(L_SHAPE).values())


def test_edges_on_one_line_are_told_apart_by_where_they_begin_and_end():
    u_shape = ((0, 0), (900, 0), (900, 500), (400, 500), (400, 700), (900, 700), (900, 1200), (0, 1200))
    names = set(edge_names(u_shape).values())
    assert "right-hand edge at 900 mm, from 0 to 500 mm" in names
    assert "right-hand edge at 900 mm, from 700 to 1200 mm" in names


def test_a_slanting_edge_is_no_edge_to_move_and_keeps_its_line():
    assert len(edges_of(CUT_CORNER)) == 4
    moved = with_edge_moved(CUT_CORNER, edge(CUT_CORNER, Facing.RIGHT), 100)
    assert moved == ((0, 0), (5100, 0), (5100, 1900), (3000, 4000), (0, 4000))


def test_a_step_may_vanish_but_an_edge_may_not_pass_another():
    right = [each for each in edges_of(L_SHAPE) if each.facing is Facing.RIGHT and each.at_mm == 5000]
    assert with_edge_moved(L_SHAPE, right[0], -2000) is not None
    assert with_edge_moved(L_SHAPE, right[0], -2001) is None
    assert with_edge_moved(RECTANGLE, edge(RECTANGLE, Facing.LEFT), -5000) is None


@given(
    st.sampled_from(sorted(OUTLINES)),
    st.integers(1200, 7000),
    st.integers(700, 4000),
    st.integers(-150, 150).filter(bool),
    st.data(),
)
def test_moving_an_edge_adds_or_takes_a_strip_of_deck(shape, width, depth, outward, data):
    corners = OUTLINES[shape](width, depth, width // 2, depth // 2)
    outline = tuple((x, y) for x, y in corners)
    moving = data.draw(st.sampled_from(edges_of(outline)))
    moved = with_edge_moved(outline, moving, outward)
    if moved is not None:
        assert (area_mm2(moved) > area_mm2(outline)) == (outward > 0)
        back = next(
            each
            for each in edges_of(moved)
            if each.facing is moving.facing and each.at_mm == moving.at_mm + moving.outward * outward
        )
        assert with_edge_moved(moved, back, -outward) is not None


def test_a_move_says_which_way_how_far_and_onto_what():
    inward = EdgeMove(side=1, edge="right-hand edge", outward_mm=-35, onto="joist 14")
    assert inward.words == "the right-hand edge moved in by 35 mm onto joist 14"
    assert EdgeMove(side=0, edge="front edge", outward_mm=20).words == "the front edge moved out by 20 mm"
