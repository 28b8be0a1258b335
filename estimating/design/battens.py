"""Battens laid across the joists: where each runs, and how many lengths they are cut from."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import ceil

from estimating.design.boards.pedestal_grid import stretches_under_deck
from estimating.plane import Polygon, bounds, trapezoids

KERF_MM = 3
Stretch = tuple[int, int, int]


def batten_lines(
    outline: Polygon, *, cover_length_mm: int, max_centres_mm: int, width_mm: int
) -> tuple[int, ...]:
    """Set out batten centre lines across a zone so that whole boards end on battens.

    The bay is the board's length divided into the fewest equal parts that its centres allow; a batten flush
    with each end of the deck carries the first and last boards.

    Args:
        outline: The finished edge in the zone's frame. Polygon. [mm]
        cover_length_mm: What a board covers along x. Scalar. [mm]
        max_centres_mm: The greatest distance between supports that the board allows. Scalar. [mm]
        width_mm: The batten's width. Scalar. [mm]

    Returns:
        The centre lines, rising. Tuple. [mm]

    Source:
        End joints on supports: NHBC Standards 6.4.19; the division into equal bays is our own.
    """
    left, _, right, _ = bounds(outline)
    bays = ceil(Fraction(cover_length_mm, max_centres_mm))
    first, last = left + width_mm // 2, right - width_mm // 2
    lines = [first] if first < last else [(left + right) // 2]
    number = 1
    while (line := left + number * cover_length_mm // bays) < last:
        if line > first + width_mm:
            lines.append(line)
        number += 1
    if first < last:
        if len(lines) > 1 and last - lines[-1] < width_mm:
            lines.pop()
        lines.append(last)
    return tuple(lines)


def batten_stretches(outline: Polygon, holes: Sequence[Polygon], lines: Iterable[int]) -> tuple[Stretch, ...]:
    """Tell where each batten runs under the deck; it stops at keep-outs.

    Args:
        outline: The finished edge in the zone's frame. Polygon. [mm]
        holes: The keep-outs in the same frame. Sequence of polygons. [mm]
        lines: The batten centre lines. Sequence. [mm]

    Returns:
        Each stretch as its line, its start and its end. Tuple. [mm]

    Source:
        Geometry.
    """
    slices = trapezoids(outline, holes)
    return tuple(
        (line, round(start), round(end))
        for line in lines
        for start, end in stretches_under_deck(slices, line)
        if round(end) > round(start)
    )


def batten_pieces_mm(start: int, end: int, joists: Sequence[int], length_mm: int) -> tuple[int, ...]:
    """Cut one run of batten into pieces that meet on joists.

    Each piece runs to the furthest joist a whole length reaches, so that joins always have wood under them.

    Args:
        start: Where the run begins. Scalar. [mm]
        end: Where it ends. Scalar. [mm]
        joists: Joist centre lines in the same direction, rising. Sequence. [mm]
        length_mm: The length battens are sold in. Scalar. [mm]

    Returns:
        The lengths of the pieces; one longer than a length where no joist is in reach. Tuple. [mm]

    Source:
        Joins on joists: common practice, no source.
    """
    pieces = []
    while end - start > length_mm:
        reach = bisect_right(joists, start + length_mm)
        join = joists[reach - 1] if reach else start
        if join <= start:
            break
        pieces.append(join - start)
        start = join
    return (*pieces, end - start)


def lengths_needed(pieces_mm: Iterable[int], length_mm: int) -> int:
    """Count the lengths that give all pieces, longest first, each from the first length with enough left.

    Args:
        pieces_mm: The pieces. Sequence. [mm]
        length_mm: The length battens are sold in. Scalar. [mm]

    Returns:
        Lengths to buy. Scalar. [count]

    Source:
        Common practice, no source (first fit, longest first); a 3 mm saw cut.
    """
    left: list[int] = []
    more = 0
    for piece in sorted(pieces_mm, reverse=True):
        if piece > length_mm:
            more += ceil(Fraction(piece, length_mm))
            continue
        for number, rest in enumerate(left):
            if rest >= piece:
                left[number] = rest - piece - KERF_MM
                break
        else:
            left.append(length_mm - piece - KERF_MM)
    return len(left) + more
