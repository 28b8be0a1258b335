"""Decks that random ones led to and no loft has: what was found by chance stays asked for."""

from __future__ import annotations

from typing import Any

from estimating.design.boards import Layout, NoLayout, lay_boards
from estimating.layout_json import layout_as_json, problem_from_json
from tests.published.layout_validator import validate

TONGUED_LONG = {"cover_length": 2400, "cover_width": 600}


def _deck(
    outer: list[list[int]], keep_outs: list[tuple[int, int, int, int]], joists: list[int], **changed: Any
) -> dict[str, Any]:
    product = {"id": "board", "thickness": 22, "ends": "tg", "sides": "tg", **TONGUED_LONG}
    boxes = [[[a, b], [c, b], [c, d], [a, d]] for a, b, c, d in keep_outs]
    return {
        "format": "deck-layout-problem/1",
        "id": "odd deck",
        "deck": {
            "outer": outer,
            "keepouts": [{"id": "one", "kind": "chimney", "poly": box} for box in boxes],
        },
        "joists": {"x": joists},
        "rows": {"y0": 0},
        "product": {**product, "price_pence": 1000, "pack_size": 1, **changed.get("product", {})},
        "rules": {
            "kerf": 3,
            "gap_tol": 3,
            "joint_tol": 0,
            "min_piece": 300,
            "min_strip": 80,
            "min_supports": 2,
            "max_overhang": 150,
            "min_stagger": 300,
            "end_joint": "butt",
            **changed.get("rules", {}),
        },
        "pedestals": {"max_spacing": 600, "merge": 75, "box": 12},
    }


def test_a_deck_that_is_all_chimney_takes_no_boards():
    outer = [[0, 0], [400, 0], [400, 700], [0, 700]]
    answer = lay_boards(problem_from_json(_deck(outer, [(-100, -100, 500, 800)], [5, 405])))
    assert isinstance(answer, NoLayout) or answer.boards == 0


def _bound_stands(data: dict[str, Any]) -> bool:
    answer = lay_boards(problem_from_json(data))
    assert isinstance(answer, Layout)
    errors = validate(data, layout_as_json(answer))["errors"]
    assert {error["code"] for error in errors} <= {"BOUND"}
    return not errors


def test_a_bound_stands_where_some_joists_can_carry_no_joint():
    # on three supports each: 848 is reached from 0 in the lowest row and from 398 in none
    outer = [[0, 0], [3055, 0], [3055, 424], [2657, 424], [2657, 2623], [398, 2623], [398, 424], [0, 424]]
    joists = [48, 448, 848, 1248, 1648, 2048, 2448, 2848]
    board = {"cover_length": 1830, "cover_width": 610}
    rules = {"gap_tol": 0, "min_supports": 3, "min_stagger": 0}
    assert _bound_stands(_deck(outer, [(1265, 1257, 2165, 2157)], joists, product=board, rules=rules))


def test_a_bound_stands_beside_a_millimetre_of_deck():
    outer = [[0, 0], [1814, 0], [1714, 700], [50, 700]]
    joists = [5, 605, 1205, 1805]
    rules = {"min_stagger": 450, "end_joint": "tg"}
    assert _bound_stands(_deck(outer, [(1, 0, 561, 730)], joists, rules=rules))
