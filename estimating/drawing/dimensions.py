"""Dimension lines: chains with slanted ticks, and running dimensions counted from the datum."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from estimating.drawing.labels import spread
from estimating.drawing.svg import TEXT_PX, Canvas, Spot, text_width_px

TICK_PX = 4.0
OFF_LINE_PX = 4.0
CLEAR_OF_TICKS_PX = 7.0
LEAST_UPRIGHT_PX = 11.0
LEAST_REPEATS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """A dimension line on the sheet: level or upright, where it lies and how positions map onto it.

    `outward` is -1 when labels stand above a level line or left of an upright one, 1 when beyond it.
    """

    level: bool
    line_px: float
    place: Callable[[float], float]
    outward: Literal[-1, 1] = -1

    def spot(self, along_px: float, off_px: float = 0.0) -> Spot:
        """Return the spot so far along the line and so far off it, outward positive."""
        off = self.line_px + self.outward * off_px
        return (along_px, off) if self.level else (off, along_px)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch between two positions, or several equal ones in a row, and what is written on it."""

    start_mm: int
    end_mm: int
    words: str


def stretches(positions_mm: Sequence[int]) -> tuple[Stretch, ...]:
    """Word the distances along a chain, equal ones in a row taken together.

    Args:
        positions_mm: The positions, rising. Sequence. [mm]

    Returns:
        The stretches with their words, such as "400" or "15 × 400 = 6000". Tuple of records. [mm]

    Source:
        Repeated features dimensioned together: BS EN ISO 129-1, from memory.
    """
    found: list[Stretch] = []
    gaps = [(low, high) for low, high in pairwise(positions_mm)]
    while gaps:
        low, high = gaps[0]
        alike = 1
        while alike < len(gaps) and gaps[alike][1] - gaps[alike][0] == high - low:
            alike += 1
        if alike >= LEAST_REPEATS:
            end = gaps[alike - 1][1]
            found.append(Stretch(low, end, f"{alike} × {high - low} = {end - low}"))
            gaps = gaps[alike:]
        else:
            found.append(Stretch(low, high, str(high - low)))
            gaps = gaps[1:]
    return tuple(found)


def chain(canvas: Canvas, axis: Axis, positions_mm: Sequence[int]) -> None:
    """Draw a chain of dimensions with a tick at every position.

    A distance whose figure has no room is ticked but not written; the dimension table has it.

    Args:
        canvas: The drawing. Record. [-]
        axis: The line. Record. [px]
        positions_mm: The positions, rising. Sequence. [mm]

    Returns:
        Nothing. None. [-]

    Source:
        Oblique strokes at 45 degrees: BS EN ISO 129-1, from memory.
    """
    places = [axis.place(position) for position in positions_mm]
    canvas.line("dimension", axis.spot(places[0]), axis.spot(places[-1]))
    ticks(canvas, axis, places)
    worded = stretches(positions_mm)
    for rank, stretch in enumerate(worded):
        ends = axis.place(stretch.start_mm), axis.place(stretch.end_mm)
        beyond = -1 if rank == 0 else 1 if rank == len(worded) - 1 else 0
        _write_on(canvas, axis, ends, stretch.words, beyond=beyond)


def ticks(canvas: Canvas, axis: Axis, places: Sequence[float]) -> None:
    """Mark the ends of dimensions with slanted ticks.

    Args:
        canvas: The drawing. Record. [-]
        axis: The line. Record. [px]
        places: Where the ticks stand along it. Sequence. [px]

    Returns:
        Nothing. None. [-]

    Source:
        Oblique strokes at 45 degrees: BS EN ISO 129-1, from memory.
    """
    spots = [axis.spot(place) for place in places]
    canvas.lines("tick", [((x - TICK_PX, y + TICK_PX), (x + TICK_PX, y - TICK_PX)) for x, y in spots])
    canvas.lines("dimension", [(axis.spot(place, -5), axis.spot(place, 5)) for place in places])


def _write_on(canvas: Canvas, axis: Axis, ends: tuple[float, float], words: str, *, beyond: int) -> None:
    """Along the line if the words fit; beyond its end at an end; across it if that fits; else not at all."""
    start, end = ends
    length, width = abs(end - start), text_width_px(words)
    middle = (start + end) / 2
    letters = TEXT_PX * 0.7 if axis.outward > 0 else 0.0
    off = letters + (CLEAR_OF_TICKS_PX if "×" in words else OFF_LINE_PX)
    if length < width + 4 and beyond:
        onward = (1 if end > start else -1) * beyond
        middle = (start if beyond < 0 else end) + onward * (width / 2 + 5)
        length, off = width + 4, letters + OFF_LINE_PX
    if length >= width + 4:
        canvas.words("text", axis.spot(middle, off), words, upright=not axis.level)
    elif length >= LEAST_UPRIGHT_PX and axis.level:
        x, y = axis.spot(middle + TEXT_PX * 0.36, CLEAR_OF_TICKS_PX + width / 2)
        canvas.words("text", (x, y), words, upright=True)
    elif length >= LEAST_UPRIGHT_PX:
        x, y = axis.spot(middle, CLEAR_OF_TICKS_PX + width / 2)
        canvas.words("text", (x, y + TEXT_PX * 0.36), words)


def running(
    canvas: Canvas,
    axis: Axis,
    positions_mm: Sequence[int],
    *,
    feet: Callable[[int], float],
) -> None:
    """Draw running dimensions: one line from the datum, each figure counted from it.

    Args:
        canvas: The drawing. Record. [-]
        axis: The line; its figures stand outward, across it. Record. [px]
        positions_mm: The positions, rising; the datum's own is written but has no tick. Sequence. [mm]
        feet: Where the extension line of a position begins, across the line. Function of mm. [px]

    Returns:
        Nothing. None. [-]

    Source:
        Superimposed running dimensions with an origin circle: BS EN ISO 129-1, from memory.
    """
    if not positions_mm:
        return
    places = [axis.place(position) for position in positions_mm]
    datum = axis.place(0)
    canvas.line("dimension", axis.spot(datum), axis.spot(max(places, key=lambda place: abs(place - datum))))
    canvas.circle("mark", axis.spot(datum), 3)
    ticks(canvas, axis, [place for place in places if place != datum])
    for position, place in zip(positions_mm, places, strict=True):
        foot = feet(position)
        canvas.line("extension", (place, foot) if axis.level else (foot, place), axis.spot(place, -5))
    order = sorted(range(len(places)), key=lambda rank: places[rank])
    set_apart = spread([places[rank] for rank in order], TEXT_PX, -1e9, 1e9)
    for rank, label in zip(order, set_apart, strict=True):
        words = str(positions_mm[rank])
        canvas.line("leader", axis.spot(places[rank], 5), axis.spot(label, 11))
        reach = 14 + text_width_px(words) / 2
        x, y = axis.spot(label, reach)
        if axis.level:
            canvas.words("text", (x + TEXT_PX * 0.36, y), words, upright=True)
        else:
            canvas.words("text", (x, y + TEXT_PX * 0.36), words)
