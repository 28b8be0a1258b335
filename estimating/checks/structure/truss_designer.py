"""What the designer of trussed rafters must be told before a deck is laid on their ties, for a letter."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal

from estimating.checks.structure.dead_load import DeadLoad, dead_load
from estimating.checks.structure.rounded_figures import Sized
from estimating.checks.structure.truss_figures import tie_bay_mm, truss_rise_mm, width_between_webs_mm
from estimating.checks.structure.truss_record import TrussCheck
from estimating.checks.structure.trusses import truss_check
from estimating.design.design import Design, ZoneDesign
from estimating.plane import Polygon, bounds
from estimating.price_book import Board, PriceBook
from estimating.published.truss_rules import STORAGE_KN_M2, STORAGE_SOURCE
from estimating.survey import CutKind, JoistField, KeepOut, KeepOutKind, RoofKind, Survey

MEASURED, NOT_MEASURED = "measured at survey", "not measured"
IF_FINK = "geometry, if the trusses are of the usual fink shape, on centre lines"
USE, TRUSSES, LOADS = "House and use", "Trusses as measured", "What lies on the ties"
STORAGE, TANKS, HATCH, HARM = "Storage", "Tanks", "Hatch", "Cuts found"


@dataclass(frozen=True, slots=True)
class Told:
    """One line of what the designer is told: what it is, its value in words, and where that came from."""

    part: str
    label: str
    value: str
    source: str


def told_to_the_truss_designer(survey: Survey, price_book: PriceBook, design: Design) -> tuple[Told, ...]:
    """List what the designer of trussed rafters needs to know, each with where it came from.

    Ties are never reckoned as joists here, so the firm asks the one who can; what nobody measured is listed
    as not measured, since a designer must not take silence for a measure.

    Args:
        survey: The loft as measured. Record. [mm]
        price_book: What boards, supports and rolls weigh. Record. [kg]
        design: The deck and the insulation. Record. [mm]

    Returns:
        The lines in order, none for a cut roof. Tuple. [-]

    Source:
        PD 6693-1, list of what a designer is told, by NHBC Standards 2020 7.2.2.
    """
    if survey.roof.kind is not RoofKind.TRUSSED or not design.zones:
        return ()
    heaviest, board, load = _heaviest(survey, price_book, design)
    check = truss_check(survey, price_book, design, board)
    fields = {zone.joist_field for zone in design.zones}
    return (
        *_house(survey),
        *_trusses(survey, [field for field in survey.joist_fields if field.name in fields]),
        *_loads(survey, design, heaviest, board, load),
        *(_storage(check) if check else ()),
        *_tanks(survey, check),
        *_hatch(survey, check),
        *_cuts(survey.joist_fields),
    )


def _heaviest(survey: Survey, price_book: PriceBook, design: Design) -> tuple[ZoneDesign, Board, DeadLoad]:
    """The zone whose deck weighs most on each square metre: it is the one to be asked about."""
    boards = {board.code: board for board in price_book.of_kind(Board)}
    zones = (
        (zone, boards[zone.board_code], dead_load(survey, price_book, design, zone, boards[zone.board_code]))
        for zone in design.zones
    )
    return max(zones, key=lambda each: each[2].of_the_deck.value)


def _house(survey: Survey) -> Iterator[Told]:
    built = str(survey.built_year) if survey.built_year else "not known"
    yield Told(USE, "Year built", built, "survey" if survey.built_year else "not asked or not known")
    use = "Light storage on a raised deck, reached by a hatch. Not a room, and nobody lives or works there."
    yield Told(USE, "Use of the loft", use, "as offered")


def _trusses(survey: Survey, fields: Iterable[JoistField]) -> Iterator[Told]:
    roof = survey.roof
    yield Told(TRUSSES, "Span", f"{roof.span_mm} mm", MEASURED)
    yield Told(TRUSSES, "Pitch", f"{roof.pitch_degrees}°", MEASURED)
    yield Told(TRUSSES, "Top of tie to underside of ridge", f"{roof.ridge_height_mm} mm", MEASURED)
    for field in fields:
        least, most = min(field.centres_mm), max(field.centres_mm)
        spacing = f"{least} mm" if least == most else f"{least} to {most} mm"
        count = len(field.centre_lines_mm)
        yield Told(TRUSSES, f"Spacing, {field.name}", f"{spacing}, {count} trusses", MEASURED)
        size = f"{field.width_mm} × {field.depth_mm} mm"
        yield Told(TRUSSES, f"Bottom tie, {field.name}", size, MEASURED)
        clear = " + ".join(f"{span} mm" for span in field.clear_spans_mm)
        source = MEASURED if clear else NOT_MEASURED
        yield Told(TRUSSES, f"Clear lengths of the tie, {field.name}", clear or NOT_MEASURED, source)
    yield Told(TRUSSES, "Rafters, webs and plates", "please take from your drawings", NOT_MEASURED)
    bay = f"{tie_bay_mm(roof.span_mm):.0f} mm"
    yield Told(TRUSSES, "Node to node along the tie", bay, IF_FINK)
    rise = f"{truss_rise_mm(roof.span_mm, float(roof.pitch_degrees)):.0f} mm"
    yield Told(TRUSSES, "Rise, tie to apex", rise, IF_FINK)


def _loads(survey: Survey, design: Design, zone: ZoneDesign, board: Board, load: DeadLoad) -> Iterator[Told]:
    yield Told(LOADS, "Roof covering", "please take from your drawings", NOT_MEASURED)
    yield Told(LOADS, "Underlay", str(survey.roof.underlay), MEASURED)
    yield _told_load("Ceiling", f"{survey.plasterboard_mm} mm plasterboard", load.ceiling)
    there = survey.insulation
    found = f"{there.depth_mm} mm {there.material}" if there.depth_mm else "none that stays"
    yield _told_load("Insulation found", found, load.insulation_found)
    layers = " + ".join(f"{layer.thickness_mm} mm" for layer in design.insulation.layers)
    yield _told_load("Insulation added", layers or "none", load.insulation_added)
    yield _told_load("Boards", board.description, load.boards)
    raised = f"{load.supports.name}, {zone.support_height_mm.value} mm high"
    yield _told_load("Deck stands on", raised, load.supports)
    area = design.deck_area_m2
    yield Told(LOADS, "Area of deck", area.shown, "worked out from the plan")
    decked = {each.zone for each in design.zones}
    for each in (each for each in survey.zones if each.name in decked):
        yield Told(LOADS, f"Place of zone {each.name}", _place(each.outline), "plan of the survey, as wished")
    if len(design.zones) > 1:
        words = f"those of zone {zone.zone}, the heaviest of {len(design.zones)}"
        yield Told(LOADS, "Loads of the deck", words, "worked out from the plan")
    height = design.deck_top_above_joist_mm
    roof = survey.roof
    rise = truss_rise_mm(roof.span_mm, float(roof.pitch_degrees))
    if height.value <= rise:
        between = width_between_webs_mm(roof.span_mm, float(roof.pitch_degrees), height.value)
        words = f"{between:.0f} mm at the top of the deck, {height.value} mm over the tie"
        yield Told(LOADS, "Width between inner webs", words, IF_FINK)


def _told_load(label: str, what: str, load: Sized) -> Told:
    words = f"{load.working.with_numbers}; {load.working.source}"
    return Told(LOADS, label, f"{what}: {load.value.quantize(Decimal('0.001'))} kN/m²", words)


def _storage(check: TrussCheck) -> Iterator[Told]:
    usual = f"{STORAGE_KN_M2} kN/m² for the long term, taken as your design until you say"
    yield Told(STORAGE, "Usual allowance on the tie", usual, STORAGE_SOURCE)
    used = check.used_by_the_work_kn_m2
    words = f"{used.value.quantize(Decimal('0.001'))} kN/m²"
    yield Told(STORAGE, "Used by deck and added insulation", words, used.working.with_numbers)
    left = check.storage_kg_m2
    asked = f"{left.shown} over the deck" if left.value else "none is left: please say what may be stored"
    yield Told(STORAGE, "Storage asked for", asked, f"{left.working.with_numbers}; {left.working.source}")


def _tanks(survey: Survey, check: TrussCheck | None) -> Iterator[Told]:
    tanks = [each for each in survey.keep_outs if each.kind is KeepOutKind.TANK]
    if not tanks:
        yield Told(TANKS, "Tanks", "none was found", "survey")
    loads = {figure.name: figure for figure in check.tanks_kn} if check else {}
    for tank in tanks:
        yield Told(TANKS, tank.name, f"{_contents(tank)}; {_place(tank.outline)}", MEASURED)
        load = loads.get(f"{tank.name} on each node")
        if load:
            source = f"{load.working.with_numbers}; {load.working.source}"
            yield Told(TANKS, f"{tank.name}, on each node", load.shown, source)


def _contents(tank: KeepOut) -> str:
    litres = f"{tank.litres} litres" if tank.litres else "litres not measured"
    count = tank.carried_by_trusses
    carried = "on a number of trusses not counted"
    if count:
        carried = f"on {count} truss{'' if count == 1 else 'es'}"
    return f"{litres}, {carried}"


def _hatch(survey: Survey, check: TrussCheck | None) -> Iterator[Told]:
    along_x, along_y = survey.hatch.clear_sides_mm
    yield Told(HATCH, "Clear opening", f"{along_x} × {along_y} mm", MEASURED)
    yield Told(HATCH, "Place", _place(survey.hatch.outline), MEASURED)
    if check:
        widest = check.widest_opening_mm
        source = f"{widest.working.with_numbers}; {widest.working.source}"
        yield Told(HATCH, "Widest opening without your design", widest.shown, source)


def _cuts(fields: Iterable[JoistField]) -> Iterator[Told]:
    found = [(field, cut) for field in fields for cut in field.cuts]
    if not found:
        yield Told(HARM, "Notches, holes or cuts", "none was recorded", "survey")
    for field, cut in found:
        deep = "" if cut.kind is CutKind.CUT_THROUGH else f", {cut.depth_mm} mm"
        words = f"{cut.kind}{deep}, {cut.from_support_mm} mm from its support"
        yield Told(HARM, f"Tie {cut.joist}, {field.name}", words, MEASURED)


def _place(outline: Polygon) -> str:
    x0, y0, x1, y1 = bounds(outline)
    return f"{x1 - x0} × {y1 - y0} mm, {x0} mm from the left gable and {y0} mm from the front eaves"
