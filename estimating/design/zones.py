"""A zone of deck in its own frame, where x runs across whatever carries the boards.

Pedestals stand on joists, so boards run across joists. Battens run across joists, so boards on them run
across the battens. Either way the boards' long edges lie along x, and the rows rise with y.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import ceil

from estimating.choices import Choices, RaiseWith
from estimating.design.boards.edges import EdgeMove
from estimating.design.boards.problem import (
    BoardProduct,
    KeepOutArea,
    LayoutProblem,
    PedestalRule,
)
from estimating.design.boards.row_starts import row_origins_mm
from estimating.design.edge_room import EdgeRoom
from estimating.design.laying_rules import laying_rules
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
    order either way. `field_joists` are all of the joist field, `joists` those under the zone. Once a board
    is taken, edges may have been moved for it, and the rows started from another line than is usual.
    """

    zone: DeckZone
    joist_field: JoistField
    raise_with: RaiseWith
    turns: int
    finished_edge: Polygon
    outline: Polygon
    keep_outs: tuple[KeepOutArea, ...]
    joists: tuple[JoistLine, ...]
    field_joists: tuple[JoistLine, ...]
    room: EdgeRoom
    edge_moves: tuple[EdgeMove, ...] = ()
    row_origin_mm: int | None = None

    def on_plan(self, point: Point) -> Point:
        """Return where a point of the frame lies on plan."""
        return quarter_turned((point,), -self.turns)[0]

    @property
    def on_battens(self) -> bool:
        """Whether battens carry the boards, so that the boards run along the joists."""
        return self.raise_with is RaiseWith.BATTENS

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
    room = _room(survey, choices, zone, turns)
    field_joists = _joists(joist_field, turns, on_battens)
    joists = _joists_under(field_joists, outline, on_battens)
    if not joists:
        raise Refusal("outline", f"must have a joist of {joist_field.name} under it")
    return ZoneFrame(
        zone=zone,
        joist_field=joist_field,
        raise_with=choices.raise_with,
        turns=turns,
        finished_edge=edge,
        outline=outline,
        keep_outs=_keep_outs_in(room, outline),
        joists=joists,
        field_joists=field_joists,
        room=room,
    )


def _joists(joist_field: JoistField, turns: int, on_battens: bool) -> tuple[JoistLine, ...]:
    sign = -1 if turns and not on_battens else 1
    numbered = enumerate(joist_field.centre_lines_mm, start=1)
    return tuple(sorted((JoistLine(sign * line, number) for number, line in numbered), key=_at_mm))


def _at_mm(joist: JoistLine) -> int:
    return joist.at_mm


def _joists_under(joists: Sequence[JoistLine], outline: Polygon, on_battens: bool) -> tuple[JoistLine, ...]:
    left, low, right, high = bounds(outline)
    first, last = (low, high) if on_battens else (left, right)
    return tuple(joist for joist in joists if first <= joist.at_mm <= last)


def _room(survey: Survey, choices: Choices, zone: DeckZone, turns: int) -> EdgeRoom:
    areas = [KeepOutArea(each.name, each.kind.value, each.outline) for each in survey.keep_outs]
    areas.append(KeepOutArea("hatch", "hatch", survey.hatch.outline))
    return EdgeRoom(
        loft=quarter_turned(survey.outline, turns),
        gap_mm=perimeter_gap_mm(zone.outline) if choices.perimeter_gap else 0,
        joist_field=quarter_turned(survey.joist_field(zone.joist_field).outline, turns),
        keep_outs=tuple(replace(area, outline=quarter_turned(area.outline, turns)) for area in areas),
        zones=tuple(quarter_turned(each.outline, turns) for each in survey.zones if each is not zone),
    )


def _keep_outs_in(room: EdgeRoom, outline: Polygon) -> tuple[KeepOutArea, ...]:
    return tuple(area for area in room.keep_outs if overlap_area_mm2(area.outline, outline))


def with_outline(frame: ZoneFrame, outline: Polygon) -> ZoneFrame | None:
    """Give a zone another finished edge, with the joists and keep-outs that then lie under and in it.

    Where the tops of joists differ, no joist may come under it, because what stands on each was chosen.

    Args:
        frame: The zone in its own frame. Record. [mm]
        outline: The finished edge in that frame. Polygon. [mm]

    Returns:
        The zone so changed; None where its edge may not go there. Record. [mm]

    Source:
        Geometry.
    """
    joists = _joists_under(frame.field_joists, outline, frame.on_battens)
    if not joists or not frame.room.allows(frame.outline, outline):
        return None
    if any(frame.joist_field.top_offsets_mm) and not set(joists) <= set(frame.joists):
        return None
    return replace(
        frame,
        finished_edge=quarter_turned(outline, -frame.turns),
        outline=outline,
        keep_outs=_keep_outs_in(frame.room, outline),
        joists=joists,
    )


def layout_problem(
    frame: ZoneFrame, board: Board, lines: Sequence[int], pedestal: Pedestal | None
) -> LayoutProblem:
    """Set the problem of boarding a zone with one board on given lines.

    Rows start from the line chosen for the zone, else from the usual one: whole at the low edge, unless that
    would leave a sliver somewhere.

    Args:
        frame: The zone in its own frame. Record. [mm]
        board: The board. Record. [mm]
        lines: Joists, or battens, that carry the boards; their x in the frame, rising. Sequence. [mm]
        pedestal: The pedestal that carries them, none on battens. Record. [mm]

    Returns:
        The problem. Record. [mm]

    Source:
        As laying_rules; least strip: common practice, no source.
    """
    rules = laying_rules(board, pedestal)
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
        row_origin_mm=_row_origin_mm(frame, board.cover_width_mm, rules.min_strip_mm),
        product=product,
        rules=rules,
        pedestals=standing,
    )


def _row_origin_mm(frame: ZoneFrame, cover_width_mm: int, least_strip_mm: int) -> int:
    if frame.row_origin_mm is not None:
        return frame.row_origin_mm
    return row_origins_mm(frame.outline, cover_width_mm, least_strip_mm)[0]
