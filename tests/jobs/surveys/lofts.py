"""Three invented lofts as typed: a plain trussed one, an old cut roof, an L-shaped bungalow."""

from __future__ import annotations

from typing import Any

Answers = dict[str, dict[str, str]]


def rows(prefix: str, *each: dict[str, str]) -> dict[str, str]:
    """Name the answers of rows as the plan's form does."""
    return {
        f"{prefix}-{number}-{name}": answer for number, row in enumerate(each) for name, answer in row.items()
    }


TRUSSED: Answers = {
    "arrive": {"hatch_long": "726", "hatch_short": "562", "floor_to_ceiling": "2.4 m", "over_stairs": "no"},
    "roof": {
        "kind": "trussed rafters", "pitch_degrees": "35", "span": "7.6m", "ridge_height": "2.6 m",
        "underlay": "non-breathing", "joist_depth": "97", "joist_width": "35", "free_truss_bays": "4",
    },
    "plan": {
        "outline_kind": "rectangle", "outline_length": "8.4 m", "outline_depth": "7600", "north": "90",
        "hatch_left": "3.73m", "hatch_front": "17 3/4in", "hatch_runs": "y",
        **rows("joists", {"name": "Ties", "runs_along": "y", "first": "300", "centres": "600",
                          "count": "14"}),
        **rows("keep_outs", {"kind": "tank", "left": "6500", "front": "2600", "length": "650",
                             "depth": "500"}),
        **rows("zones", {"name": "Deck", "left": "1.2m", "front": "2m", "length": "4 m", "depth": "3600"}),
    },
    "insulation": {"material": "mineral wool", "depth_readings": "100 95 110", "stays": "yes"},
    "services": {"downlights": "2"},
    "wishes": {"ladder": "option", "light": "in", "lights": "2", "insulation": "in", "gap": "2 in"},
}  # fmt: skip

CUT_ROOF: Answers = {
    "arrive": {
        "hatch_long": "2' 6\"", "hatch_short": "2ft", "floor_to_ceiling": "8' 6\"", "long_carry": "yes",
    },
    "roof": {
        "kind": "cut roof", "pitch_degrees": "42.5", "span": "24' 3\"", "ridge_height": "10ft 2",
        "underlay": "none", "joist_depth": "4 in", "joist_width": "2in", "joist_span": "3.1 m",
        "rafter_centres": "16 in", "obstructed": "yes", "eaves_path_open": "not seen",
    },
    "plan": {
        "outline_kind": "rectangle", "outline_length": "7.1 m", "outline_depth": "5.6 m",
        "hatch_left": "2080", "hatch_front": "1.9 m", "hatch_runs": "x",
        **rows("joists", {"name": "Old joists", "runs_along": "y", "first": "140",
                          "readings": "0 395 802 1190 1612 1998 2405"}),
        **rows("keep_outs", {"kind": "chimney", "name": "Breast",
                             "corners": "4740,2250; 5720,2250; 5720,2770; 4740,2770"}),
        **rows("zones", {"left": "530", "front": "1.3 m", "length": "1500", "depth": "3.0 m"}),
    },
    "insulation": {"material": "loose fill", "depth_readings": "2in, 1 1/2 in, 50 mm"},
    "services": {"downlights": "0"},
    "wishes": {"raise_with": "battens"},
}  # fmt: skip

BUNGALOW: Answers = {
    "arrive": {"hatch_long": "726", "hatch_short": "562", "floor_to_ceiling": "2350", "lining_depth": "0"},
    "roof": {
        "kind": "trussed rafters", "pitch_degrees": "22.5", "span": "6 m", "ridge_height": "1.9 m",
        "underlay": "breathing", "joist_depth": "97", "joist_width": "35",
    },
    "plan": {
        "outline_kind": "L", "outline_length": "11 m", "outline_depth": "9 m",
        "missing_corner": "back right", "missing_length": "5 m", "missing_depth": "3 m",
        "hatch_left": "3000", "hatch_front": "2500", "hatch_runs": "x",
        **rows(
            "joists",
            {"name": "main", "runs_along": "y", "first": "300", "centres": "600", "count": "18",
             "left": "0", "front": "0", "length": "11 m", "depth": "6 m"},
            {"name": "wing", "runs_along": "x", "first": "6300", "centres": "600", "count": "5",
             "left": "0", "front": "6 m", "length": "6 m", "depth": "3 m", "joist_depth": "122"},
        ),
        **rows(
            "zones",
            {"name": "Main deck", "joist_field": "main", "left": "900", "front": "1800", "length": "6 m",
             "depth": "2400"},
            {"name": "Wing deck", "joist_field": "wing", "left": "900", "front": "6300", "length": "3 m",
             "depth": "2100"},
        ),
    },
    "insulation": {"material": "none"},
    "services": {"downlights": "6"},
    "wishes": {},
}  # fmt: skip

LOFTS: dict[str, Answers] = {"trussed": TRUSSED, "cut roof": CUT_ROOF, "bungalow": BUNGALOW}


def changed(answers: Answers, section: str, **new: Any) -> Answers:
    """Return a loft with a few answers of one section changed."""
    return {**answers, section: {**answers[section], **new}}
