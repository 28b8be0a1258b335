"""Laying numbers on a plan: in the board, up it where it is narrow, beside it where it is thin."""

from __future__ import annotations

from estimating.design.boards.layout import Piece
from estimating.design.design import ZoneDesign
from estimating.drawing.labels import RISE, Box, Room, label_box, write_in
from estimating.drawing.numbering import laying_numbers, piece_name
from estimating.drawing.plan_sheet import PlanSheet, on_plan
from estimating.drawing.svg import TEXT_PX, Spot, text_width_px
from estimating.plane import Point, bounds, contains

ALONG_A_BOARD = (0.5, 0.25, 0.75, 0.12, 0.88, 0.38, 0.62)
BESIDE_MM = 40
"""How far beside a piece to look for open loft, where the number of a thin strip can stand."""


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
            elif not _number_upright(sheet, around, name):
                _number_beside(sheet, zone, piece, name)


def _number_upright(sheet: PlanSheet, around: Box, name: str) -> bool:
    """Write the number up a board that is too narrow for it to lie level, if it fits that way."""
    level = label_box((0, 0), name)
    if level.right <= level.bottom:
        return False
    for x, y in _lanes(around)[0]:
        box = Box(x + level.top, y + level.left, x + level.bottom, y + level.right)
        if around.holds(box) and sheet.room.is_free(box):
            sheet.canvas.words("text--strong", (x + TEXT_PX * RISE, y), name, upright=True)
            sheet.room.take(box)
            return True
    return False


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
