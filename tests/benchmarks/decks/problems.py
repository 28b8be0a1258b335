"""The benchmark's layout problems: eighty lofts and two boards, and decks that only grow."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from random import Random
from typing import Any

from estimating.design.boards import LayoutProblem
from estimating.layout_json import PROBLEM_FORMAT, problem_from_json
from estimating.plane import Polygon, bounds
from tests.benchmarks.decks.joists import edges_on_joists, even_lines, old_lines
from tests.benchmarks.decks.shapes import drawn_shape
from tests.benchmarks.decks.standing import HALF_JOIST_MM, HATCHES_MM, Box, Standing, drawn_things

SEED = 1
LOFTS = 80
OLD_JOISTS_EVERY = 4
AREAS_M2 = (8, 60)
MIN_STRIP_MM = 80
TONGUED = {"ends": "tg", "sides": "tg"}
BOARDS: dict[str, dict[str, Any]] = {
    "long": {
        "id": "2400 x 600 x 22",
        "cover_length": 2400,
        "cover_width": 600,
        "thickness": 22,
        **TONGUED,
        "price_pence": 1450,
        "pack_size": 1,
    },
    "short": {
        "id": "1220 x 320 x 18",
        "cover_length": 1220,
        "cover_width": 320,
        "thickness": 18,
        **TONGUED,
        "price_pence": 1260,
        "pack_size": 3,
    },
}
"""Covers as sold; prices are invented, no source."""
RULES = {
    "kerf": 3,
    "gap_tol": 3,
    "joint_tol": 0,
    "min_piece": 300,
    "min_strip": MIN_STRIP_MM,
    "min_supports": 2,
    "max_overhang": 150,
    "min_stagger": 300,
    "end_joint": "butt",
}
GROWING_SIDES_MM = {10: (4600, 2200), 20: (6600, 3050), 40: (9800, 4100), 80: (15_800, 5100),
                    120: (20_200, 5950), 200: (27_500, 7300)}  # fmt: skip
"""Deck in m², and the sides of a rectangle that large."""


@dataclass(frozen=True)
class DeckProblem:
    """One deck with one board: as JSON, which checkers read, and as the solver's record."""

    data: dict[str, Any]
    board: str
    regular: bool

    @property
    def name(self) -> str:
        return str(self.data["id"])

    @cached_property
    def problem(self) -> LayoutProblem:
        return problem_from_json(self.data)


def benchmark_problems(lofts: int = LOFTS, seed: int = SEED) -> tuple[DeckProblem, ...]:
    """Draw the set: each loft has a chance of its own, so that fewer lofts are the first of more."""
    return tuple(problem for number in range(lofts) for problem in _of_one_loft(number, seed))


def _of_one_loft(number: int, seed: int) -> list[DeckProblem]:
    chance = Random(seed * 100_000 + number)
    regular = number % OLD_JOISTS_EVERY != OLD_JOISTS_EVERY - 1
    least, most = AREAS_M2
    while True:
        area_m2 = least + (most - least) * chance.random() ** 1.3  # small lofts are boarded more often
        shape = drawn_shape(chance, area_m2)
        width_mm = bounds(shape.outline)[2]
        lines = (even_lines if regular else old_lines)(chance, width_mm)
        outline = edges_on_joists(chance, shape.outline, lines)
        things = drawn_things(chance, outline, lines)
        if all(row_origin(outline, board["cover_width"]) is not None for board in BOARDS.values()):
            reference = f"{number + 1:02} {shape.name}"
            return [_problem(reference, outline, things, lines, name, regular) for name in BOARDS]


def row_origin(outline: Polygon, cover_mm: int) -> int | None:
    """Return the highest row origin that leaves no sliver at an edge along the rows, or None."""
    low = bounds(outline)[1]
    for origin in range(low, low - cover_mm, -10):
        if not any(0 < strip < MIN_STRIP_MM for strip in _strips(outline, origin, cover_mm)):
            return origin
    return None


def _strips(outline: Polygon, origin: int, cover_mm: int) -> list[int]:
    """How much of a row each edge along the rows leaves on the side where the deck is."""
    strips = []
    turned = sum(ax * by - bx * ay for (ax, ay), (bx, by) in _sides(outline)) < 0
    for (ax, ay), (bx, by) in _sides(outline):
        if ay == by:
            above = (bx > ax) != turned  # with the deck on the left hand, an edge to the right is a lower one
            strips.append((origin - ay) % cover_mm if above else (ay - origin) % cover_mm)
    return strips


def _sides(outline: Polygon) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    return list(zip(outline, (*outline[1:], outline[0]), strict=True))


def growing_problems() -> tuple[DeckProblem, ...]:
    """Return rectangles of growing size with a hatch, on even joists, with both boards."""
    found = []
    for area_m2, (width_mm, depth_mm) in GROWING_SIDES_MM.items():
        outline = ((0, 0), (width_mm, 0), (width_mm, depth_mm), (0, depth_mm))
        lines = tuple(range(130, width_mm + 1, 400))
        left, low = lines[4] + HALF_JOIST_MM, 700
        hatch = Standing("hatch", Box(left, low, left + HATCHES_MM[0][0], low + HATCHES_MM[0][1]))
        found += [_problem(f"{area_m2} m2", outline, (hatch,), lines, name, True) for name in BOARDS]
    return tuple(found)


def _problem(  # noqa: PLR0913, PLR0917 - the parts of a problem, in its own order
    reference: str,
    outline: Polygon,
    things: tuple[Standing, ...],
    lines: tuple[int, ...],
    board: str,
    regular: bool,
) -> DeckProblem:
    product = BOARDS[board]
    data = {
        "format": PROBLEM_FORMAT,
        "id": f"{reference} {board}",
        "deck": {
            "outer": [list(corner) for corner in outline],
            "keepouts": [thing.as_keep_out(number) for number, thing in enumerate(things, start=1)],
        },
        "joists": {"x": list(lines)},
        "rows": {"y0": row_origin(outline, product["cover_width"])},
        "product": product,
        "rules": RULES,
        "pedestals": {"max_spacing": 600, "merge": 75, "box": 12},
    }
    return DeckProblem(data, board, regular)
