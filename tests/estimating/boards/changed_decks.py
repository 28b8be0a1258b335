"""Layout problems as JSON, changed in ways that must not change the answer, or only in one direction."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

LENGTHS_OF_RULES = ("kerf", "gap_tol", "joint_tol", "min_piece", "min_strip", "max_overhang", "min_stagger")


def mirrored(data: dict[str, Any]) -> dict[str, Any]:
    """Seen from below: left is right, and the rows stay as they are."""
    changed = deepcopy(data)
    for polygon in _polygons(changed):
        polygon[:] = [[-x, y] for x, y in polygon]
    changed["joists"]["x"] = sorted(-x for x in data["joists"]["x"])
    return changed


def doubled(data: dict[str, Any]) -> dict[str, Any]:
    """Everything that is a length, twice as long: the deck, the joists, the board, the saw and the rules."""
    changed = deepcopy(data)
    for polygon in _polygons(changed):
        polygon[:] = [[2 * x, 2 * y] for x, y in polygon]
    changed["joists"]["x"] = [2 * x for x in data["joists"]["x"]]
    changed["rows"]["y0"] *= 2
    for part, names in (
        ("product", ("cover_length", "cover_width", "thickness")),
        ("rules", LENGTHS_OF_RULES),
        ("pedestals", ("max_spacing", "merge")),
    ):
        for name in names:
            changed[part][name] *= 2
    return changed


def with_keep_out(data: dict[str, Any], left: int, low: int) -> dict[str, Any]:
    """With one more thing to go round."""
    changed = deepcopy(data)
    corners = [[left, low], [left + 560, low], [left + 560, low + 730], [left, low + 730]]
    changed["deck"]["keepouts"].append({"id": "one more", "kind": "chimney", "poly": corners})
    return changed


def _polygons(data: dict[str, Any]) -> list[list[list[int]]]:
    return [data["deck"]["outer"], *(keep_out["poly"] for keep_out in data["deck"]["keepouts"])]
