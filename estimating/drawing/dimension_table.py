"""The drawings in words: every dimension and board on a plan, for those who cannot see it.

What stands on each joist is told by the setting-out list.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from estimating.design.design import Design, ZoneDesign
from estimating.drawing.numbering import laying_numbers, piece_name, zone_letters
from estimating.drawing.plan_sheet import is_cut, on_plan
from estimating.plane import Polygon, bounds
from estimating.survey import Axis, Survey

LEFT, FRONT = "left gable", "front eaves"


@dataclass(frozen=True, slots=True, kw_only=True)
class DimensionRow:
    """One dimension: of what, measured from where to where."""

    subject: str
    start: str
    end: str
    mm: int

    @property
    def name(self) -> str:
        return f"{self.subject}, {self.end}" if self.end else self.subject

    @property
    def shown(self) -> str:
        return f"{self.mm} mm from {self.start}"


@dataclass(frozen=True, slots=True, kw_only=True)
class DimensionTable:
    """The text equivalent of a plan."""

    caption: str
    rows: tuple[DimensionRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardRow:
    """One piece of board: its name on the drawings, its size and where its near left corner lies."""

    name: str
    zone: str
    board: int
    length_mm: int
    width_mm: int
    from_left_mm: int
    from_front_mm: int
    is_cut: bool


def dimension_table(survey: Survey, design: Design) -> DimensionTable:
    """List every dimension that the plan shows, loft first, then deck, hatch, keep-outs and joists.

    Args:
        survey: What was measured. Record. [mm]
        design: Where everything goes. Record. [mm]

    Returns:
        The rows with their caption. Record. [mm]

    Source:
        Text alternative: WCAG 2.2, success criterion 1.1.1.
    """
    rows = [*_edges("Loft", survey.outline)]
    for zone in design.zones:
        subject = "Deck" if len(design.zones) == 1 else f"Deck {zone.zone}"
        rows += _edges(subject, zone.finished_edge)
    rows += _edges("Hatch", survey.hatch.outline)
    for keep_out in survey.keep_outs:
        rows += _edges(keep_out.name.capitalize(), keep_out.outline)
    for joists in survey.joist_fields:
        start = LEFT if joists.runs_along is Axis.Y else FRONT
        prefix = "Joist" if len(survey.joist_fields) == 1 else f"{joists.name.capitalize()} joist"
        rows += [
            DimensionRow(subject=f"{prefix} {number}", start=start, end="centre line", mm=line)
            for number, line in enumerate(joists.centre_lines_mm, start=1)
        ]
    return DimensionTable(caption=f"Dimensions of the plan, loft {survey.reference}", rows=tuple(rows))


def _edges(subject: str, outline: Polygon) -> Iterator[DimensionRow]:
    left, low, right, high = bounds(outline)
    for start, end, mm in (
        (LEFT, "left edge", left),
        (LEFT, "right edge", right),
        (FRONT, "front edge", low),
        (FRONT, "back edge", high),
    ):
        yield DimensionRow(subject=subject, start=start, end=end, mm=mm)


def board_table(design: Design) -> tuple[BoardRow, ...]:
    """List every piece of board by its name on the drawings, in laying order.

    Args:
        design: Where everything goes. Record. [mm]

    Returns:
        The pieces. Tuple of records. [mm]

    Source:
        Own definition.
    """
    letters = zone_letters(design)
    return tuple(row for zone in design.zones for row in _board_rows(zone, letters[zone.zone]))


def _board_rows(zone: ZoneDesign, letter: str) -> Iterator[BoardRow]:
    if zone.layout is None:
        return
    numbers = laying_numbers(zone)
    for piece in sorted(zone.layout.pieces, key=lambda piece: numbers[piece.number]):
        left, low, _, _ = bounds(on_plan(zone, piece))
        yield BoardRow(
            name=piece_name(letter, numbers[piece.number]),
            zone=zone.zone,
            board=piece.board,
            length_mm=piece.length_mm,
            width_mm=piece.width_mm,
            from_left_mm=left,
            from_front_mm=low,
            is_cut=is_cut(zone, piece),
        )
