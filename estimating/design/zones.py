"""A zone of deck in its own frame, where x runs across whatever carries the boards.

Pedestals stand on joists, so boards run across joists. Battens run across joists, so boards on them run
across the battens. Either way the boards' long edges lie along x, and the rows rise with y.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil

from estimating.choices import Choices, RaiseWith
from estimating.design.boards.problem import (
    BoardProduct,
    KeepOutArea,
    LayingRules,
    LayoutProblem,
    PedestalRule,
)
from estimating.plane import Point, Polygon, bounds, inset_at_walls, overlap_area_mm2, quarter_turned
from estimating.price_book import Board, Pedestal
from estimating.refusals import Refusal, Requirements
from estimating.survey import Axis, DeckZone, JoistField, Survey

LEAST_PERIMETER_GAP_MM = 10
PERIMETER_GAP_MM_PER_M = 2


@dataclass(frozen=True, slots=True)
class JoistLine:
    """A joist under a zone: where its centre line lies in the zone's frame, and its number from the datum."""

    at_mm: int
    number: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneFrame:
    """One zone turned into its own frame, before a board is chosen.

    Joists are given by their x in the frame when boards run across them, by their y on battens; in rising
    order either way.
    """

    zone: DeckZone
    joist_field: JoistField
    raise_with: RaiseWith
    turns: int
    finished_edge: Polygon
    outline: Polygon
    keep_outs: tuple[KeepOutArea, ...]
    joists: tuple[JoistLine, ...]

    def on_plan(self, point: Point) -> Point:
        """Return where a point of the frame lies on plan."""
        return quarter_turned((point,), -self.turns)[0]

    @property
    def joist_lines(self) -> tuple[int, ...]:
        return tuple(joist.at_mm for joist in self.joists)

    @property
    def widest_bay_mm(self) -> int:
        """The greatest distance between neighbouring joists under the zone."""
        lines = self.joist_lines
        return max((b - a for a, b in pairwise(lines)), default=0)


def zone_frames(survey: Survey, choices: Choices) -> tuple[ZoneFrame, ...]:
    """Turn every zone into its own frame, its perimeter gap taken off.

    Args:
        survey: The loft as measured. Record. [mm]
        choices: How the deck is raised, and whether it keeps off the walls. Record. [-]

    Returns:
        One frame for each zone, in the survey's order. Sequence. [mm]

    Raises:
        Refusal: Zones overlap, no joist lies under one, or nothing is left of one.

    Source:
        Boards across what carries them: NHBC Standards 6.4.19; geometry.
    """
    needs = Requirements()
    for number, zone in enumerate(survey.zones):
        for other in survey.zones[:number]:
            apart = overlap_area_mm2(zone.outline, other.outline) == 0
            needs.require(apart, f"zones[{number}].outline", f"must not overlap zone {other.name}")
    needs.settle()
    frames = []
    for number, zone in enumerate(survey.zones):
        try:
            frames.append(_frame(survey, choices, zone))
        except Refusal as refusal:
            needs.note(Refusal(f"zones[{number}].{refusal.field}", refusal.requirement))
    needs.settle()
    return tuple(frames)


def perimeter_gap_mm(outline: Polygon) -> int:
    """Give the gap that a deck keeps from the walls, because chipboard swells.

    Args:
        outline: The deck as wished. Polygon. [mm]

    Returns:
        The gap. Scalar. [mm]

    Source:
        2 mm for each metre of span: LABC Warranty, floor decks; at least 10 mm: NBS K11/325 as used in a
        project specification of 2014.
    """
    left, low, right, high = bounds(outline)
    return max(
        LEAST_PERIMETER_GAP_MM, ceil(Fraction(max(right - left, high - low) * PERIMETER_GAP_MM_PER_M, 1000))
    )


def _frame(survey: Survey, choices: Choices, zone: DeckZone) -> ZoneFrame:
    joist_field = survey.joist_field(zone.joist_field)
    on_battens = choices.raise_with is RaiseWith.BATTENS
    turns = int((joist_field.runs_along is Axis.X) != on_battens)
    edge = zone.outline
    if choices.perimeter_gap:
        edge = inset_at_walls(edge, survey.outline, perimeter_gap_mm(edge))
    outline = quarter_turned(edge, turns)
    joists = _joists_under(joist_field, outline, turns, on_battens)
    if not joists:
        raise Refusal("outline", f"must have a joist of {joist_field.name} under it")
    return ZoneFrame(
        zone=zone,
        joist_field=joist_field,
        raise_with=choices.raise_with,
        turns=turns,
        finished_edge=edge,
        outline=outline,
        keep_outs=_keep_outs(survey, edge, turns),
        joists=joists,
    )


def _joists_under(
    joist_field: JoistField, outline: Polygon, turns: int, on_battens: bool
) -> tuple[JoistLine, ...]:
    left, low, right, high = bounds(outline)
    first, last = (low, high) if on_battens else (left, right)
    sign = -1 if turns and not on_battens else 1
    numbered = enumerate(joist_field.centre_lines_mm, start=1)
    lines = [JoistLine(sign * line, number) for number, line in numbered if first <= sign * line <= last]
    return tuple(sorted(lines, key=lambda joist: joist.at_mm))


def _keep_outs(survey: Survey, edge: Polygon, turns: int) -> tuple[KeepOutArea, ...]:
    areas = [KeepOutArea(each.name, each.kind.value, each.outline) for each in survey.keep_outs]
    areas.append(KeepOutArea("hatch", "hatch", survey.hatch.outline))
    return tuple(
        KeepOutArea(area.name, area.kind, quarter_turned(area.outline, turns))
        for area in areas
        if overlap_area_mm2(area.outline, edge)
    )


def layout_problem(
    frame: ZoneFrame, board: Board, lines: Sequence[int], pedestal: Pedestal | None
) -> LayoutProblem:
    """Set the problem of boarding a zone with one board on given lines.

    Where the last row would be a sliver, the first row is ripped too, so that both are wide enough to lay.

    Args:
        frame: The zone in its own frame. Record. [mm]
        board: The board. Record. [mm]
        lines: Joists, or battens, that carry the boards; their x in the frame, rising. Sequence. [mm]
        pedestal: The pedestal that carries them, none on battens. Record. [mm]

    Returns:
        The problem. Record. [mm]

    Source:
        Board laying rules: NHBC Standards 6.4.19 and LABC Warranty; least strip: common practice, no source.
    """
    rules = LayingRules()
    product = BoardProduct(
        code=board.code,
        cover_length_mm=board.cover_length_mm,
        cover_width_mm=board.cover_width_mm,
        thickness_mm=board.thickness_mm,
        ends=board.ends,
        sides=board.sides,
        price_pence=int(board.pack_cost * 100),
        pack_size=board.pack_size,
    )
    standing = PedestalRule()
    if pedestal:
        standing = PedestalRule(
            max_spacing_mm=pedestal.max_spacing_mm, box=pedestal.pack_size, per_seam=pedestal.at_every_seam
        )
    return LayoutProblem(
        reference=frame.zone.name,
        outline=frame.outline,
        keep_outs=frame.keep_outs,
        joist_lines=tuple(lines),
        row_origin_mm=_row_origin_mm(frame.outline, board.cover_width_mm, rules.min_strip_mm),
        product=product,
        rules=rules,
        pedestals=standing,
    )


def _row_origin_mm(outline: Polygon, cover_width_mm: int, least_strip_mm: int) -> int:
    _, low, _, high = bounds(outline)
    last_row_mm = (high - low) % cover_width_mm
    if 0 < last_row_mm < least_strip_mm and high - low > cover_width_mm:
        return low - (cover_width_mm - (last_row_mm + cover_width_mm) // 2)
    return low
