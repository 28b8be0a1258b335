"""The plan the crew sets out from: one zone as large as the paper takes, every joist and support placed."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise

from estimating.design.design import Design, ZoneDesign
from estimating.design.setting_out_list import (
    CORNER,
    LINE_END,
    OPPOSITE,
    Datum,
    SettingOutList,
    setting_out_list,
)
from estimating.drawing import loft_parts
from estimating.drawing.dimensions import Axis as Line
from estimating.drawing.dimensions import running
from estimating.drawing.labels import label_box, write_in
from estimating.drawing.numbering import zone_letters
from estimating.drawing.plan_foot import draw_datum, draw_foot, foot_px
from estimating.drawing.plan_sheet import PlanSheet
from estimating.drawing.svg import Canvas, text_width_px
from estimating.drawing.view import A4_LANDSCAPE, Format, Margins, View, fit
from estimating.plane import Point, Polygon, bounds
from estimating.survey import JoistField, Survey

ROUND_THE_DECK_MM = 350
NEAR_A_WALL_MM = 900
RUNNING_PX = 60.0
NUMBERS_PX = 20.0


def setting_out_plan(
    survey: Survey,
    design: Design,
    zone: str,
    *,
    drawn_for: Format = A4_LANDSCAPE,
    prefix: str = "setting-out",
) -> str:
    """Draw the setting out of one zone.

    Every figure is a running reading from the datum corner. Positions that most joists share stand along the
    edge; any other stands beside its own support, so that nothing is left to be measured off the paper.

    Args:
        survey: What was measured. Record. [mm]
        design: Where everything goes. Record. [mm]
        zone: The name of the zone. Text. [-]
        drawn_for: The room for the drawing, and its colours. Record. [px]
        prefix: What its ids begin with, unlike those of other drawings on the page. Text. [-]

    Returns:
        One SVG element. Text. [-]

    Source:
        Running dimensions of BS EN ISO 129-1, from memory.
    """
    drawn = next(each for each in design.zones if each.zone == zone)
    joists = survey.joist_field(drawn.joist_field)
    window = _window(survey, drawn)
    view, height = fit(window, drawn_for, _margins(drawn, drawn_for))
    sheet = PlanSheet(
        survey=replace(survey, joist_fields=(joists,))
        if len(survey.zones) == 1
        else _of_field(survey, joists),
        design=replace(design, zones=(drawn,)),
        view=view,
        drawn_for=drawn_for,
        canvas=Canvas(drawn_for.width_px, height, prefix),
        letters=zone_letters(design),
        chosen=None,
        window=window,
    )
    marks = setting_out_list(drawn, joists)
    _draw(sheet, drawn, marks, window)
    title = f"Setting out of {zone}, loft {survey.reference}"
    told = " ".join((marks.datum.words, marks.datum.how, *_notes(drawn))).strip()
    return sheet.canvas.svg(title=title, description=told, palette=drawn_for.palette)


def _margins(zone: ZoneDesign, drawn_for: Format) -> Margins:
    foot = NUMBERS_PX + RUNNING_PX + foot_px(_notes(zone), drawn_for)
    return Margins(left=34, right=NUMBERS_PX + RUNNING_PX + 6, top=34, foot=foot)


def _of_field(survey: Survey, joists: JoistField) -> Survey:
    zones = tuple(zone for zone in survey.zones if zone.joist_field == joists.name)
    return replace(survey, joist_fields=(joists,), zones=zones)


def _window(survey: Survey, zone: ZoneDesign) -> tuple[int, int, int, int]:
    """The deck with a little of the loft round it, as far as the wall where that is near."""
    deck, loft = bounds(zone.finished_edge), bounds(survey.outline)
    left, low, right, high = (
        wall if abs(wall - edge) <= NEAR_A_WALL_MM else edge + outward * ROUND_THE_DECK_MM
        for edge, wall, outward in zip(deck, loft, (-1, -1, 1, 1), strict=True)
    )
    return left, low, right, high


def _rectangle(box: tuple[int, int, int, int]) -> Polygon:
    left, low, right, high = box
    return ((left, low), (right, low), (right, high), (left, high))


def _draw(
    sheet: PlanSheet, zone: ZoneDesign, marks: SettingOutList, window: tuple[int, int, int, int]
) -> None:
    canvas, view = sheet.canvas, sheet.view
    loft_parts.define_patterns(canvas)
    over = [(x + dx, y + dy) for (x, y), (dx, dy) in zip(_frame(view, window), PAST_THE_WINDOW, strict=True)]
    canvas.open_clipped("window", over)
    loft_parts.draw_walls(sheet)
    loft_parts.draw_deck(sheet, traced=True)
    loft_parts.draw_joists(sheet)
    loft_parts.draw_keep_outs(sheet)
    loft_parts.draw_supports(sheet)
    loft_parts.name_keep_outs(sheet)
    canvas.close_group()
    _draw_datum(sheet, marks.datum)
    _draw_joist_positions(sheet, marks, window)
    _draw_support_positions(sheet, marks, window)
    draw_foot(sheet, _notes(zone), datum=marks.datum.in_short)


def _draw_datum(sheet: PlanSheet, datum: Datum) -> None:
    """The corner both tapes begin at, the end of the line, and the corner opposite, beside the deck."""
    draw_datum(sheet.canvas, sheet.view.at(datum.at))
    for letter, corner in ((CORNER, datum.at), (LINE_END, datum.line_end), (OPPOSITE, datum.opposite)):
        x, y = sheet.view.at(corner)
        aside = -15 if corner[0] == datum.at[0] else 15
        away = 12 if corner[1] == datum.at[1] else -12
        box = label_box((x + aside, y + away), letter)
        write_in(sheet.canvas, "text--strong", box, letter, ground=True)
        sheet.room.take(box)


PAST_THE_WINDOW = ((-12.0, 12.0), (12.0, 12.0), (12.0, -12.0), (-12.0, -12.0))
"""Room round the window for a wall's thickness and the ends of joists. [px]"""


def _frame(view: View, window: tuple[int, int, int, int]) -> list[tuple[float, float]]:
    return view.corners(_rectangle(window))


def _lines(sheet: PlanSheet, window: tuple[int, int, int, int]) -> tuple[Line, Line]:
    """The dimension line below the window and the one on its right."""
    view = sheet.view
    below = Line(level=True, line_px=view.y(window[1]) + NUMBERS_PX + 14, place=view.x, outward=1)
    beside = Line(level=False, line_px=view.x(window[2]) + 22, place=view.y, outward=1)
    return below, beside


def _from_datum(line: Line, datum_mm: int) -> Line:
    """A dimension line whose positions are readings from the datum."""
    return replace(line, place=lambda reading: line.place(reading + datum_mm))


def _draw_joist_positions(sheet: PlanSheet, marks: SettingOutList, window: tuple[int, int, int, int]) -> None:
    """The joists that carry the zone: each with its number, and its reading along the line."""
    upright = _is_upright(marks.datum)
    below, beside = _lines(sheet, window)
    line = below if upright else _further(beside, NUMBERS_PX - 4)
    line = _from_datum(line, marks.datum.at[0 if upright else 1])
    edge = sheet.view.y(window[1]) + 4 if upright else sheet.view.x(window[2]) + 4
    readings = {each.joist: each.reading_mm for each in marks.joists}
    running(sheet.canvas, line, sorted({0, *readings.values(), marks.datum.line_mm}), feet=lambda _: edge)
    places = sorted(line.place(at) for at in readings.values())
    apart = min((after - before for before, after in pairwise(places)), default=NUMBERS_PX)
    every = 1 if apart >= text_width_px(str(max(readings, default=1))) + 4 else 5
    for rank, (number, at) in enumerate(readings.items()):
        if rank % every:
            continue
        place = line.place(at)
        spot = (place, edge + 10) if upright else (edge + 16, place)
        write_in(sheet.canvas, "text--strong", label_box(spot, str(number)), str(number), ground=True)


def _is_upright(datum: Datum) -> bool:
    """Whether the joists run up the sheet, square to the line."""
    return datum.line_end[1] == datum.at[1]


def _further(line: Line, further_px: float) -> Line:
    return replace(line, line_px=line.line_px + line.outward * further_px)


def _draw_support_positions(
    sheet: PlanSheet, marks: SettingOutList, window: tuple[int, int, int, int]
) -> None:
    datum, upright = marks.datum, _is_upright(marks.datum)
    below, beside = _lines(sheet, window)
    line = _from_datum(beside if upright else below, datum.at[1 if upright else 0])
    shared = shared_readings(marks)
    edge = sheet.view.x(window[2]) + 4 if upright else sheet.view.y(window[1]) + 4
    running(sheet.canvas, line, sorted({0, *shared}), feet=lambda _: edge)
    for each in marks.joists:
        for mark in each.marks:
            if mark.reading_mm not in shared:
                x, y = datum.at
                at = (x + each.reading_mm, y + mark.reading_mm)
                if not upright:
                    at = (x + mark.reading_mm, y + each.reading_mm)
                _write_beside(sheet, at, str(mark.reading_mm))


def shared_readings(marks: SettingOutList) -> tuple[int, ...]:
    """Return the readings along the joists that at least half of the zone's joists share.

    Args:
        marks: The setting-out list of a zone. Record. [mm]

    Returns:
        The readings from the line, rising. Tuple. [mm]

    Source:
        Own definition.
    """
    counted = Counter(mark.reading_mm for each in marks.joists for mark in each.marks)
    return tuple(sorted(at for at, joists in counted.items() if 2 * joists >= len(marks.joists)))


def _write_beside(sheet: PlanSheet, at: Point, words: str) -> None:
    x, y = sheet.view.at(at)
    aside = text_width_px(words) / 2 + 5
    wished = [
        (x + aside, y),
        (x - aside, y),
        (x + aside, y - 8),
        (x + aside, y + 8),
        (x, y - 10),
        (x, y + 10),
    ]
    box = sheet.room.first_free(wished, words) or label_box(wished[0], words)
    write_in(sheet.canvas, "text", box, words, ground=True)
    sheet.room.take(box)


def _notes(zone: ZoneDesign) -> tuple[str, ...]:
    return _note(zone), *zone.moves_in_words, zone.rows_in_words


def _note(zone: ZoneDesign) -> str:
    heights = Counter(each.height_mm for each in zone.pedestals)
    if zone.pedestals:
        told = [f"{count} of {height} mm" for height, count in sorted(heights.items())]
        supports = f"Pedestals: {', '.join(told)}."
    else:
        supports = f"Battens {zone.support_height_mm.value} mm high, {len(zone.battens)} of them."
    gauge = f" Gauge between bases along the joist {zone.gauge_mm.value} mm." if zone.gauge_mm else ""
    packing = " Packing by joist: see the list." if any(each.packing_mm for each in zone.setting_out) else ""
    return f"{supports}{gauge}{packing}"
