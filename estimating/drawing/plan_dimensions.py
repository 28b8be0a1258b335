"""What stands round a plan: joist numbers and centres, deck and loft sizes, positions from the datum."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from estimating.design.design import Design
from estimating.drawing.dimensions import Axis as Line
from estimating.drawing.dimensions import chain, running
from estimating.drawing.labels import Box
from estimating.drawing.loft_parts import PAST_THE_WALL_PX
from estimating.drawing.plan_foot import foot_px
from estimating.drawing.plan_notes import plan_notes
from estimating.drawing.plan_sheet import PlanSheet
from estimating.drawing.svg import TEXT_PX, text_width_px
from estimating.drawing.view import Format, Margins
from estimating.plane import Polygon, bounds
from estimating.survey import Axis, JoistField, Survey

BAND_PX = 22.0
NUMBERS_PX = 18.0
RUNNING_PX = 62.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Bands:
    """What is dimensioned along one axis of the plan, from the walls outward."""

    joist_fields: tuple[JoistField, ...]
    decks_mm: tuple[tuple[int, int], ...]
    loft_mm: tuple[int, int]

    def depth_px(self, *, narrow: bool) -> float:
        """Return the room the bands take."""
        if narrow:
            return BAND_PX + 4
        joists = len(self.joist_fields) * (NUMBERS_PX + BAND_PX)
        return PAST_THE_WALL_PX + joists + (len(self.decks_mm) + 1) * BAND_PX + 6


def bands(survey: Survey, design: Design, axis: Axis) -> Bands:
    """Gather what is dimensioned along one axis.

    Args:
        survey: What was measured. Record. [mm]
        design: Where everything goes. Record. [mm]
        axis: The axis dimensioned along. Axis. [-]

    Returns:
        The joist fields whose joists cross the axis, the deck's edges and the loft's. Record. [mm]

    Source:
        Own definition.
    """
    low, high = (0, 2) if axis is Axis.X else (1, 3)
    edges = [bounds(zone.finished_edge) for zone in design.zones]
    loft = bounds(survey.outline)
    return Bands(
        joist_fields=tuple(each for each in survey.joist_fields if each.runs_along is not axis),
        decks_mm=tuple(sorted({(box[low], box[high]) for box in edges})),
        loft_mm=(loft[low], loft[high]),
    )


def plan_margins(survey: Survey, design: Design, drawn_for: Format) -> Margins:
    """Return the room a plan needs round it.

    Args:
        survey: What was measured. Record. [mm]
        design: Where everything goes. Record. [mm]
        drawn_for: The room for the whole drawing. Record. [px]

    Returns:
        The margins. Record. [px]

    Source:
        Own definition.
    """
    level, upright = bands(survey, design, Axis.X), bands(survey, design, Axis.Y)
    beyond = 14.0 if drawn_for.is_narrow else RUNNING_PX
    return Margins(
        left=upright.depth_px(narrow=drawn_for.is_narrow) + 8,
        right=beyond,
        top=beyond,
        foot=level.depth_px(narrow=drawn_for.is_narrow) + foot_px(plan_notes(design), drawn_for),
    )


def draw_dimensions(sheet: PlanSheet) -> None:
    """Draw every dimension line round the plan.

    Args:
        sheet: The plan. Record. [-]

    Returns:
        Nothing. None. [-]

    Source:
        Own definition.
    """
    left, low, right, high = bounds(sheet.survey.outline)
    view = sheet.view
    _draw_bands(sheet, Axis.X, view.y(low), 1, view.x)
    _draw_bands(sheet, Axis.Y, view.x(left), -1, view.y)
    if sheet.drawn_for.is_narrow:
        return
    shapes = [sheet.survey.hatch.outline, *(each.outline for each in sheet.survey.keep_outs)]
    tops = _feet(shapes, 0, farthest=1)
    rights = _feet(shapes, 1, farthest=0)
    above = Line(level=True, line_px=view.y(high) - 18, place=view.x)
    running(sheet.canvas, above, sorted(tops), feet=lambda x_mm: view.y(tops[x_mm]))
    beside = Line(level=False, line_px=view.x(right) + 18, place=view.y, outward=1)
    running(sheet.canvas, beside, sorted(rights), feet=lambda y_mm: view.x(rights[y_mm]))
    for x_mm, foot in tops.items():
        sheet.room.faint.append(Box(view.x(x_mm) - 1, view.y(high), view.x(x_mm) + 1, view.y(foot)))
    for y_mm, foot in rights.items():
        sheet.room.faint.append(Box(view.x(foot), view.y(y_mm) - 1, view.x(right), view.y(y_mm) + 1))


def _feet(shapes: list[Polygon], along: int, *, farthest: int) -> dict[int, int]:
    """Each dimensioned position, with how far across the plan its shape reaches."""
    feet: dict[int, int] = {}
    for shape in shapes:
        box = bounds(shape)
        for position in (box[along], box[along + 2]):
            if position > 0:
                feet[position] = max(feet.get(position, 0), box[farthest + 2])
    return feet


def _draw_bands(
    sheet: PlanSheet, axis: Axis, wall_px: float, outward: int, place: Callable[[float], float]
) -> None:
    found = bands(sheet.survey, sheet.design, axis)
    level = axis is Axis.X

    def line(off_px: float) -> Line:
        return Line(level=level, line_px=wall_px + outward * off_px, place=place)

    if sheet.drawn_for.is_narrow:
        chain(sheet.canvas, line(BAND_PX - 2), found.loft_mm)
        return
    off = PAST_THE_WALL_PX
    for joists in found.joist_fields:
        _number_joists(sheet, joists, line(off + NUMBERS_PX / 2 + 2))
        off += NUMBERS_PX + BAND_PX
        chain(sheet.canvas, line(off), _from_datum(joists.centre_lines_mm))
    for deck in found.decks_mm:
        off += BAND_PX
        ends = {*found.loft_mm, *deck} if len(found.decks_mm) == 1 else {found.loft_mm[0], *deck}
        chain(sheet.canvas, line(off), sorted(ends))
    chain(sheet.canvas, line(off + BAND_PX), found.loft_mm)


def _from_datum(centre_lines_mm: tuple[int, ...]) -> tuple[int, ...]:
    return centre_lines_mm if centre_lines_mm[0] <= 0 else (0, *centre_lines_mm)


def _number_joists(sheet: PlanSheet, joists: JoistField, line: Line) -> None:
    """Number the joists from the datum: all of them, or every fifth and the ends where they are close."""
    places = [line.place(position) for position in joists.centre_lines_mm]
    apart = min(abs(b - a) for a, b in pairwise(places))
    every = 1 if apart >= text_width_px(str(len(places))) + 2 and apart >= TEXT_PX else 5
    for rank, place in enumerate(places, start=1):
        if rank in (1, len(places)) or rank % every == 0:
            x, y = line.spot(place)
            sheet.canvas.words("text--soft", (x, y + TEXT_PX * 0.36), str(rank))
