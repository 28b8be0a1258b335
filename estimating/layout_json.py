"""Layout problems and layouts as JSON: "deck-layout-problem/1" in, "deck-layout/1" out.

Reading looks at everything and refuses all that is wrong at once, by the path of the field in the JSON.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from estimating.design.boards.layout import Certificate, Layout, NoLayout
from estimating.design.boards.problem import (
    BoardProduct,
    KeepOutArea,
    LayingRules,
    LayoutProblem,
    PedestalRule,
)
from estimating.plane import Polygon
from estimating.refusals import Refusal, Refusals, Requirements

PROBLEM_FORMAT = "deck-layout-problem/1"
LAYOUT_FORMAT = "deck-layout/1"

_PRODUCT = {
    "id": "code",
    "cover_length": "cover_length_mm",
    "cover_width": "cover_width_mm",
    "thickness": "thickness_mm",
    "ends": "ends",
    "sides": "sides",
    "price_pence": "price_pence",
    "pack_size": "pack_size",
}
_RULES = {
    "kerf": "kerf_mm",
    "gap_tol": "gap_tolerance_mm",
    "joint_tol": "joint_tolerance_mm",
    "min_piece": "min_piece_mm",
    "min_strip": "min_strip_mm",
    "min_supports": "min_supports",
    "max_overhang": "max_overhang_mm",
    "min_stagger": "min_stagger_mm",
    "end_joint": "end_joint",
}
_PEDESTALS = {"max_spacing": "max_spacing_mm", "merge": "merge_mm", "box": "box", "per_seam": "per_seam"}
_ATTRIBUTE_PATHS = {"outline": "deck.outer", "joist_lines": "joists.x", "row_origin_mm": "rows.y0"}
_TEXTS = {"id", "ends", "sides", "end_joint"}
_CLAIMS = {"per_seam"}
_NEEDED = {"id", "cover_length", "cover_width", "thickness"}

Record = TypeVar("Record")


def problem_from_json(obj: object) -> LayoutProblem:
    """Read a layout problem, or refuse everything that is wrong with it at once.

    Rules and pedestals that are left out take their defaults.

    Args:
        obj: The parsed JSON. Mapping. [mm]

    Returns:
        The layout problem. Record. [mm]

    Raises:
        Refusal: A field is missing, of the wrong type, or cannot be so.

    Source:
        Own definition of the format.
    """
    needs = Requirements()
    top = _mapping(needs, obj, "problem")
    stated = top.get("format", PROBLEM_FORMAT)
    needs.require(stated == PROBLEM_FORMAT, "format", f'must be "{PROBLEM_FORMAT}"')
    reference = top.get("id")
    needs.require(isinstance(reference, str), "id", "must be text")
    deck = _mapping(needs, top.get("deck"), "deck")
    outline = _polygon(needs, deck.get("outer"), "deck.outer")
    keep_outs = _keep_outs(needs, deck.get("keepouts", []))
    joists = _whole_numbers(needs, _mapping(needs, top.get("joists"), "joists").get("x"), "joists.x")
    origin = _mapping(needs, top.get("rows"), "rows").get("y0")
    needs.require(_is_whole(origin), "rows.y0", "must be a whole number of mm")
    product = _record(needs, top.get("product"), "product", _PRODUCT, BoardProduct)
    rules = _record(needs, top.get("rules", {}), "rules", _RULES, LayingRules)
    pedestals = _record(needs, top.get("pedestals", {}), "pedestals", _PEDESTALS, PedestalRule)
    needs.settle()
    assert product is not None  # noqa: S101 - settled above
    assert rules is not None  # noqa: S101 - settled above
    assert pedestals is not None  # noqa: S101 - settled above
    try:
        return LayoutProblem(
            reference=str(reference),
            outline=outline,
            keep_outs=keep_outs,
            joist_lines=joists,
            row_origin_mm=int(str(origin)),
            product=product,
            rules=rules,
            pedestals=pedestals,
        )
    except Refusal as refusal:
        raise Refusals(Refusal(_json_path(each.field), each.requirement) for each in refusal.each) from None


def layout_as_json(answer: Layout | NoLayout) -> dict[str, Any]:
    """Write a layout, or why there is none, as JSON-ready values.

    Args:
        answer: What lay_boards returned. Record. [mm]

    Returns:
        The layout with its pieces, boards and bound, or "infeasible" with the fewest line-ups. Mapping. [mm]

    Source:
        Own definition of the format.
    """
    if isinstance(answer, NoLayout):
        return {
            "infeasible": True,
            "problem": answer.reference,
            "stagger_breaks": answer.stagger_breaks,
            "stagger_breaks_at_least": answer.at_least,
            "why": answer.why,
            "cures": [{"change": cure.words, "boards": cure.boards} for cure in answer.cures],
        }
    proof: dict[str, Any] = {}
    if answer.bound:
        proof = {
            "lower_bound": {
                "boards": answer.bound.certified,
                "certificate": _certificate(answer.bound.certificate),
            },
            # what the certificate cannot say: that every layout of fewer boards was searched for in vain
            "fewest_possible": answer.bound.least,
        }
    return {
        "format": LAYOUT_FORMAT,
        "problem": answer.reference,
        "boards": answer.boards,
        **proof,
        "pieces": [
            {
                "id": piece.number,
                "row": piece.row,
                "x0": piece.x0,
                "x1": piece.x1,
                "y0": piece.y0,
                "y1": piece.y1,
                "board": piece.board,
                "bx": piece.board_x,
                "by": piece.board_y,
            }
            for piece in answer.pieces
        ],
    }


def _certificate(certificate: Certificate) -> dict[str, Any]:
    return {
        "D": certificate.unit,
        "F": [list(price) for price in certificate.full],
        "G": [list(price) for price in certificate.groove],
        "T": [list(price) for price in certificate.tongue],
        "joist": {str(joist): price for _, joist, price in certificate.joists},
    }


def _is_whole(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)


def _mapping(needs: Requirements, value: object, path: str) -> dict[str, Any]:
    if needs.require(isinstance(value, dict), path, "must be an object"):
        assert isinstance(value, dict)  # noqa: S101 - just required
        return value
    return {}


def _whole_numbers(needs: Requirements, value: object, path: str) -> tuple[int, ...]:
    if not isinstance(value, list):
        needs.require(False, path, "must be a list of whole numbers of mm")
        return ()
    for number, each in enumerate(value):
        needs.require(_is_whole(each), f"{path}[{number}]", "must be a whole number of mm")
    return tuple(each for each in value if _is_whole(each))


def _polygon(needs: Requirements, value: object, path: str) -> Polygon:
    if not isinstance(value, list) or len(value) < 3:
        needs.require(False, path, "must be a list of at least 3 corners")
        return ()
    corners = []
    for number, corner in enumerate(value):
        two = isinstance(corner, list) and len(corner) == 2 and all(_is_whole(each) for each in corner)
        if needs.require(two, f"{path}[{number}]", "must be [x, y] in whole mm"):
            corners.append((corner[0], corner[1]))
    return tuple(corners)


def _keep_outs(needs: Requirements, value: object) -> tuple[KeepOutArea, ...]:
    if not needs.require(isinstance(value, list), "deck.keepouts", "must be a list"):
        return ()
    assert isinstance(value, list)  # noqa: S101 - just required
    found = []
    for number, each in enumerate(value):
        path = f"deck.keepouts[{number}]"
        keep_out = _mapping(needs, each, path)
        outline = _polygon(needs, keep_out.get("poly"), f"{path}.poly")
        found.append(KeepOutArea(str(keep_out.get("id", number + 1)), str(keep_out.get("kind", "")), outline))
    return tuple(found)


def _record(
    needs: Requirements, value: object, path: str, names: dict[str, str], record: Callable[..., Record]
) -> Record | None:
    """Read a flat record whose fields are whole numbers but for a few texts and claims."""
    given = _mapping(needs, value, path)
    read: dict[str, Any] = {}
    readable = isinstance(value, dict)
    for name, attribute in names.items():
        if name not in given:
            if path == "product" and readable:
                readable &= needs.require(name not in _NEEDED, f"{path}.{name}", "is missing")
            continue
        kind, requirement = (
            (isinstance(given[name], str), "must be text")
            if name in _TEXTS
            else (isinstance(given[name], bool), "must be true or false")
            if name in _CLAIMS
            else (_is_whole(given[name]), "must be a whole number")
        )
        readable &= needs.require(kind, f"{path}.{name}", requirement)
        read[attribute] = given[name]
    if not readable:
        return None
    json_names = {attribute: name for name, attribute in names.items()}
    try:
        return record(**read)
    except Refusal as refusal:
        for each in refusal.each:
            needs.note(Refusal(f"{path}.{json_names[each.field]}", each.requirement))
        return None


def _json_path(attribute_path: str) -> str:
    for attribute, path in _ATTRIBUTE_PATHS.items():
        if attribute_path.startswith(attribute):
            return path + attribute_path.removeprefix(attribute)
    return attribute_path.replace("keep_outs", "deck.keepouts").replace(".outline", ".poly")
