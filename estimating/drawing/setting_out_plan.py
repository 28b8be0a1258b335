"""The plan the crew sets out from: one zone as large as the paper takes, every joist and support placed."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise

from estimating.design.design import Design, ZoneDesign
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
from estimating.survey import Axis, JoistField, Survey

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

    Positions that most joists share stand along the edge, counted from the datum; any other stands beside
    its own support, so that nothing is left to be measured off the paper.

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
    _draw(sheet, drawn, joists, window)
    title = f"Setting out of {zone}, loft {survey.reference}"
    return sheet.canvas.svg(
        title=title, description=" ".join(_notes(drawn)).strip(), palette=drawn_for.palette
    )


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


def _draw(sheet: PlanSheet, zone: ZoneDesign, joists: JoistField, window: tuple[int, int, int, int]) -> None:
    canvas, view = sheet.canvas, sheet.view
    left, low, _, _ = window
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
    _draw_joist_positions(sheet, zone, joists, window)
    _draw_support_positions(sheet, zone, joists, window)
    if left <= 0 and low <= 0:
        draw_datum(canvas, view.at((0, 0)))
    draw_foot(sheet, _notes(zone))


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


def _draw_joist_positions(
    sheet: PlanSheet, zone: ZoneDesign, joists: JoistField, window: tuple[int, int, int, int]
) -> None:
    """The joists that carry the zone: each with its number, and counted from the datum."""
    upright = joists.runs_along is Axis.Y
    below, beside = _lines(sheet, window)
    line = below if upright else _further(beside, NUMBERS_PX - 4)
    start = sheet.view.x(window[0]) - 12 if upright else sheet.view.y(window[1]) + 12
    datum_seen = (window[0] if upright else window[1]) <= 0
    carried = {each.joist: each.joist_line_mm for each in zone.setting_out}
    edge = sheet.view.y(window[1]) + 4 if upright else sheet.view.x(window[2]) + 4
    running(
        sheet.canvas,
        line,
        sorted(at for at in {*carried.values(), *_deck_edges(zone, joists)} if at > 0),
        feet=lambda _: edge,
        start_px=None if datum_seen else start,
    )
    places = sorted(line.place(at) for at in carried.values())
    apart = min((after - before for before, after in pairwise(places)), default=NUMBERS_PX)
    every = 1 if apart >= text_width_px(str(max(carried, default=1))) + 4 else 5
    for rank, (number, at) in enumerate(carried.items()):
        if rank % every:
            continue
        place = line.place(at)
        spot = (place, edge + 10) if upright else (edge + 16, place)
        write_in(sheet.canvas, "text--strong", label_box(spot, str(number)), str(number), ground=True)


def _deck_edges(zone: ZoneDesign, joists: JoistField) -> tuple[int, int]:
    left, low, right, high = bounds(zone.finished_edge)
    return (left, right) if joists.runs_along is Axis.Y else (low, high)


def _further(line: Line, further_px: float) -> Line:
    return replace(line, line_px=line.line_px + line.outward * further_px)


def _draw_support_positions(
    sheet: PlanSheet, zone: ZoneDesign, joists: JoistField, window: tuple[int, int, int, int]
) -> None:
    upright = joists.runs_along is Axis.Y
    below, beside = _lines(sheet, window)
    line = beside if upright else below
    shared = shared_positions(zone)
    edge = sheet.view.x(window[2]) + 4 if upright else sheet.view.y(window[1]) + 4
    start = sheet.view.y(window[1]) + 12 if upright else sheet.view.x(window[0]) - 12
    datum_seen = (window[1] if upright else window[0]) <= 0
    running(
        sheet.canvas,
        line,
        [at for at in shared if at > 0],
        feet=lambda _: edge,
        start_px=None if datum_seen else start,
    )
    for each in zone.setting_out:
        for position in each.positions_mm:
            if position not in shared:
                at = (each.joist_line_mm, position) if upright else (position, each.joist_line_mm)
                _write_beside(sheet, at, str(position))


def shared_positions(zone: ZoneDesign) -> tuple[int, ...]:
    """Return the positions along the joists that at least half of the zone's joists share.

    Args:
        zone: The zone. Record. [mm]

    Returns:
        The positions from the datum, rising. Tuple. [mm]

    Source:
        Own definition.
    """
    counted = Counter(position for each in zone.setting_out for position in each.positions_mm)
    return tuple(sorted(at for at, joists in counted.items() if 2 * joists >= len(zone.setting_out)))


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
    count = len(zone.pedestals) or len(zone.battens)
    supports = "Pedestals" if zone.pedestals else "Battens"
    gauge = f" Gauge between bases along the joist {zone.gauge_mm.value} mm." if zone.gauge_mm else ""
    return f"{supports} {zone.support_height_mm.value} mm high, {count} of them.{gauge}"
