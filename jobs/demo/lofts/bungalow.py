"""An L-shaped bungalow that is within every table."""

from __future__ import annotations

from jobs.demo.lofts.loft import DemoLoft, plan_rows

BUNGALOW = DemoLoft(
    customer="Hestia Brannigan and Tom Aldous",
    email="hestia@example.com",
    phone="0161 496 0582",
    address="Fenwick Lodge, Orchard Way",
    town="Little Marden",
    postcode="LM7 3EN",
    description="L-shaped bungalow",
    built_year=1998,
    wants="All the boxes from the garage up there; the wing can stay empty if it saves much.",
    answers={
        "arrive": {
            "hatch_long": "726", "hatch_short": "562", "floor_to_ceiling": "2.35 m",
            "lining_depth": "150", "clear_floor": "2.6 m", "headroom_above": "1.8 m", "over_stairs": "no",
            "hatch_insulated": "yes", "hatch_draught_stripped": "no",
            "hatch_now": "Drop-down lid, old ladder",
            "building": "bungalow", "storeys": "1", "built_year": "1998", "listed": "no", "tenure": "owner",
            "access": "Drive for two vans",
        },
        "roof": {
            "kind": "cut roof", "pitch_degrees": "30", "span": "7.2 m", "ridge_height": "2.05 m",
            "underlay": "non-breathing", "eaves_path_open": "yes", "eaves_opening": "10 mm",
            "ridge_opening": "5 mm", "joist_depth": "147", "joist_width": "47", "joist_span": "2.8 m",
            "joist_bearing": "50", "joist_grade": "C16", "binders": "Spine wall under the middle",
        },
        "plan": {
            "outline_kind": "L", "outline_length": "11.2 m", "outline_depth": "9.4 m",
            "missing_corner": "back right", "missing_length": "5.0 m", "missing_depth": "3.6 m", "north": "0",
            "hatch_left": "4.23 m", "hatch_front": "2.6 m", "hatch_runs": "y",
            **plan_rows("joists",
                {"name": "Main roof", "runs_along": "y", "first": "200", "centres": "400", "count": "28",
                 "left": "0", "front": "0", "length": "11.2 m", "depth": "5.8 m"},
                {"name": "Wing", "runs_along": "x", "first": "5900", "centres": "400", "count": "9",
                 "left": "0", "front": "5.8 m", "length": "6.2 m", "depth": "3.6 m"}),
            **plan_rows("keep_outs", {"kind": "strut", "name": "Purlin strut", "left": "8100",
                                       "front": "3.1 m", "length": "450", "depth": "450"}),
            **plan_rows("zones",
                {"name": "Main deck", "joist_field": "Main roof", "left": "1.4 m", "front": "2.2 m",
                 "length": "8.2 m", "depth": "2.5 m"},
                {"name": "Wing deck", "joist_field": "Wing", "left": "2.0 m", "front": "6.1 m",
                 "length": "2.2 m", "depth": "2.6 m"}),
        },
        "insulation": {"material": "mineral wool", "depth_readings": "25 30 25 20 25", "stays": "yes"},
        "services": {"heating_fuel": "heating oil", "heating_efficiency": "86",
                     "climate_region": "7", "downlights": "0", "flue": "Outside, on the gable",
                     "tanks": "None", "extract_fans": "outside", "condensation": "None"},
        "wishes": {"to_store": "Boxes from the garage, light furniture", "raise_with": "pedestals",
                   "insulation": "in", "open_loft": "yes", "hatch": "no", "ladder": "in", "light": "in",
                   "lights": "2", "draught_strip": "in", "edge_trim": "in"},
    },
    seen={"mineral_wool": "Thin, about 25 mm."},
)  # fmt: skip
