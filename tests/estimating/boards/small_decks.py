"""Small decks for tests that try everything: few rows, few bays, ripped at both edges as often as not."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random
from typing import Any

from estimating.plane import Polygon
from tests.estimating.boards.every_piece import hangs_on_a_few_mm
from tests.estimating.boards.problems import OUTLINES

BOARDS = ((2400, 600), (1220, 320), (1200, 600), (900, 300))


def small_decks(first_seed: int = 0) -> Iterator[dict[str, Any]]:
    """Draw small decks without end, as problem JSON."""
    seed = first_seed
    while True:
        data = _drawn(Random(seed), f"small deck {seed}")
        if not hangs_on_a_few_mm(data):
            yield data
        seed += 1


def _drawn(chance: Random, name: str) -> dict[str, Any]:
    length, cover = chance.choice(BOARDS)
    rows = chance.choice((1, 2, 2, 3, 3, 4))
    # the first row begins below the deck, the last ends above it: by nothing, or by enough to rip
    below, above = (chance.choice((0, chance.randrange(cover // 4, cover * 3 // 4, 10))) for _ in range(2))
    depth = max(rows * cover - below - above, cover // 4)
    width = chance.randrange(length * 3 // 4, min(length * 9 // 4, 3600), 10)
    few_bays = length > 2000  # or there would be too much to try
    if chance.random() < 0.7:
        centres = [chance.choice((600,) if few_bays else (400, 450, 600))] * 12
    else:
        centres = [chance.randrange(*((500, 621) if few_bays else (350, 481)), 10) for _ in range(12)]
    lines = [chance.randrange(0, 400, 10)]
    for apart in centres:
        lines.append(lines[-1] + apart)
    shape = chance.choice(("rectangle", "rectangle", "L", "T"))
    across, along = width // 20 * 10, (cover - below) if rows > 1 else depth // 20 * 10
    if not 0 < along < depth:
        shape = "rectangle"
    outline = OUTLINES[shape](width, depth, across, along)
    keep_outs = []
    if rows > 1 and chance.random() < 0.3:
        x, y = chance.randrange(0, width - 400, 10), chance.randrange(0, depth, 10)
        keep_outs.append({"id": "hatch", "kind": "hatch", "poly": _box(x, y, x + 400, y + cover)})
    return {
        "format": "deck-layout-problem/1",
        "id": name,
        "deck": {"outer": [list(corner) for corner in outline], "keepouts": keep_outs},
        "joists": {"x": [x for x in lines if x <= width]},
        "rows": {"y0": -below},
        "product": {
            "id": f"{length} x {cover}",
            "cover_length": length,
            "cover_width": cover,
            "thickness": 18,
            "ends": "tg",
            "sides": chance.choice(("tg", "tg", "tg", "square")),
            "price_pence": 1000,
            "pack_size": 1,
        },
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
        },
        "pedestals": {"max_spacing": 600, "merge": 75, "box": 12},
    }


def _box(x0: int, y0: int, x1: int, y1: int) -> list[list[int]]:
    corners: Polygon = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    return [list(corner) for corner in corners]
