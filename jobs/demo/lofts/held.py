"""A trussed loft that nobody may work in until somebody qualified has seen the cut web."""

from __future__ import annotations

from jobs.demo.lofts.loft import DemoLoft, plan_rows

HELD = DemoLoft(
    customer="Noor Castellane",
    email="noor.castellane@example.com",
    phone="0161 496 0733",
    address="8 Windmill Close",
    town="Wexcombe",
    postcode="WX3 5TD",
    description="Semi-detached house",
    built_year=1988,
    wants="Boards over the landing for the camping things, and the old shelf taken out.",
    answers={
        "arrive": {
            "hatch_long": "726", "hatch_short": "562", "floor_to_ceiling": "2.35 m", "lining_depth": "130",
            "clear_floor": "2.1 m", "headroom_above": "1.7 m", "over_stairs": "no", "hatch_insulated": "no",
            "hatch_draught_stripped": "no", "hatch_now": "Push-up panel, no ladder",
            "building": "semi-detached", "storeys": "2", "built_year": "1988", "listed": "no",
            "tenure": "owner", "access": "Street parking, no permit",
        },
        "roof": {
            "kind": "trussed rafters", "pitch_degrees": "35", "span": "6.0 m", "ridge_height": "2.1 m",
            "underlay": "non-breathing", "eaves_path_open": "yes", "eaves_opening": "10 mm",
            "ridge_opening": "0", "joist_depth": "97", "joist_width": "35", "joist_span": "2.0 m",
            "joist_grade": "unmeasured", "rafter_centres": "600", "obstructed": "yes",
            "roof_notes": "Fan of webs. One web is sawn through beside an old shelf.",
        },
        "plan": {
            "outline_kind": "rectangle", "outline_length": "6.6 m", "outline_depth": "6.0 m", "north": "180",
            "hatch_left": "2.72 m", "hatch_front": "2.5 m", "hatch_runs": "y",
            **plan_rows("joists", {"name": "Bottom ties", "runs_along": "y", "first": "300",
                                   "centres": "600", "count": "11"}),
            **plan_rows("zones", {"name": "Deck", "left": "900", "front": "2.1 m", "length": "4.8 m",
                                  "depth": "1.8 m"}),
        },
        "insulation": {"material": "mineral wool", "depth_readings": "100 90 100 110 95", "stays": "yes"},
        "services": {"heating_fuel": "mains gas", "heating_efficiency": "84",
                     "climate_region": "7", "downlights": "0", "tanks": "None",
                     "extract_fans": "outside", "condensation": "None"},
        "wishes": {"to_store": "Tent, sleeping bags, boxes", "raise_with": "pedestals", "insulation": "in",
                   "open_loft": "yes", "ladder": "in", "light": "option", "lights": "1",
                   "draught_strip": "in"},
    },
    seen={
        "structure": "Third truss from the left gable: the web on the back side is sawn through at half "
        "height, and the tie has dropped by 6 mm.",
        "mineral_wool": "About 100 mm between the ties.",
    },
)  # fmt: skip
