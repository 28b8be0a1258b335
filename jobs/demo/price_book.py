"""The invented firm's price book. Sizes are those of the trade; prices and suppliers are made up."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from estimating.price_book import (
    AnyProduct,
    Batten,
    Board,
    Charge,
    Condition,
    ConditionRate,
    HatchSet,
    InsulationRoll,
    Item,
    LabourRate,
    Ladder,
    Length,
    Pedestal,
    PriceBook,
    PricingRules,
    Role,
    Screw,
    Task,
)
from estimating.ways_to_price import MarginKind, VatClass

TIMBER = "Kelmore Timber Yard"
DRYLINE = "Ashvale Insulation Depot"
FIXINGS = "Brindle Fixings Counter"


def demo_price_book(*, firm: str, dated: date) -> PriceBook:
    """Return one edition, with its prices checked on the day it is dated."""
    return PriceBook(
        firm=firm,
        edition=f"{dated:%B %Y}",
        dated=dated,
        products=(
            *_boards(dated),
            *_supports(dated),
            *_rolls(dated),
            *_fittings(dated),
        ),
        hourly_cost=Decimal("23.50"),
        labour_rates=_labour(),
        condition_rates=(
            ConditionRate(condition=Condition.CRAWLING_HEIGHT, percent_longer=Decimal(25)),
            ConditionRate(condition=Condition.OBSTRUCTED, percent_longer=Decimal(20)),
            ConditionRate(condition=Condition.LONG_CARRY, percent_longer=Decimal(10)),
        ),
        charges=(
            Charge(code="VAN", description="Van and travel", amount=Decimal("0.55"), per="mile"),
            Charge(code="WASTE", description="Taking offcuts and wrappings away", amount=Decimal("28.00")),
            Charge(code="PARK", description="Parking permit", amount=Decimal("16.00"), always=False),
        ),
        pricing=PricingRules(
            margin_kind=MarginKind.MARGIN, percent=Decimal(32), minimum_net=Decimal("450.00")
        ),
    )


def _boards(checked: date) -> tuple[AnyProduct, ...]:
    tongued = "tongued and grooved chipboard"
    return (
        Board(
            code="BRD-2400-22", description=f"Board 2400 × 600 × 22 mm, {tongued}", supplier=TIMBER,
            supplier_code="CB2224", pack_cost=Decimal("18.40"), weight_kg=Decimal("21.4"), checked_on=checked,
            cover_length_mm=2400, cover_width_mm=600, thickness_mm=22, max_joist_centres_mm=600,
        ),
        Board(
            code="BRD-2400-18", description=f"Board 2400 × 600 × 18 mm, {tongued}", supplier=TIMBER,
            supplier_code="CB1824", pack_cost=Decimal("14.10"), weight_kg=Decimal("17.5"), checked_on=checked,
            cover_length_mm=2400, cover_width_mm=600, thickness_mm=18, max_joist_centres_mm=450,
        ),
        Board(
            code="BRD-1220-18", description=f"Loft panel 1220 × 320 × 18 mm, pack of 3, {tongued}",
            supplier=TIMBER, supplier_code="CB1812P", pack_cost=Decimal("13.95"), pack_size=3,
            weight_kg=Decimal("4.7"), checked_on=checked,
            cover_length_mm=1220, cover_width_mm=320, thickness_mm=18, max_joist_centres_mm=450,
        ),
    )  # fmt: skip


def _supports(checked: date) -> tuple[AnyProduct, ...]:
    costs = {125: "21.60", 175: "23.40", 225: "26.40", 275: "30.00"}
    pedestals = tuple(
        Pedestal(
            code=f"PED-{height}", description=f"Pedestal {height} mm, box of 12", supplier=FIXINGS,
            supplier_code=f"P{height}", pack_cost=Decimal(cost), pack_size=12, weight_kg=Decimal("0.16"),
            checked_on=checked, height_mm=height, base_mm=90, max_spacing_mm=600,
        )
        for height, cost in costs.items()
    )  # fmt: skip
    battens = tuple(
        Batten(
            code=f"BAT-{depth}", description=f"Batten 47 × {depth} mm, 4.8 m", supplier=TIMBER,
            supplier_code=f"T47{depth}", pack_cost=Decimal(cost), weight_kg=Decimal(weight),
            checked_on=checked, depth_mm=depth, width_mm=47, length_mm=4800,
        )
        for depth, cost, weight in ((100, "11.20", "10.2"), (150, "16.90", "15.3"), (225, "25.60", "23.0"))
    )  # fmt: skip
    screws = tuple(
        Screw(
            code=f"SCR-{fixes.upper()}", description=words, supplier=FIXINGS, supplier_code=code,
            pack_cost=Decimal(cost), pack_size=size, weight_kg=Decimal("0.003"), checked_on=checked,
            length_mm=length, fixes=fixes,
        )
        for fixes, words, code, cost, size, length in (
            ("board", "Board screw 4.2 × 45 mm, box of 200", "S4245", "8.60", 200, 45),
            ("pedestal", "Pedestal screw 4 × 30 mm, box of 500", "S4030", "12.90", 500, 30),
            ("batten", "Batten screw 6 × 120 mm, box of 100", "S6120", "14.70", 100, 120),
        )
    )  # fmt: skip
    return (*pedestals, *battens, *screws)


def _rolls(checked: date) -> tuple[AnyProduct, ...]:
    return tuple(
        InsulationRoll(
            code=f"WOOL-{thickness}", description=f"Glass wool roll {thickness} mm", supplier=DRYLINE,
            supplier_code=f"GW{thickness}", pack_cost=Decimal(cost), weight_kg=Decimal(weight),
            checked_on=checked, thickness_mm=thickness, conductivity_w_mk=Decimal("0.044"),
            coverage_m2=Decimal(coverage), roll_width_mm=1140, roll_diameter_mm=diameter,
        )
        for thickness, coverage, cost, weight, diameter in (
            (100, "12.18", "23.90", "12.2", 440),
            (150, "9.17", "26.30", "13.8", 450),
            (170, "8.05", "26.10", "13.7", 450),
            (200, "6.86", "26.60", "13.7", 460),
        )
    )  # fmt: skip


def _fittings(checked: date) -> tuple[AnyProduct, ...]:
    return (
        HatchSet(
            code="HATCH-562", description="Insulated drop-down hatch, clear 562 × 726 mm", supplier=DRYLINE,
            supplier_code="H562", pack_cost=Decimal("118.00"), weight_kg=Decimal("6.8"), checked_on=checked,
            clear_length_mm=726, clear_width_mm=562,
        ),
        Ladder(
            code="LADDER-2", description="Two-section sliding ladder with handrail", supplier=DRYLINE,
            supplier_code="L2S", pack_cost=Decimal("92.00"), weight_kg=Decimal("9.5"), checked_on=checked,
            least_opening_length_mm=560, least_opening_width_mm=480, greatest_height_mm=2600,
            folded_length_mm=1560,
        ),
        Ladder(
            code="LADDER-3", description="Three-section timber ladder with handrail", supplier=DRYLINE,
            supplier_code="L3T", pack_cost=Decimal("154.00"), weight_kg=Decimal("17.0"), checked_on=checked,
            least_opening_length_mm=700, least_opening_width_mm=550, greatest_height_mm=2850,
            folded_length_mm=1200,
        ),
        Item(
            role=Role.LIGHT, code="LIGHT-LED", description="Sealed light with pull switch", supplier=FIXINGS,
            supplier_code="LB15", pack_cost=Decimal("31.50"), weight_kg=Decimal("1.1"), checked_on=checked,
        ),
        Item(
            role=Role.DOWNLIGHT_COVER, code="COVER-DL", description="Recessed light cover", supplier=FIXINGS,
            supplier_code="DLC", pack_cost=Decimal("6.20"), weight_kg=Decimal("0.2"), checked_on=checked,
        ),
        Length(
            role=Role.EDGE_TRIM, code="TRIM-2400", description="Softwood edge trim, 2.4 m", supplier=TIMBER,
            supplier_code="ET24", pack_cost=Decimal("5.40"), weight_kg=Decimal("1.2"), checked_on=checked,
            length_mm=2400,
        ),
        Length(
            role=Role.TRUSS_SHELF, code="SHELF-2400", description="Truss shelf board, 2.4 m", supplier=TIMBER,
            supplier_code="TS24", pack_cost=Decimal("12.80"), weight_kg=Decimal("6.1"), checked_on=checked,
            length_mm=2400,
        ),
        Length(
            role=Role.DRAUGHT_STRIP, code="STRIP-10", description="Draught strip, 10 m", supplier=FIXINGS,
            supplier_code="DS10", pack_cost=Decimal("7.30"), weight_kg=Decimal("0.3"), checked_on=checked,
            vat_class=VatClass.ENERGY_SAVING, length_mm=10000,
        ),
        Item(
            role=Role.WALKWAY, code="WALK-1200", description="Tread board 1.2 m on its own feet",
            supplier=FIXINGS, supplier_code="WB12", pack_cost=Decimal("27.80"), weight_kg=Decimal("6.2"),
            checked_on=checked,
        ),
        Item(
            role=Role.OTHER, code="VENT-LAP", description="Lap vent for the underlay",
            supplier=TIMBER, supplier_code="LV10", pack_cost=Decimal("21.40"), pack_size=10,
            weight_kg=Decimal("0.05"), checked_on=checked,
        ),
    )  # fmt: skip


def _labour() -> tuple[LabourRate, ...]:
    return (
        LabourRate(task=Task.PREPARE, hours=Decimal("2.0"), unit="job"),
        LabourRate(task=Task.LAY_INSULATION, hours=Decimal("0.09"), unit="m2"),
        LabourRate(task=Task.FIX_PEDESTALS, hours=Decimal("0.045"), unit="each"),
        LabourRate(task=Task.FIX_BATTENS, hours=Decimal("0.12"), unit="m"),
        LabourRate(task=Task.LAY_BOARDS, hours=Decimal("0.22"), unit="m2"),
        LabourRate(task=Task.CUT_BOARDS, hours=Decimal("0.08"), unit="each"),
        LabourRate(task=Task.FIT_EDGE_BEARERS, hours=Decimal("0.15"), unit="each"),
        LabourRate(task=Task.FIT_HATCH, hours=Decimal("4.5"), unit="each"),
        LabourRate(task=Task.FIT_LADDER, hours=Decimal("2.5"), unit="each"),
        LabourRate(task=Task.FIT_LIGHT, hours=Decimal("1.5"), unit="each"),
        LabourRate(task=Task.FIT_EDGE_TRIM, hours=Decimal("0.12"), unit="m"),
        LabourRate(task=Task.FIT_DRAUGHT_STRIP, hours=Decimal("0.5"), unit="job"),
        LabourRate(task=Task.FIT_DOWNLIGHT_COVER, hours=Decimal("0.2"), unit="each"),
        LabourRate(task=Task.FIT_SHELF, hours=Decimal("0.6"), unit="each"),
        LabourRate(task=Task.LAY_WALKWAY, hours=Decimal("0.3"), unit="each"),
        LabourRate(task=Task.FIT_OTHER, hours=Decimal("0.5"), unit="each"),
    )
