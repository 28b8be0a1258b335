"""Which joists carry the deck: all of them, or fewer where the board reaches from one to the next but one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from estimating.choices import RaiseWith
from estimating.design.zones import ZoneFrame
from estimating.price_book import Board
from estimating.published.panel_centres import greatest_centres_mm


def carried_lines(frame: ZoneFrame, board: Board) -> tuple[tuple[int, ...], ...]:
    """List the sets of joists that could carry a zone boarded with one board, all of its joists first.

    Fewer joists take fewer pedestals, but only a joist that carries may take an end joint, so that each set
    is laid and costed before one is taken. The first and the last joist always carry. Battens lie on all.

    Args:
        frame: The zone in its own frame. Record. [mm]
        board: The board with the greatest centres its data allow. Record. [mm]

    Returns:
        The lines of each set, rising, the sets with ever fewer lines. Tuple of tuples. [mm]

    Source:
        Every so many joists as the board's span allows: common practice, no source; greatest centres: the
        board's data and NHBC Standards 6.4.19 Table 7.
    """
    lines = frame.joist_lines
    if frame.raise_with is RaiseWith.BATTENS or len(lines) < 3:
        return (lines,)
    limit = min(board.max_joist_centres_mm, greatest_centres_mm(board.thickness_mm) or 0)
    sets = {lines, *_evenly_left_out(lines, frame.widest_bay_mm, limit)}
    if frame.widest_bay_mm <= limit:
        sets.add(_as_few_as_reach(lines, limit))
    return tuple(sorted(sets, key=lambda each: (-len(each), each)))


def _evenly_left_out(lines: Sequence[int], widest_mm: int, limit_mm: int) -> Iterator[tuple[int, ...]]:
    """Every second joist, every third, and so on; the last bay is never wider than the others."""
    for step in range(2, limit_mm // widest_mm + 1):
        kept = tuple(lines[::step])
        yield kept if kept[-1] == lines[-1] else (*kept, lines[-1])


def _as_few_as_reach(lines: Sequence[int], limit_mm: int) -> tuple[int, ...]:
    """From each joist to the furthest within reach: leaves out the odd one of joists that lie unevenly."""
    kept = [lines[0]]
    for line, following in pairwise((*lines[1:], lines[-1] + limit_mm + 1)):
        if following - kept[-1] > limit_mm:
            kept.append(line)
    return tuple(kept)
