"""Estimates frozen when the boards of each zone were cut, and numbered, by themselves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

OLDER_FORMAT = "eavesbook-estimate/1"


def as_written_today(form: Mapping[str, Any]) -> dict[str, Any]:
    """Rewrite an estimate of version 1 as it would be written today, changing nothing that it says.

    An issued quote keeps its estimate for years. Then each zone had its own cutting list, its boards counted
    from 1; now boards are numbered through the whole deck, so those of later zones count on.

    Args:
        form: The parsed JSON of a version 1 estimate. Mapping. [-]

    Returns:
        Its form today; one that is not as version 1 was is given back as it is, to be refused. Mapping. [-]

    Source:
        Own definition of the format.
    """
    try:
        zones, cuts = [], []
        boards_before = 0
        for zone in form["design"]["zones"]:
            kept = {name: value for name, value in zone.items() if name != "cuts"}
            zones.append({**kept, "layout": _layout(zone, boards_before)})
            cuts += [_board(zone, board, boards_before) for board in zone["cuts"]]
            boards_before += len(zone["cuts"])
        return {**form, "design": {**form["design"], "zones": zones, "cuts": cuts}}
    except (AttributeError, KeyError, TypeError, ValueError):
        return dict(form)


def _layout(zone: Mapping[str, Any], boards_before: int) -> dict[str, Any] | None:
    layout = zone["layout"]
    if layout is None:
        return None
    pieces = [{**piece, "board": piece["board"] + boards_before} for piece in layout["pieces"]]
    opened = [
        {"number": board["board"] + boards_before, "bought": True, **_what_it_is(zone)}
        for board in zone["cuts"]
    ]
    return {**layout, "pieces": pieces, "opened": opened}


def _board(zone: Mapping[str, Any], board: Mapping[str, Any], boards_before: int) -> dict[str, Any]:
    places = {piece["number"]: place for place, piece in enumerate(board["pieces"], start=1)}
    return {
        **board,
        "board": board["board"] + boards_before,
        **_what_it_is(zone),
        "width_mm": zone["problem"]["product"]["cover_width_mm"],
        "bought": True,
        "cuts": [{**cut, "kept": sorted(places[number] for number in cut["kept"])} for cut in board["cuts"]],
        "pieces": [{"zone": zone["zone"], **piece} for piece in board["pieces"]],
    }


def _what_it_is(zone: Mapping[str, Any]) -> dict[str, Any]:
    return {"code": zone["board_code"], "length_mm": zone["problem"]["product"]["cover_length_mm"]}
