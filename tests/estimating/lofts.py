"""Three invented lofts and one invented price book, built by plain functions that tests may vary."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from estimating.choices import Choices, ChosenPieces, Part
from estimating.nations import Nation
from estimating.plane import Polygon
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
    Role,
    Screw,
    Task,
)
from estimating.survey import (
    Axis,
    DeckZone,
    ExistingInsulation,
    Finding,
    Hatch,
    InsulationMaterial,
    JoistField,
    KeepOut,
    KeepOutKind,
    Roof,
    RoofKind,
    Severity,
    Survey,
    evenly_spaced,
)
from estimating.ways_to_price import VatClass

VISITED = date(2026, 11, 25)


def rectangle(left: int, low: int, right: int, high: int) -> Polygon:
    return ((left, low), (right, low), (right, high), (left, high))


def trussed_loft(**changes: Any) -> Survey:
    """A plain trussed loft, 9.0 m by 7.2 m, bottom ties at 600 running front to back, 100 mm of old wool."""
    field = JoistField(
        name="main",
        outline=rectangle(0, 0, 9000, 7200),
        runs_along=Axis.Y,
        centre_lines_mm=evenly_spaced(first_mm=300, centres_mm=600, count=15),
        depth_mm=97,
        width_mm=35,
    )
    survey = Survey(
        reference="trussed loft",
        visited_on=VISITED,
        nation=Nation.ENGLAND,
        outline=rectangle(0, 0, 9000, 7200),
        roof=Roof(kind=RoofKind.TRUSSED, pitch_degrees=Decimal(35), span_mm=7200, ridge_height_mm=2450),
        joist_fields=(field,),
        hatch=Hatch(outline=rectangle(3335, 3200, 3865, 3900)),
        zones=(DeckZone(name="A", outline=rectangle(1500, 2200, 6900, 5080), joist_field="main"),),
        insulation=ExistingInsulation(
            material=InsulationMaterial.MINERAL_WOOL, depth_readings_mm=(95, 100, 100, 105, 100)
        ),
        built_year=1988,
        downlights=4,
        free_truss_bays=6,
    )
    return replace(survey, **changes)


def cut_roof_loft(**changes: Any) -> Survey:
    """An old cut roof with uneven joists running from gable to gable, a chimney, and no insulation."""
    lines = (380, 760, 1150, 1525, 1905, 2290, 2660, 3050, 3430, 3800, 4190, 4560, 4950, 5330, 5700, 6080)
    field = JoistField(
        name="ceiling",
        outline=rectangle(0, 0, 7000, 6400),
        runs_along=Axis.X,
        centre_lines_mm=lines,
        depth_mm=100,
        width_mm=50,
        span_mm=3400,
    )
    survey = Survey(
        reference="cut roof loft",
        visited_on=VISITED,
        nation=Nation.WALES,
        outline=rectangle(0, 0, 7000, 6400),
        roof=Roof(kind=RoofKind.CUT, pitch_degrees=Decimal(40), span_mm=6400, ridge_height_mm=2650),
        joist_fields=(field,),
        hatch=Hatch(outline=rectangle(2600, 3090, 3200, 3780), floor_to_ceiling_mm=2700, over_stairs=True),
        zones=(DeckZone(name="A", outline=rectangle(500, 1600, 6500, 4700), joist_field="ceiling"),),
        insulation=ExistingInsulation(material=InsulationMaterial.NONE),
        built_year=1908,
        keep_outs=(
            KeepOut(name="chimney", kind=KeepOutKind.CHIMNEY, outline=rectangle(4700, 2450, 5500, 3500)),
        ),
        findings=(
            Finding(hazard="cables", severity=Severity.CAUTION, words="Old cables run across the joists."),
        ),
    )
    return replace(survey, **changes)


def bungalow_loft(**changes: Any) -> Survey:
    """An L-shaped bungalow: two joist fields that run different ways, and a zone over each."""
    outline = ((0, 0), (11000, 0), (11000, 6000), (5000, 6000), (5000, 11000), (0, 11000))
    front = JoistField(
        name="front",
        outline=rectangle(0, 0, 11000, 6000),
        runs_along=Axis.Y,
        centre_lines_mm=evenly_spaced(first_mm=200, centres_mm=400, count=27),
        depth_mm=122,
        width_mm=47,
    )
    wing = JoistField(
        name="wing",
        outline=rectangle(0, 6000, 5000, 11000),
        runs_along=Axis.X,
        centre_lines_mm=evenly_spaced(first_mm=6200, centres_mm=400, count=12),
        depth_mm=97,
        width_mm=47,
    )
    survey = Survey(
        reference="bungalow loft",
        visited_on=VISITED,
        nation=Nation.SCOTLAND,
        outline=outline,
        roof=Roof(kind=RoofKind.CUT, pitch_degrees=Decimal(30), span_mm=6000, ridge_height_mm=1730),
        joist_fields=(front, wing),
        hatch=Hatch(outline=rectangle(3600, 2800, 4200, 3500)),
        zones=(
            DeckZone(name="A", outline=rectangle(1000, 1500, 8200, 4500), joist_field="front"),
            DeckZone(name="B", outline=rectangle(1200, 6400, 3800, 10200), joist_field="wing"),
        ),
        insulation=ExistingInsulation(
            material=InsulationMaterial.MINERAL_WOOL, depth_readings_mm=(60, 80, 70, 75, 65)
        ),
        built_year=1964,
        keep_outs=(KeepOut(name="tank", kind=KeepOutKind.TANK, outline=rectangle(6600, 3400, 7400, 4200)),),
    )
    return replace(survey, **changes)


LOFTS = {"trussed": trussed_loft, "cut roof": cut_roof_loft, "bungalow": bungalow_loft}


def products() -> tuple[AnyProduct, ...]:
    merchant = {"supplier": "Invented Merchant"}
    specialist = {"supplier": "Invented Specialist"}
    return (
        Board(
            code="B18N", description="loft panel 1220 × 320 × 18 mm", pack_cost=Decimal("11.40"), pack_size=3,
            weight_kg=Decimal("4.7"), cover_length_mm=1220, cover_width_mm=320, thickness_mm=18,
            max_joist_centres_mm=450, **merchant,
        ),
        Board(
            code="B22N", description="loft panel 1220 × 320 × 22 mm", pack_cost=Decimal("14.10"), pack_size=3,
            weight_kg=Decimal("5.7"), cover_length_mm=1220, cover_width_mm=320, thickness_mm=22,
            max_joist_centres_mm=600, **merchant,
        ),
        Board(
            code="B22", description="chipboard 2400 × 600 × 22 mm", pack_cost=Decimal("19.80"),
            weight_kg=Decimal("21.4"), cover_length_mm=2400, cover_width_mm=600, thickness_mm=22,
            max_joist_centres_mm=600, **merchant,
        ),
        *(
            Pedestal(
                code=f"P{height}-{size}", description=f"pedestal {height} mm", pack_cost=cost, pack_size=size,
                weight_kg=Decimal("0.25"), height_mm=height, base_mm=90, **specialist,
            )
            for height, size, cost in (
                (175, 12, Decimal("31.20")),
                (225, 12, Decimal("36.00")),
                (225, 36, Decimal("99.00")),
                (275, 12, Decimal("41.40")),
                (325, 12, Decimal("47.00")),
            )
        ),
        Batten(
            code="T75", description="batten 47 × 75 mm, 4.8 m", pack_cost=Decimal("9.60"), depth_mm=75,
            width_mm=47, length_mm=4800, weight_kg=Decimal("8.2"), **merchant,
        ),
        Batten(
            code="T100", description="batten 47 × 100 mm, 4.8 m", pack_cost=Decimal("12.30"), depth_mm=100,
            width_mm=47, length_mm=4800, weight_kg=Decimal("10.9"), **merchant,
        ),
        Screw(
            code="S50", description="screws 4.5 × 50 mm", pack_cost=Decimal("7.80"), pack_size=200,
            length_mm=50, fixes="board", **merchant,
        ),
        Screw(
            code="S30", description="screws 4 × 30 mm", pack_cost=Decimal("5.10"), pack_size=200,
            length_mm=30, fixes="pedestal", **merchant,
        ),
        Screw(
            code="S140", description="screws 6 × 140 mm", pack_cost=Decimal("18.90"), pack_size=100,
            length_mm=140, fixes="batten", **merchant,
        ),
        *(
            InsulationRoll(
                code=f"R{thickness}", description=f"mineral wool roll {thickness} mm", pack_cost=cost,
                weight_kg=Decimal(9), thickness_mm=thickness, conductivity_w_mk=Decimal("0.044"),
                coverage_m2=coverage, **merchant,
            )
            for thickness, coverage, cost in (
                (100, Decimal("10.67"), Decimal("27.50")),
                (150, Decimal("7.63"), Decimal("28.40")),
                (170, Decimal("6.78"), Decimal("28.60")),
                (200, Decimal("5.61"), Decimal("28.90")),
            )
        ),
        HatchSet(
            code="H1", description="drop-down hatch 562 × 726 mm", pack_cost=Decimal("96.00"),
            clear_length_mm=700, clear_width_mm=540, **specialist,
        ),
        HatchSet(
            code="H2", description="drop-down hatch 562 × 1130 mm", pack_cost=Decimal("148.00"),
            clear_length_mm=1100, clear_width_mm=540, **specialist,
        ),
        Ladder(
            code="L1", description="three-part ladder", pack_cost=Decimal("118.00"), weight_kg=Decimal(12),
            least_opening_length_mm=600, least_opening_width_mm=500, greatest_height_mm=2600, **specialist,
        ),
        Ladder(
            code="L2", description="tall three-part ladder", pack_cost=Decimal("164.00"),
            weight_kg=Decimal(15), least_opening_length_mm=660, least_opening_width_mm=520,
            greatest_height_mm=3000, **specialist,
        ),
        Length(
            role=Role.EDGE_TRIM, code="E1", description="edge trim 2.4 m", pack_cost=Decimal("8.20"),
            length_mm=2400, **merchant,
        ),
        Length(
            role=Role.DRAUGHT_STRIP, code="D1", description="draught strip 6 m", pack_cost=Decimal("7.40"),
            length_mm=6000, vat_class=VatClass.ENERGY_SAVING, **merchant,
        ),
        Length(
            role=Role.TRUSS_SHELF, code="SH1", description="shelf between trusses 1.2 m",
            pack_cost=Decimal("21.00"), length_mm=1200, **specialist,
        ),
        Item(
            role=Role.DOWNLIGHT_COVER, code="C1", description="downlight cover", pack_cost=Decimal("38.00"),
            pack_size=4, **specialist,
        ),
        Item(
            role=Role.LIGHT, code="LT1", description="LED batten light", pack_cost=Decimal("24.00"),
            **merchant,
        ),
        Item(
            role=Role.WALKWAY, code="W1", description="walkway board 1.2 m", pack_cost=Decimal("26.50"),
            weight_kg=Decimal("5.5"), **merchant,
        ),
        Item(
            role=Role.OTHER, code="O1", description="lap vent", pack_cost=Decimal("19.00"), pack_size=10,
            weight_kg=Decimal("0.1"), **merchant,
        ),
    )  # fmt: skip


def price_book(**changes: Any) -> PriceBook:
    """One edition of an invented firm's price book."""
    rates = {
        Task.PREPARE: ("2.5", "job"),
        Task.LAY_INSULATION: ("0.12", "m2"),
        Task.FIX_PEDESTALS: ("0.06", "each"),
        Task.FIX_BATTENS: ("0.10", "m"),
        Task.LAY_BOARDS: ("0.30", "m2"),
        Task.CUT_BOARDS: ("0.04", "each"),
        Task.FIT_EDGE_BEARERS: ("0.20", "each"),
        Task.FIT_HATCH: ("4", "each"),
        Task.FIT_LADDER: ("2.5", "each"),
        Task.FIT_LIGHT: ("1.5", "each"),
        Task.FIT_EDGE_TRIM: ("0.15", "m"),
        Task.FIT_DRAUGHT_STRIP: ("0.5", "job"),
        Task.FIT_DOWNLIGHT_COVER: ("0.25", "each"),
        Task.FIT_SHELF: ("0.5", "each"),
        Task.LAY_WALKWAY: ("0.4", "each"),
        Task.FIT_OTHER: ("0.3", "each"),
    }
    book = PriceBook(
        firm="Invented Lofts",
        edition="2026-11",
        dated=date(2026, 11, 1),
        products=products(),
        hourly_cost=Decimal("24.50"),
        labour_rates=tuple(
            LabourRate(task=task, hours=Decimal(hours), unit=unit)  # type: ignore[arg-type]
            for task, (hours, unit) in rates.items()
        ),
        condition_rates=(
            ConditionRate(condition=Condition.CRAWLING_HEIGHT, percent_longer=Decimal(35)),
            ConditionRate(condition=Condition.OBSTRUCTED, percent_longer=Decimal(20)),
            ConditionRate(condition=Condition.LONG_CARRY, percent_longer=Decimal(10)),
        ),
        charges=(
            Charge(code="waste", description="waste taken away", amount=Decimal("25.00")),
            Charge(code="miles", description="driving", amount=Decimal("0.60"), per="mile"),
            Charge(code="permit", description="parking permit", amount=Decimal("18.00"), always=False),
        ),
    )
    return replace(book, **changes)


EVERY_PART = frozenset(Part) - {Part.VISIT, Part.DECK}


PIECES = {
    Part.WALKWAY: ChosenPieces(product_code="W1", count=3),
    Part.OTHER: ChosenPieces(product_code="O1", count=4),
}


def choices(**changes: Any) -> Choices:
    """What the office usually chooses; parts counted by hand come with pieces, unless some are given."""
    pieces = tuple(PIECES[part] for part in sorted(changes.get("parts", ())) if part in PIECES)
    return replace(Choices(tax_point=date(2026, 12, 1)), **{"pieces": pieces, **changes})
