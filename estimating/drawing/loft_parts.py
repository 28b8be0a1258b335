"""The parts of a plan, drawn where they lie: loft, joists, boards, supports, hatch and keep-outs."""

from __future__ import annotations

from estimating.design.design import ZoneDesign
from estimating.drawing.labels import Box, label_box, write_in
from estimating.drawing.numbering import laying_numbers, piece_name
from estimating.drawing.plan_sheet import PlanSheet, is_cut, on_plan
from estimating.drawing.svg import TEXT_PX, Canvas, Spot, number, text_width_px
from estimating.plane import Polygon
from estimating.survey import Axis, JoistField

PAST_THE_WALL_PX = 10.0


def draw_walls(sheet: PlanSheet) -> None:
    """Draw the walls round the loft.

    Args:
        sheet: The plan. Record. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    corners = sheet.view.corners(sheet.survey.outline)
    sheet.canvas.polygon("wall", corners)
    sheet.canvas.polygon("ground", corners)
    sheet.canvas.polygon("outline", corners)


def draw_open_wool(sheet: PlanSheet) -> None:
    """Draw the wool that lies open between the walls.

    Args:
        sheet: The plan. Record. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    sheet.canvas.polygon("", sheet.view.corners(sheet.survey.outline), fill="wool")


def define_patterns(canvas: Canvas) -> None:
    """Define the wave of the wool and the hatching of what the deck goes round.

    Args:
        canvas: The drawing. Record. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    pattern = '<pattern id="{}-{}" width="{}" height="{}" patternUnits="userSpaceOnUse">{}</pattern>'
    wave = '<path class="drawing__wool" d="M-1 5.5Q4 -0.5 9 5.5T19 5.5"/>'
    slant = '<path class="drawing__hatching" d="M-2 2L2 -2M0 8L8 0M6 10L10 6"/>'
    canvas.define(pattern.format(canvas.prefix, "wool", 18, 10, wave))
    canvas.define(pattern.format(canvas.prefix, "hatching", 8, 8, slant))


def joist_stretches(joists: JoistField, line_mm: int) -> list[tuple[int, int]]:
    """Return where one joist runs inside its field.

    Args:
        joists: The field. Record. [mm]
        line_mm: The joist's centre line. Scalar. [mm]

    Returns:
        Low and high end of each stretch, along the joist. List of pairs. [mm]

    Source:
        Geometry (crossing count).
    """
    across, along = (1, 0) if joists.runs_along is Axis.X else (0, 1)
    corners = joists.outline
    for line in (line_mm, line_mm - 1, line_mm + 1):
        ends = sorted(
            round(a[along] + (b[along] - a[along]) * (line - a[across]) / (b[across] - a[across]))
            for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
            if (a[across] <= line) != (b[across] <= line)
        )
        if ends:
            return list(zip(ends[0::2], ends[1::2], strict=True))
    return []


def draw_joists(sheet: PlanSheet) -> None:
    """Draw every joist's centre line, a little past the walls so that it can be numbered and dimensioned.

    Args:
        sheet: The plan. Record. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Centre lines long-dashed and dotted: BS EN ISO 128-2:2020, from memory.
    """
    view, past = sheet.view, PAST_THE_WALL_PX
    for joists in sheet.survey.joist_fields:
        lines: list[tuple[Spot, Spot]] = []
        for line in joists.centre_lines_mm:
            for low, high in joist_stretches(joists, line):
                if joists.runs_along is Axis.Y:
                    lines.append(((view.x(line), view.y(high) - past), (view.x(line), view.y(low) + past)))
                else:
                    lines.append(((view.x(low) - past, view.y(line)), (view.x(high) + past, view.y(line))))
        sheet.canvas.lines("joist", lines)


def draw_deck(sheet: PlanSheet, *, traced: bool = False) -> None:
    """Draw the boards of every zone, its edge bearers, supports and heavy edge.

    Args:
        sheet: The plan. Record. [-]
        traced: Whether boards are outlines only, so that what is below them shows. Scalar. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    canvas, view = sheet.canvas, sheet.view
    for rank, zone in enumerate(sheet.design.zones):
        edge = view.corners(zone.finished_edge)
        canvas.open_clipped(f"deck-{rank}", edge)
        _draw_boards(sheet, zone, traced=traced)
        canvas.close_group()
        if zone.layout is None:
            canvas.polygon("board--traced", edge)
            box = label_box(sheet.box_of(zone.finished_edge).middle, "no layout meets every rule")
            write_in(canvas, "text--strong", box, "no layout meets every rule", ground=True)
            sheet.room.take(box)
        canvas.lines("bearer", [(view.at(a), view.at(b)) for a, b in zone.edge_bearers])
        canvas.polygon("edge", edge)


def _draw_boards(sheet: PlanSheet, zone: ZoneDesign, *, traced: bool) -> None:
    numbers, letter = laying_numbers(zone), sheet.letters[zone.zone]
    for piece in zone.layout.pieces if zone.layout else ():
        name = piece_name(letter, numbers[piece.number])
        kind = "board--traced" if traced else "board--cut" if is_cut(zone, piece) else "board"
        if sheet.chosen == f"board {name}":
            kind += " drawing__board--chosen"
        box = sheet.box_of(on_plan(zone, piece))
        corner, size = (box.left, box.top), (box.right - box.left, box.bottom - box.top)
        sheet.canvas.box(kind, corner, size, part=f"board {name}")


def draw_supports(sheet: PlanSheet) -> None:
    """Draw the pedestals as solid squares and the battens as lines.

    Args:
        sheet: The plan. Record. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    side = 3.0 if sheet.drawn_for.is_narrow else 5.0
    view = sheet.view
    for zone in sheet.design.zones:
        sheet.canvas.lines("batten", [(view.at(a), view.at(b)) for a, b in zone.battens])
        outline = "".join(_square(view.at(pedestal.at), side) for pedestal in zone.pedestals)
        if outline:
            sheet.canvas.path("pedestal", outline)


def _square(spot: Spot, side: float) -> str:
    left, top, across = number(spot[0] - side / 2), number(spot[1] - side / 2), number(side)
    return f"M{left} {top}h{across}v{across}h-{across}z"


def draw_keep_outs(sheet: PlanSheet) -> None:
    """Draw the hatch and every keep-out, hatched.

    Args:
        sheet: The plan. Record. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    for name, outline, kind in _goes_round(sheet):
        chosen = kind + "--chosen" if kind == "keep-out" and sheet.chosen == name else kind
        corners = sheet.view.corners(outline)
        sheet.canvas.polygon(chosen, corners, part=name)
        sheet.canvas.polygon("", corners, fill="hatching")
        sheet.room.take(sheet.box_of(outline))


def name_keep_outs(sheet: PlanSheet) -> None:
    """Name the hatch and every keep-out, over whatever else is drawn there.

    Args:
        sheet: The plan. Record. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    for name, outline, _ in _goes_round(sheet):
        _name_keep_out(sheet, name, outline)


def _goes_round(sheet: PlanSheet) -> list[tuple[str, Polygon, str]]:
    """What the deck goes round and is seen on the sheet, the hatch last: name, outline and kind."""
    named = [(each.name, each.outline, "keep-out") for each in sheet.survey.keep_outs]
    named.append(("hatch", sheet.survey.hatch.outline, "hatch"))
    return [each for each in named if sheet.is_seen(each[1])]


def _name_keep_out(sheet: PlanSheet, name: str, outline: Polygon) -> None:
    """Inside when it fits, else beside it where there is room."""
    around = sheet.box_of(outline)
    inside = label_box(around.middle, name)
    if around.holds(inside):
        write_in(sheet.canvas, "text", inside, name, ground=True)
        return
    x, y = around.middle
    aside, above = text_width_px(name) / 2 + 6, TEXT_PX / 2 + 5
    left, right, top, bottom = (
        around.left - aside,
        around.right + aside,
        around.top - above,
        around.bottom + above,
    )
    paper = Box(0, 0, sheet.canvas.width_px, sheet.canvas.height_px)
    places = [(right, y), (left, y), (x, top), (x, bottom)]
    box = sheet.room.first_free(places, name, within=paper)
    if box:
        write_in(sheet.canvas, "text", box, name, ground=True)
        sheet.room.take(box)
