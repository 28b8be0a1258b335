"""An old cut roof whose shallow joists govern."""

from __future__ import annotations

from jobs.demo.lofts.loft import DemoLoft, plan_rows

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
            "lining_depth": "5 in", "clear_floor": "1.4 m", "headroom_above": "2.1 m", "over_stairs": "yes",
            "hatch_insulated": "no", "hatch_draught_stripped": "no", "hatch_now": "Boarded lid, hinged down",
            "building": "terraced", "storeys": "2", "built_year": "1908", "listed": "no", "tenure": "owner",
            "long_carry": "yes", "access": "Permit street, load at number 1",
        },
        "roof": {
            "kind": "cut roof", "pitch_degrees": "40", "span": "5.6 m", "ridge_height": "2.3 m",
            "underlay": "none", "eaves_path_open": "yes", "joist_depth": "4 in", "joist_width": "2 in",
            "joist_span": "2.7 m", "joist_bearing": "4 in", "joist_grade": "unmeasured",
            "binders": "One binder over the middle wall",
        },
        "plan": {
            "outline_kind": "rectangle", "outline_length": "7.1 m", "outline_depth": "5.6 m", "north": "270",
            "hatch_left": "2080", "hatch_front": "1.9 m", "hatch_runs": "y",
            **plan_rows("joists", {
                "name": "Old joists", "runs_along": "y",
                "readings": "140 530 945 1340 1765 2160 2540 2955 3350 "
                            "3730 4160 4555 4930 5350 5745 6165 6540 6960",
            }),
            **plan_rows("keep_outs", {"kind": "chimney", "name": "Chimney breast", "left": "4740",
                                  "front": "2250", "length": "980", "depth": "520"}),
            **plan_rows("zones", {"name": "Deck", "left": "530", "front": "1.3 m", "length": "6010",
                              "depth": "3.0 m"}),
        },
        "insulation": {"material": "loose fill", "depth_readings": "40 55 50 45 60", "stays": "yes",
                       "conductivity_w_mk": "0.045"},
        "services": {"heating_fuel": "mains gas", "heating_efficiency": "79",
                     "climate_region": "1", "downlights": "0", "cables": "Old lighting cables, clipped clear",
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
