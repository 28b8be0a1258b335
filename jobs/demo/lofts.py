"""Three invented lofts, as a surveyor would type them: each section's boxes with what stands in them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

Answers = Mapping[str, Mapping[str, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class DemoLoft:
    """A customer, a house and what was measured and seen in its loft."""

    customer: str
    email: str
    phone: str
    address: str
    town: str
    postcode: str
    description: str
    built_year: int
    wants: str
    answers: Answers
    seen: Mapping[str, str] = field(default_factory=dict)


def _rows(prefix: str, *rows: Mapping[str, str]) -> dict[str, str]:
    """Number the rows of a plan's table as its form does."""
    boxes = {
        f"{prefix}-{place}-{name}": value for place, row in enumerate(rows) for name, value in row.items()
    }
    return {f"{prefix}-TOTAL_FORMS": str(len(rows)), **boxes}


TRUSSED = DemoLoft(
    customer="Odile Pemberwick",
    email="odile.pemberwick@example.com",
    phone="0161 496 0137",
    address="14 Larkfield Rise",
    town="Wexcombe",
    postcode="WX4 7LR",
    description="Detached house",
    built_year=2004,
    wants="A deck for suitcases and the Christmas things, a proper ladder, and a light.",
    answers={
        "arrive": {
            "hatch_long": "730", "hatch_short": "565", "floor_to_ceiling": "2.4 m", "over_stairs": "no",
            "hatch_insulated": "no", "hatch_draught_stripped": "no", "hatch_now": "Push-up panel, no ladder",
            "building": "detached", "storeys": "2", "built_year": "2004", "listed": "no", "tenure": "owner",
            "access": "Drive for one van",
        },
        "roof": {
            "kind": "trussed rafters", "pitch_degrees": "35", "span": "6.2 m", "ridge_height": "2170",
            "underlay": "breathing", "eaves_path_open": "yes", "joist_depth": "97", "joist_width": "35",
            "joist_span": "2067", "free_truss_bays": "8", "obstructed": "yes", "rafter_centres": "600",
            "roof_notes": "Fan of webs either side of a clear middle",
        },
        "plan": {
            "outline_kind": "rectangle", "outline_length": "8.4 m", "outline_depth": "6.2 m", "north": "45",
            "hatch_left": "3318", "hatch_front": "3.2 m", "hatch_runs": "y",
            **_rows("joists", {"name": "Bottom ties", "runs_along": "y", "first": "300", "centres": "600",
                               "count": "14"}),
            **_rows("keep_outs", {"kind": "tank", "name": "Header tank", "left": "6500", "front": "2350",
                                  "length": "650", "depth": "500"}),
            **_rows("zones", {"name": "Deck", "left": "900", "front": "2150", "length": "6.6 m",
                              "depth": "2.0 m"}),
        },
        "insulation": {"material": "mineral wool", "depth_readings": "100 95 100 105 100", "stays": "yes"},
        "services": {"downlights": "4", "downlight_words": "Two bathrooms, sealed fittings",
                     "tanks": "One header tank, lagged", "extract_fans": "outside", "condensation": "None"},
        "wishes": {"to_store": "Suitcases, boxes, a tent", "raise_with": "pedestals", "insulation": "in",
                   "open_loft": "yes", "ladder": "option", "light": "option", "lights": "1",
                   "draught_strip": "in", "edge_trim": "in", "shelves": "option", "shelf_bays": "4",
                   "downlight_covers": "in"},
    },
    seen={
        "downlights": "Four sealed recessed lights over the bathrooms.",
        "tank": "Header tank near the right gable, lid on.",
        "mineral_wool": "About 100 mm between the ties.",
    },
)  # fmt: skip

CUT_ROOF = DemoLoft(
    customer="Ifor Gwynfryn-Âllt",
    email="ifor@example.com",
    phone="020 7946 0821",
    address="3 Mill Terrace",
    town="Ambleford",
    postcode="AM2 9QT",
    description="End of terrace",
    built_year=1908,
    wants="Somewhere dry for records and a bicycle, without losing the warmth.",
    answers={
        "arrive": {
            "hatch_long": "2' 4\"", "hatch_short": "1' 11\"", "floor_to_ceiling": "8' 6\"",
            "over_stairs": "yes",
            "hatch_insulated": "no", "hatch_draught_stripped": "no", "hatch_now": "Boarded lid, hinged down",
            "building": "terraced", "storeys": "2", "built_year": "1908", "listed": "no", "tenure": "owner",
            "long_carry": "yes", "access": "Permit street, load at number 1",
        },
        "roof": {
            "kind": "cut roof", "pitch_degrees": "40", "span": "5.6 m", "ridge_height": "2.3 m",
            "underlay": "none", "eaves_path_open": "yes", "joist_depth": "4 in", "joist_width": "2 in",
            "joist_span": "2.7 m", "binders": "One binder over the middle wall",
        },
        "plan": {
            "outline_kind": "rectangle", "outline_length": "7.1 m", "outline_depth": "5.6 m", "north": "270",
            "hatch_left": "2080", "hatch_front": "1.9 m", "hatch_runs": "y",
            **_rows("joists", {
                "name": "Old joists", "runs_along": "y",
                "readings": "140 530 945 1340 1765 2160 2540 2955 3350 "
                            "3730 4160 4555 4930 5350 5745 6165 6540 6960",
            }),
            **_rows("keep_outs", {"kind": "chimney", "name": "Chimney breast", "left": "4740",
                                  "front": "2250", "length": "980", "depth": "520"}),
            **_rows("zones", {"name": "Deck", "left": "530", "front": "1.3 m", "length": "6010",
                              "depth": "3.0 m"}),
        },
        "insulation": {"material": "loose fill", "depth_readings": "40 55 50 45 60", "stays": "yes",
                       "conductivity_w_mk": "0.045"},
        "services": {"downlights": "0", "cables": "Old lighting cables, clipped clear",
                     "tanks": "None", "extract_fans": "none", "condensation": "None seen"},
        "wishes": {"to_store": "Records and a bicycle", "raise_with": "pedestals", "insulation": "in",
                   "open_loft": "yes", "ladder": "option", "light": "in", "lights": "2",
                   "draught_strip": "in", "edge_trim": "option"},
    },
    seen={
        "wiring": "Rubber-covered cable to the front bedroom light, brittle at the junction box.",
        "stairwell_under_hatch": "Hatch over the stair landing, 2.6 m fall.",
        "open_flue": "Brick breast, open fire below still used.",
    },
)  # fmt: skip

BUNGALOW = DemoLoft(
    customer="Hestia Brannigan and Tom Aldous",
    email="hestia@example.com",
    phone="0161 496 0582",
    address="Fenwick Lodge, Orchard Way",
    town="Little Marden",
    postcode="LM7 3EN",
    description="L-shaped bungalow",
    built_year=1974,
    wants="All the boxes from the garage up there; the wing can stay empty if it saves much.",
    answers={
        "arrive": {
            "hatch_long": "726", "hatch_short": "562", "floor_to_ceiling": "2.35 m", "over_stairs": "no",
            "hatch_insulated": "yes", "hatch_draught_stripped": "no",
            "hatch_now": "Drop-down lid, old ladder",
            "building": "bungalow", "storeys": "1", "built_year": "1974", "listed": "no", "tenure": "owner",
            "access": "Drive for two vans",
        },
        "roof": {
            "kind": "cut roof", "pitch_degrees": "30", "span": "7.2 m", "ridge_height": "2.05 m",
            "underlay": "non-breathing", "eaves_path_open": "yes", "joist_depth": "100", "joist_width": "50",
            "joist_span": "3.1 m", "binders": "Spine wall under the middle",
        },
        "plan": {
            "outline_kind": "L", "outline_length": "11.2 m", "outline_depth": "9.4 m",
            "missing_corner": "back right", "missing_length": "5.0 m", "missing_depth": "3.6 m", "north": "0",
            "hatch_left": "4.23 m", "hatch_front": "2.6 m", "hatch_runs": "y",
            **_rows("joists",
                {"name": "Main roof", "runs_along": "y", "first": "200", "centres": "400", "count": "28",
                 "left": "0", "front": "0", "length": "11.2 m", "depth": "5.8 m"},
                {"name": "Wing", "runs_along": "x", "first": "5900", "centres": "400", "count": "9",
                 "left": "0", "front": "5.8 m", "length": "6.2 m", "depth": "3.6 m"}),
            **_rows("keep_outs", {"kind": "flue", "name": "Boiler flue", "left": "8100", "front": "3.1 m",
                                  "length": "450", "depth": "450"}),
            **_rows("zones",
                {"name": "Main deck", "joist_field": "Main roof", "left": "1.4 m", "front": "1.7 m",
                 "length": "8.2 m", "depth": "2.5 m"},
                {"name": "Wing deck", "joist_field": "Wing", "left": "2.0 m", "front": "6.1 m",
                 "length": "2.2 m", "depth": "2.6 m"}),
        },
        "insulation": {"material": "mineral wool", "depth_readings": "25 30 25 20 25", "stays": "yes"},
        "services": {"downlights": "0", "flue": "Boiler flue rises through the main loft, joints in view",
                     "tanks": "None", "extract_fans": "outside", "condensation": "None"},
        "wishes": {"to_store": "Boxes from the garage, light furniture", "raise_with": "pedestals",
                   "insulation": "in", "open_loft": "yes", "hatch": "no", "ladder": "in", "light": "in",
                   "lights": "2", "draught_strip": "in", "edge_trim": "in"},
    },
    seen={"mineral_wool": "Thin and old, about 25 mm.",
          "cables": "Kitchen ring lies across the joists in the wing: lift it clear."},
)  # fmt: skip

LOFTS = (TRUSSED, CUT_ROOF, BUNGALOW)
