"""Invented lofts to draw: laid by the product, then dressed by hand, so that only drawing is on trial."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import cache
from itertools import accumulate, pairwise

from estimating.design.boards import BoardProduct, KeepOutArea, Layout, LayoutProblem, lay_boards
from estimating.design.boards.bearers import edge_bearers
from estimating.design.boards.cutting_list import cutting_list
from estimating.design.boards.lay import Effort
from estimating.design.boards.laying_order import laying_order
from estimating.design.design import (
    Design,
    InsulationDesign,
    InsulationLayer,
    PlacedPedestal,
    SettingOut,
    ZoneDesign,
)
from estimating.nations import Nation
from estimating.plane import Point, Polygon, area_mm2, bounds, contains, quarter_turned
from estimating.survey import (
    Axis,
    DeckZone,
    ExistingInsulation,
    Hatch,
    InsulationMaterial,
    JoistField,
    KeepOut,
    KeepOutKind,
    Roof,
    RoofKind,
    Survey,
    evenly_spaced,
)
from estimating.working import ARITHMETIC, Figure, Working

Loft = Callable[[], tuple[Survey, Design]]

PEDESTAL_MM = 230
LONG_BOARD = BoardProduct(code="long", cover_length_mm=2400, cover_width_mm=600, thickness_mm=22)
SHORT_BOARD = BoardProduct(code="short", cover_length_mm=1220, cover_width_mm=320, thickness_mm=18)


def rectangle(left: int, low: int, right: int, high: int) -> Polygon:
    return ((left, low), (right, low), (right, high), (left, high))


def figure(name: str, value: int | Decimal, unit: str) -> Figure[int] | Figure[Decimal]:
    return Figure(name, value, unit, Working("given", (), ARITHMETIC))


def _survey(  # noqa: PLR0913 - a survey is made of so many things, each named at the call
    reference: str,
    outline: Polygon,
    joist_fields: Sequence[JoistField],
    zones: Sequence[DeckZone],
    *,
    hatch: Polygon,
    keep_outs: Sequence[KeepOut] = (),
    north_degrees: int = 0,
) -> Survey:
    return Survey(
        reference=reference,
        visited_on=date(2026, 11, 18),
        nation=Nation.ENGLAND,
        outline=outline,
        roof=Roof(kind=RoofKind.CUT, pitch_degrees=Decimal(35), span_mm=7200, ridge_height_mm=2400),
        joist_fields=tuple(joist_fields),
        hatch=Hatch(outline=hatch),
        zones=tuple(zones),
        insulation=ExistingInsulation(material=InsulationMaterial.MINERAL_WOOL, depth_readings_mm=(100,)),
        keep_outs=tuple(keep_outs),
        north_degrees=north_degrees,
    )


def _field(name: str, outline: Polygon, along: Axis, lines: Sequence[int]) -> JoistField:
    return JoistField(
        name=name, outline=outline, runs_along=along, centre_lines_mm=tuple(lines), depth_mm=100, width_mm=47
    )


@cache
def plain() -> tuple[Survey, Design]:
    """A rectangle on even joists, with a hatch and two tanks."""
    outline = rectangle(0, 0, 7200, 4000)
    joists = _field("main", outline, Axis.Y, evenly_spaced(first_mm=200, centres_mm=400, count=18))
    survey = _survey(
        "S-0147",
        outline,
        [joists],
        [DeckZone(name="main", outline=rectangle(600, 400, 6600, 3480), joist_field="main")],
        hatch=rectangle(3730, 850, 4450, 1410),
        keep_outs=[
            KeepOut(name="tank", kind=KeepOutKind.TANK, outline=rectangle(2690, 870, 3590, 1770)),
            KeepOut(name="tank 2", kind=KeepOutKind.TANK, outline=rectangle(930, 1000, 1830, 1920)),
        ],
        north_degrees=20,
    )
    return survey, _design(survey, LONG_BOARD)


@cache
def uneven() -> tuple[Survey, Design]:
    """An old roof: no two joists alike, a chimney, a flue and a strut."""
    outline = rectangle(0, 0, 8460, 5230)
    gaps = (
        385,
        402,
        371,
        390,
        418,
        366,
        395,
        388,
        410,
        379,
        401,
        362,
        397,
        384,
        405,
        376,
        392,
        399,
        381,
        408,
    )
    lines = tuple(accumulate(gaps, initial=140))
    joists = _field("main", outline, Axis.Y, lines)
    survey = _survey(
        "S-0151",
        outline,
        [joists],
        [DeckZone(name="main", outline=rectangle(350, 600, 8000, 4700), joist_field="main")],
        hatch=rectangle(5200, 2100, 5760, 2860),
        keep_outs=[
            KeepOut(name="chimney", kind=KeepOutKind.CHIMNEY, outline=rectangle(2100, 2200, 3150, 3050)),
            KeepOut(name="flue", kind=KeepOutKind.FLUE, outline=rectangle(6700, 3600, 6900, 3800)),
            KeepOut(name="strut", kind=KeepOutKind.STRUT, outline=rectangle(4300, 1500, 4450, 1650)),
        ],
        north_degrees=300,
    )
    return survey, _design(survey, LONG_BOARD)


@cache
def corner() -> tuple[Survey, Design]:
    """An L-shaped bungalow: two zones whose boards run different ways."""
    outline: Polygon = ((0, 0), (10000, 0), (10000, 4800), (4400, 4800), (4400, 9000), (0, 9000))
    wing = rectangle(0, 4800, 4400, 9000)
    fields = [
        _field(
            "front",
            rectangle(0, 0, 10000, 4800),
            Axis.Y,
            evenly_spaced(first_mm=200, centres_mm=600, count=17),
        ),
        _field("wing", wing, Axis.X, evenly_spaced(first_mm=5000, centres_mm=400, count=10)),
    ]
    survey = _survey(
        "S-0160",
        outline,
        fields,
        [
            DeckZone(name="front", outline=rectangle(800, 600, 9200, 4200), joist_field="front"),
            DeckZone(name="over <wing> & hall", outline=rectangle(700, 5000, 3700, 8600), joist_field="wing"),
        ],
        hatch=rectangle(4900, 2200, 5620, 2900),
        keep_outs=[KeepOut(name="tank", kind=KeepOutKind.TANK, outline=rectangle(1500, 6200, 2300, 7000))],
        north_degrees=90,
    )
    return survey, _design(survey, LONG_BOARD)


@cache
def dense() -> tuple[Survey, Design]:
    """Narrow boards, and so pedestals close together."""
    survey, _ = plain()
    return survey, _design(survey, SHORT_BOARD)


def _design(survey: Survey, product: BoardProduct) -> Design:
    zones: tuple[ZoneDesign, ...] = ()
    for zone in survey.zones:
        zones += (_zone(survey, zone, product, sum(each.layout.boards for each in zones if each.layout)),)
    area = sum((zone.deck_area_m2.value for zone in zones), Decimal(0))
    deck = figure("deck area", area, "m²")
    return Design(
        zones=zones,
        cuts=cutting_list([(each.problem, each.layout) for each in zones if each.layout]),
        insulation=InsulationDesign(
            existing_depth_mm=100,
            layers=(
                InsulationLayer(
                    roll_code="W170", thickness_mm=170, between=False, deck_area_m2=deck, open_area_m2=deck
                ),
            ),
            finished_depth_mm=figure("finished insulation", 270, "mm"),
            meets_target=True,
        ),
        deck_area_m2=deck,
        open_area_m2=deck,
        deck_top_above_joist_mm=figure("deck top", PEDESTAL_MM + product.thickness_mm, "mm"),
        gap_above_insulation_mm=figure("gap", 60, "mm"),
    )


def _zone(survey: Survey, zone: DeckZone, product: BoardProduct, boards_before: int) -> ZoneDesign:
    joists = survey.joist_field(zone.joist_field)
    turns = 0 if joists.runs_along is Axis.Y else 1
    around = [
        ("hatch", "hatch", survey.hatch.outline),
        *((k.name, k.kind, k.outline) for k in survey.keep_outs),
    ]
    outline = quarter_turned(zone.outline, turns)
    left, low, right, _ = bounds(outline)
    lines = tuple(sorted(line if turns == 0 else -line for line in joists.centre_lines_mm))
    problem = LayoutProblem(
        reference=zone.name,
        outline=outline,
        keep_outs=tuple(
            KeepOutArea(name, kind, quarter_turned(shape, turns))
            for name, kind, shape in around
            if all(contains(zone.outline, corner) for corner in shape)
        ),
        joist_lines=tuple(line for line in lines if left <= line <= right),
        row_origin_mm=low,
        product=product,
    )
    layout = lay_boards(problem, Effort.FIRST)
    assert isinstance(layout, Layout), layout
    layout = _counted_on(layout, boards_before)
    places = _pedestal_places(problem)
    numbers = {(line if turns == 0 else -line): n for n, line in enumerate(joists.centre_lines_mm, start=1)}
    pedestals = tuple(
        PlacedPedestal(at=_back((x, y), turns), joist=numbers[x], height_mm=PEDESTAL_MM) for x, y in places
    )
    along = 1 if turns == 0 else 0
    setting_out = tuple(
        SettingOut(
            joist=number,
            joist_line_mm=joists.centre_lines_mm[number - 1],
            positions_mm=tuple(sorted(p.at[along] for p in pedestals if p.joist == number)),
        )
        for number in sorted({p.joist for p in pedestals})
    )
    return ZoneDesign(
        zone=zone.name,
        joist_field=joists.name,
        board_code=product.code,
        problem=problem,
        turns=turns,
        layout=layout,
        no_layout=None,
        laying_order=laying_order(problem, layout, _middle(quarter_turned(survey.hatch.outline, turns))),
        pedestals=pedestals,
        battens=(),
        support_code="P230",
        stacked=1,
        batten_pieces_mm=(),
        setting_out=setting_out,
        edge_bearers=tuple(
            (_back((bearer.x, bearer.y0), turns), _back((bearer.x, bearer.y1), turns))
            for bearer in edge_bearers(problem, layout)
        ),
        finished_edge=zone.outline,
        gauge_mm=figure("gauge", product.cover_width_mm - 90, "mm"),
        support_height_mm=figure("pedestal height", PEDESTAL_MM, "mm"),
        support_needed_mm=figure("height needed", 220, "mm"),
        deck_area_m2=figure("deck area", Decimal(int(area_mm2(zone.outline))) / 1_000_000, "m²"),
    )


def _counted_on(layout: Layout, boards_before: int) -> Layout:
    """Number the boards on from those of the zones before."""
    pieces = tuple(replace(each, board=each.board + boards_before) for each in layout.pieces)
    opened = tuple(replace(each, number=each.number + boards_before) for each in layout.opened)
    return replace(layout, pieces=pieces, opened=opened)


def _middle(polygon: Polygon) -> Point:
    left, low, right, high = bounds(polygon)
    return (left + right) // 2, (low + high) // 2


def _back(point: Point, turns: int) -> Point:
    return quarter_turned((point,), -turns)[0]


def _pedestal_places(problem: LayoutProblem) -> list[Point]:
    """A pedestal on every joist at both edges and at every seam, but none in a keep-out."""
    _, low, _, high = bounds(problem.outline)
    seams = [
        low,
        *range(problem.row_origin_mm + problem.product.cover_width_mm, high, problem.product.cover_width_mm),
    ]
    levels = [level for level, after in pairwise([*seams, high]) if after - level > 75] + [high]
    return [
        (x, y)
        for x in problem.joist_lines
        for y in levels
        if not any(contains(each.outline, (x, y)) for each in problem.keep_outs)
    ]
