"""Layout problems for tests: the published cases, plain decks, and strategies for any deck."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from estimating.design.boards.problem import (
    BoardProduct,
    KeepOutArea,
    LayingRules,
    LayoutProblem,
    PedestalRule,
)

CASES = Path(__file__).parents[2] / "published" / "layout_cases"

LONG_BOARD = BoardProduct(code="2400 x 600", cover_length_mm=2400, cover_width_mm=600, thickness_mm=22)
SHORT_BOARD = BoardProduct(code="1220 x 320", cover_length_mm=1220, cover_width_mm=320, thickness_mm=18)


@cache
def case(name: str) -> dict[str, Any]:
    return json.loads((CASES / f"{name}.json").read_text())


def case_names() -> list[str]:
    return sorted(path.stem for path in CASES.glob("*.json"))


def deck(  # noqa: PLR0913 - each may be the one thing a test is about
    width_mm: int,
    depth_mm: int,
    *,
    centres_mm: int = 600,
    first_joist_mm: int = 20,
    board: BoardProduct = SHORT_BOARD,
    keep_outs: tuple[KeepOutArea, ...] = (),
    rules: LayingRules | None = None,
    pedestals: PedestalRule | None = None,
) -> LayoutProblem:
    """A rectangular deck on even joists."""
    return LayoutProblem(
        reference="test deck",
        outline=((0, 0), (width_mm, 0), (width_mm, depth_mm), (0, depth_mm)),
        keep_outs=keep_outs,
        joist_lines=tuple(range(first_joist_mm, width_mm + 1, centres_mm)),
        row_origin_mm=0,
        product=board,
        rules=rules or LayingRules(),
        pedestals=pedestals or PedestalRule(),
    )


def keep_out(x0: int, y0: int, x1: int, y1: int) -> KeepOutArea:
    return KeepOutArea("hatch", "hatch", ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


OUTLINES = {
    "rectangle": lambda w, h, a, b: [[0, 0], [w, 0], [w, h], [0, h]],
    "L": lambda w, h, a, b: [[0, 0], [w, 0], [w, b], [a, b], [a, h], [0, h]],
    "T": lambda w, h, a, b: [
        [0, 0],
        [w, 0],
        [w, b],
        [w - a // 2, b],
        [w - a // 2, h],
        [a // 2, h],
        [a // 2, b],
        [0, b],
    ],
    "cut corner": lambda w, h, a, b: [[0, 0], [w, 0], [w, b], [a, h], [0, h]],
    "leaning sides": lambda w, h, a, b: [[0, 0], [w, 0], [w - a // 4, h], [b // 4, h]],
}


@st.composite
def any_problem(
    draw: st.DrawFn, outlines: Sequence[str] = tuple(OUTLINES), largest_mm: tuple[int, int] = (7000, 4000)
) -> dict[str, Any]:
    """Any deck of a loft as problem JSON, mostly with ordinary rules."""
    width, depth = draw(st.integers(1200, largest_mm[0])), draw(st.integers(700, largest_mm[1]))
    across, along = draw(st.integers(400, width - 400)), draw(st.integers(200, depth - 200))
    outline = draw(st.sampled_from(sorted(outlines)))
    keep_outs = []
    for number in range(draw(st.integers(0, 3))):
        wide, high = draw(st.sampled_from([(560, 730), (1000, 500), (47, 120), (900, 900)]))
        x, y = draw(st.integers(-200, width - 100)), draw(st.integers(-200, depth - 100))
        poly = [[x, y], [x + wide, y], [x + wide, y + high], [x, y + high]]
        keep_outs.append({"id": str(number), "kind": "hatch", "poly": poly})
    spacings = draw(st.sampled_from([(400, 400), (450, 450), (600, 600), (380, 430)]))
    joists = [draw(st.integers(5, 60))]
    while joists[-1] < width - 100:
        joists.append(joists[-1] + draw(st.integers(*spacings)))
    length, cover, thickness = draw(st.sampled_from([(2400, 600, 22), (1220, 320, 18), (1830, 610, 22)]))
    # a wide top plate offers so many places for joints that only a small deck is quickly proved
    wide_plate = [0, 0, 0, 10] if width <= 3500 and depth <= 1500 else [0]
    rules = {
        "gap_tol": draw(st.sampled_from([3, 3, 0])),
        "joint_tol": draw(st.sampled_from(wide_plate)),
        "min_supports": draw(st.sampled_from([2, 2, 3])),
        "min_stagger": draw(st.sampled_from([300, 300, 450, 0])),
        "end_joint": draw(st.sampled_from(["butt", "butt", "butt", "tg"])),
    }
    return {
        "format": "deck-layout-problem/1",
        "id": "any deck",
        "deck": {"outer": OUTLINES[outline](width, depth, across, along), "keepouts": keep_outs},
        "joists": {"x": joists},
        "rows": {"y0": draw(st.sampled_from([0, 0, -100]))},
        "product": {
            "id": "board",
            "cover_length": length,
            "cover_width": cover,
            "thickness": thickness,
            "ends": "tg",
            "sides": draw(st.sampled_from(["tg", "tg", "square"])),
            "price_pence": 1000,
            "pack_size": 1,
        },
        "rules": {"kerf": 3, "min_piece": 300, "min_strip": 80, "max_overhang": 150, **rules},
        "pedestals": {"max_spacing": 600, "merge": 75, "box": 12},
    }
