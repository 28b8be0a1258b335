"""The setting-out list: running tape readings for two people, all from one named corner of the deck.

The tape's end stays at the datum and every figure is read off from there, because gaps added up one by one
add up their errors too. The corner lies at the deck and not at the eaves, where nobody can hold a tape.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isqrt

from estimating.design.design import ZoneDesign
from estimating.plane import Point, bounds
from estimating.survey import Axis, JoistField

CORNER, LINE_END, OPPOSITE = "P", "Q", "R"


@dataclass(frozen=True, slots=True, kw_only=True)
class Datum:
    """Where both tapes begin, how it is found, and the line that joists are marked from.

    The line is struck from P to Q across the joists, along an edge of the rectangle round the deck; R is the
    corner opposite P. All are points on plan, measured from left gable and front eaves.
    """

    at: Point
    line_end: Point
    opposite: Point
    is_deck_corner: bool

    @property
    def line_mm(self) -> int:
        """The length of the line."""
        return abs(self.line_end[0] - self.at[0]) + abs(self.line_end[1] - self.at[1])

    @property
    def diagonal_mm(self) -> int:
        """From P to R, which is right only where the line lies square."""
        across, along = self.opposite[0] - self.at[0], self.opposite[1] - self.at[1]
        return isqrt(4 * (across * across + along * along)) // 2

    @property
    def words(self) -> str:
        """Where it is."""
        whose = "of the deck" if self.is_deck_corner else "of the rectangle round the deck"
        return (
            f"{CORNER} is the front left corner {whose}, {self.at[0]} mm from the left gable and "
            f"{self.at[1]} mm from the front eaves."
        )

    @property
    def in_short(self) -> str:
        """Where it is, for beside its mark on a drawing."""
        return f"{CORNER}, {self.at[0]} from left gable, {self.at[1]} from front eaves."

    @property
    def how(self) -> str:
        """How the two people begin."""
        edge, wall, away = (
            ("front", "front eaves", self.at[1])
            if self.line_end[1] == self.at[1]
            else ("left", "left gable", self.at[0])
        )
        return (
            f"Strike a line from {CORNER} to {LINE_END}, {self.line_mm} mm along the {edge} edge and {away} "
            f"mm from the {wall} at both ends. {CORNER} to the opposite corner {OPPOSITE} is "
            f"{self.diagonal_mm} mm when it is square."
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One reading along a joist from the line, and why a support stands there if not by the rule."""

    reading_mm: int
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class JoistMarks:
    """One joist: its number from the left gable or front eaves, its reading along the line, and its marks.

    `height_mm` is that of the pedestals on it, None on battens; `packing_mm` goes under each support.
    """

    joist: int
    reading_mm: int
    marks: tuple[Mark, ...]
    height_mm: int | None
    packing_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingOutList:
    """What two people with a tape need for one zone."""

    datum: Datum
    counted_from: str
    joists: tuple[JoistMarks, ...]


def setting_out_list(zone: ZoneDesign, joist_field: JoistField) -> SettingOutList:
    """List the running readings of every joist of a zone and of every mark along it.

    Args:
        zone: The zone designed. Record. [mm]
        joist_field: Its joists. Record. [mm]

    Returns:
        The datum and the joists in order of their numbers. Record. [mm]

    Source:
        Running dimensions from one datum: common practice, no source.
    """
    along = 1 if joist_field.runs_along is Axis.Y else 0
    datum = _datum(zone, joist_field)
    whys = {each.at: each.why for each in zone.pedestals}
    heights = {each.joist: each.height_mm for each in zone.pedestals}
    rows = []
    for each in zone.setting_out:
        line = each.joist_line_mm
        points = [(line, at) if along else (at, line) for at in each.positions_mm]
        marks = (Mark(reading_mm=at[along] - datum.at[along], why=whys.get(at, "")) for at in points)
        rows.append(
            JoistMarks(
                joist=each.joist,
                reading_mm=line - datum.at[1 - along],
                marks=tuple(marks),
                height_mm=heights.get(each.joist),
                packing_mm=each.packing_mm,
            )
        )
    return SettingOutList(
        datum=datum, counted_from="left gable" if along else "front eaves", joists=tuple(rows)
    )


def _datum(zone: ZoneDesign, joist_field: JoistField) -> Datum:
    left, low, right, high = bounds(zone.finished_edge)
    across = joist_field.runs_along is Axis.Y
    return Datum(
        at=(left, low),
        line_end=(right, low) if across else (left, high),
        opposite=(right, high),
        is_deck_corner=(left, low) in zone.finished_edge,
    )
