"""What stands at the foot of a plan: the datum in words, the scale bar, the north arrow."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin

from estimating.drawing.plan_sheet import PlanSheet
from estimating.drawing.svg import Canvas, Spot, number, text_width_px
from estimating.drawing.view import Format
from estimating.drawing.wrapping import wrapped

SCALE_BARS_M = (0.5, 1, 2, 5, 10)
NORTH_PX = 13.0
FOOT_PX = 58.0
DATUM_OF_THE_LOFT = "left gable, front eaves."
LINE_PX, LINES_IN_FOOT = 16.0, 3
WORDS_LEAVE_PX = 240.0  # to the datum mark, the scale bar and the north arrow


def draw_datum(canvas: Canvas, at: Spot) -> None:
    """Draw the datum mark: a circle with two quarters filled.

    Args:
        canvas: The drawing. Record. [-]
        at: Its centre. Spot. [px]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    x, y = (number(part) for part in at)
    canvas.circle("ground", at, 7)
    canvas.circle("mark", at, 6)
    canvas.path("mark--solid", f"M{x} {y}v-6a6 6 0 0 1 6 6zM{x} {y}v6a6 6 0 0 1 -6 -6z")


def draw_north(canvas: Canvas, centre: Spot, north_degrees: int) -> None:
    """Draw the north arrow, its letter at its head.

    Args:
        canvas: The drawing. Record. [-]
        centre: Its centre. Spot. [px]
        north_degrees: North, clockwise from the plan's y axis. Scalar. [degree]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    east, south = sin(radians(north_degrees)), -cos(radians(north_degrees))
    x, y = centre

    def spot(along: float, aside: float) -> Spot:
        return x + east * along - south * aside, y + south * along + east * aside

    canvas.circle("dimension", centre, NORTH_PX)
    canvas.line("mark", spot(-NORTH_PX, 0), spot(NORTH_PX, 0))
    canvas.polygon("mark--solid", [spot(NORTH_PX, 0), spot(0, 4.5), spot(0, -4.5)])
    letter = spot(NORTH_PX + 9, 0)
    canvas.words("text--strong", (letter[0], letter[1] + 4.3), "N")


def draw_scale_bar(canvas: Canvas, right: Spot, px_per_mm: float, most_px: float) -> None:
    """Draw the longest scale bar there is room for.

    Args:
        canvas: The drawing. Record. [-]
        right: Its right end. Spot. [px]
        px_per_mm: The scale. Scalar. [px/mm]
        most_px: The most it may take. Scalar. [px]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    metres = max(
        (each for each in SCALE_BARS_M if each * 1000 * px_per_mm <= most_px), default=SCALE_BARS_M[0]
    )
    length = metres * 1000 * px_per_mm
    left, y = right[0] - length, right[1]
    half = length / 2
    canvas.box("mark--solid", (left, y), (half, 4))
    canvas.box("mark", (left + half, y), (half, 4))
    canvas.words("text", (left, y - 4), "0")
    canvas.words("text", (right[0], y - 4), f"{metres:g} m")


def foot_px(notes: Sequence[str], drawn_for: Format) -> float:
    """Give the height of the strip below a plan, which grows with what there is to say.

    Args:
        notes: What is said at its left, a sentence each. Sequence of text. [-]
        drawn_for: The room for the whole drawing. Record. [px]

    Returns:
        The height. Scalar. [px]

    Source:
        Own definition.
    """
    return FOOT_PX + LINE_PX * max(0, len(_lines(notes, drawn_for)) - LINES_IN_FOOT)


def _lines(notes: Sequence[str], drawn_for: Format, datum: str = DATUM_OF_THE_LOFT) -> list[str]:
    """What is written; nothing on a narrow sheet, where there is no room for it."""
    if drawn_for.is_narrow:
        return []
    said = wrapped([words for words in notes if words], drawn_for.width_px - WORDS_LEAVE_PX)
    return [f"Datum: {datum} Dimensions in mm.", *said]


def draw_foot(sheet: PlanSheet, notes: Sequence[str], *, datum: str = DATUM_OF_THE_LOFT) -> None:
    """Draw the strip below the plan.

    Args:
        sheet: The plan. Record. [-]
        notes: What is said at its left, a sentence each. Sequence of text. [-]
        datum: What positions are measured from. Text. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    canvas, drawn_for = sheet.canvas, sheet.drawn_for
    lines = _lines(notes, drawn_for, datum)
    first = (
        canvas.height_px - foot_px(notes, drawn_for) + 36 - LINE_PX / 2 * (min(len(lines), LINES_IN_FOOT) - 1)
    )
    y = canvas.height_px - FOOT_PX + 32
    draw_north(canvas, (drawn_for.width_px - 34, y), sheet.survey.north_degrees)
    room: float = drawn_for.width_px - 100
    if lines:
        draw_datum(canvas, (14, first - 4))
        for rank, words in enumerate(lines):
            canvas.words("text--soft drawing__text--start", (28, first + LINE_PX * rank), words)
        room -= 40 + max(text_width_px(words) for words in lines)
    draw_scale_bar(canvas, (drawn_for.width_px - 84, y + 4), sheet.view.px_per_mm, min(room, 200))
