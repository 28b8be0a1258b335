"""A plain trussed loft, surveyed, sold and booked."""

from __future__ import annotations

from jobs.demo.lofts.loft import DemoLoft, plan_rows

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
            "hatch_long": "730", "hatch_short": "565", "floor_to_ceiling": "2.4 m",
            "lining_depth": "150", "clear_floor": "2.4 m", "headroom_above": "1.9 m", "over_stairs": "no",
            "hatch_insulated": "no", "hatch_draught_stripped": "no", "hatch_now": "Push-up panel, no ladder",
            "building": "detached", "storeys": "2", "built_year": "2004", "listed": "no", "tenure": "owner",
            "access": "Drive for one van",
        },
        "roof": {
            "kind": "trussed rafters", "pitch_degrees": "35", "span": "6.2 m", "ridge_height": "2170",
            "underlay": "breathing", "eaves_path_open": "yes", "eaves_opening": "10 mm",
            "ridge_opening": "5 mm", "joist_depth": "97", "joist_width": "35",
            "joist_span": "2067", "free_truss_bays": "8", "obstructed": "yes", "rafter_centres": "600",
            "roof_notes": "Fan of webs either side of a clear middle",
        },
        "plan": {
            "outline_kind": "rectangle", "outline_length": "8.4 m", "outline_depth": "6.2 m", "north": "45",
            "hatch_left": "3318", "hatch_front": "3.2 m", "hatch_runs": "y",
            **plan_rows("joists", {"name": "Bottom ties", "runs_along": "y", "first": "300", "centres": "600",
                               "count": "14"}),
            **plan_rows("keep_outs", {"kind": "tank", "name": "Header tank", "left": "6500",
                                       "front": "2350", "length": "650", "depth": "500", "litres": "100",
                                       "carried_by": "2"}),
            **plan_rows("zones", {"name": "Deck", "left": "900", "front": "2150", "length": "6.6 m",
                              "depth": "2.0 m"}),
        },
        "insulation": {"material": "mineral wool", "depth_readings": "100 95 100 105 100", "stays": "yes"},
        "services": {"heating_fuel": "mains gas", "heating_efficiency": "88",
                     "climate_region": "7", "downlights": "4",
                     "downlight_words": "Two bathrooms, sealed fittings", "tanks": "One header tank, lagged",
                     "extract_fans": "outside", "condensation": "None"},
        "wishes": {"to_store": "Suitcases, boxes, a tent", "raise_with": "pedestals", "insulation": "in",
                   "open_loft": "yes", "ladder": "option", "light": "option", "lights": "1",
                   "draught_strip": "in", "edge_trim": "in", "shelves": "option", "shelf_bays": "4",
                   "downlight_covers": "in", "walkway": "option"},
    },
    seen={
        "downlights": "Four sealed recessed lights over the bathrooms.",
        "tank": "Header tank near the right gable, lid on.",
        "mineral_wool": "About 100 mm between the ties.",
    },
)  # fmt: skip
