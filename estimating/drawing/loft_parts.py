"""The parts of a plan, drawn where they lie: loft, joists, boards, supports, hatch and keep-outs."""

from __future__ import annotations

from dataclasses import dataclass, field

from estimating.design.boards.layout import Piece
from estimating.design.design import Design, PlacedPedestal, ZoneDesign
from estimating.drawing.labels import Box, Room, box_around, label_box, write_in
from estimating.drawing.numbering import laying_numbers, piece_name
from estimating.drawing.svg import TEXT_PX, Canvas, Spot, number, text_width_px
from estimating.drawing.view import Format, View
from estimating.plane import Point, Polygon, bounds, contains, quarter_turned
from estimating.survey import Axis, JoistField, Survey

PAST_THE_WALL_PX = 10.0
ALONG_A_BOARD = (0.5, 0.25, 0.75, 0.12, 0.88, 0.38, 0.62)
BESIDE_MM = 40
"""How far beside a piece to look for open loft, where the number of a thin strip can stand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanSheet:
    """What every part of a plan is drawn from and drawn onto."""

    survey: Survey
    design: Design
    view: View
    drawn_for: Format
    canvas: Canvas
    letters: dict[str, str]
    chosen: str | None
    room: Room = field(default_factory=Room)

    def box_of(self, polygon: Polygon) -> Box:
        """Return the room a shape of the plan takes on the sheet."""
        return box_around(self.view.corners(polygon))


def on_plan(zone: ZoneDesign, piece: Piece) -> Polygon:
    """Turn a piece from its zone's own frame onto the plan.

    Args:
        zone: The zone. Record. [-]
        piece: The piece. Record. [mm]

    Returns:
        Its corners, before notching. Polygon. [mm]

    Source:
        Geometry.
    """
    corners = ((piece.x0, piece.y0), (piece.x1, piece.y0), (piece.x1, piece.y1), (piece.x0, piece.y1))
    return quarter_turned(corners, -zone.turns)


def is_cut(zone: ZoneDesign, piece: Piece) -> bool:
    """Say whether a piece is less than a whole board.

    A board that is notched round something is cut too, but it is bought and carried whole.

    Args:
        zone: The zone. Record. [-]
        piece: The piece. Record. [mm]

    Returns:
        Whether it is cut across or ripped. Scalar. [-]

    Source:
        Own definition.
    """
    rules, product = zone.problem.rules, zone.problem.product
    whole = product.cover_length_mm - rules.gap_tolerance_mm
    return piece.length_mm < whole or piece.width_mm < product.cover_width_mm


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
        for piece in zone.layout.pieces if zone.layout else ():
            _draw_board(sheet, zone, piece, traced=traced)
        canvas.close_group()
        if zone.layout is None:
            canvas.polygon("board--traced", edge)
            box = label_box(sheet.box_of(zone.finished_edge).middle, "no layout meets every rule")
            write_in(canvas, "text--strong", box, "no layout meets every rule", ground=True)
            sheet.room.take(box)
        canvas.lines("bearer", [(view.at(a), view.at(b)) for a, b in zone.edge_bearers])
        canvas.polygon("edge", edge)


def _draw_board(sheet: PlanSheet, zone: ZoneDesign, piece: Piece, *, traced: bool) -> None:
    name = piece_name(sheet.letters[zone.zone], laying_numbers(zone)[piece.number])
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


def pedestals_seen(zone: ZoneDesign) -> tuple[PlacedPedestal, ...]:
    """Return the pedestals of a zone from the datum outward, joist by joist.

    Args:
        zone: The zone. Record. [-]

    Returns:
        The pedestals. Tuple of records. [mm]

    Source:
        Own definition.
    """
    return tuple(sorted(zone.pedestals, key=lambda pedestal: (pedestal.joist, pedestal.at)))


def draw_keep_outs(sheet: PlanSheet) -> None:
    """Draw the hatch and every keep-out, hatched and named.

    Args:
        sheet: The plan. Record. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    named = [(each.name, each.outline, "keep-out") for each in sheet.survey.keep_outs]
    named.append(("hatch", sheet.survey.hatch.outline, "hatch"))
    for name, outline, kind in named:
        chosen = kind + "--chosen" if kind == "keep-out" and sheet.chosen == name else kind
        corners = sheet.view.corners(outline)
        sheet.canvas.polygon(chosen, corners, part=name)
        sheet.canvas.polygon("", corners, fill="hatching")
        sheet.room.take(sheet.box_of(outline))
    for name, outline, _ in named:
        _name_keep_out(sheet, name, outline)


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
    box = sheet.room.first_free([(right, y), (left, y), (x, top), (x, bottom)], name)
    if box:
        write_in(sheet.canvas, "text", box, name, ground=True)
        sheet.room.take(box)


def number_boards(sheet: PlanSheet) -> None:
    """Write each board's laying number where there is room for it; the table names every board.

    Args:
        sheet: The plan. Record. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    for zone in sheet.design.zones:
        numbers, letter = laying_numbers(zone), sheet.letters[zone.zone]
        for piece in zone.layout.pieces if zone.layout else ():
            name = piece_name(letter, numbers[piece.number])
            around = sheet.box_of(on_plan(zone, piece))
            box = _place_in(sheet.room, around, name)
            if box:
                write_in(sheet.canvas, "text--strong", box, name)
                sheet.room.take(box)
            else:
                _number_beside(sheet, zone, piece, name)


def _place_in(room: Room, around: Box, name: str) -> Box | None:
    """On the centre line, clear of faint lines if that can be; else off it; the middle before the ends."""
    centre, *others = _lanes(around)
    return (
        room.first_free(centre, name, within=around, faint_too=True)
        or room.first_free(centre, name, within=around)
        or room.first_free((spot for lane in others for spot in lane), name, within=around)
    )


def _lanes(around: Box) -> list[list[Spot]]:
    across, down = around.right - around.left, around.bottom - around.top
    lanes: list[list[Spot]] = []
    for lane in (0.5, 0.25, 0.75, 0.16, 0.84):
        parts = [(part, lane) if across >= down else (lane, part) for part in ALONG_A_BOARD]
        lanes.append([(around.left + across * x, around.top + down * y) for x, y in parts])
    return lanes


def _number_beside(sheet: PlanSheet, zone: ZoneDesign, piece: Piece, name: str) -> None:
    """Lead the number of a thin strip out into the open loft, if the loft is open there."""
    left, low, right, high = bounds(on_plan(zone, piece))
    x, y = (left + right) // 2, (low + high) // 2
    beside: list[tuple[Point, Spot]] = [
        ((x, high + BESIDE_MM), (0, -1)), ((x, low - BESIDE_MM), (0, 1)),
        ((left - BESIDE_MM, y), (-1, 0)), ((right + BESIDE_MM, y), (1, 0)),
    ]  # fmt: skip
    for point, (across, down) in beside:
        if any(contains(each.finished_edge, point) for each in sheet.design.zones):
            continue
        start = sheet.view.at((x, y))
        half_width = abs(sheet.view.x(right) - sheet.view.x(left)) / 2
        half_height = abs(sheet.view.y(high) - sheet.view.y(low)) / 2
        off = (half_width + 8 + text_width_px(name) / 2) * across, (half_height + 13) * down
        shifts = (0.0, 12.0, -12.0)
        middles = [
            (start[0] + off[0] + shift * abs(down), start[1] + off[1] + shift * abs(across))
            for shift in shifts
        ]
        box = sheet.room.first_free(middles, name)
        if box:
            sheet.canvas.line("leader", start, (box.middle[0] - across * 4, box.middle[1] - down * 4))
            write_in(sheet.canvas, "text--strong", box, name, ground=True)
            sheet.room.take(box)
            return
