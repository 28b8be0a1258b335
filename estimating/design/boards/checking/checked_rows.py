"""The checker's look along each row: is the deck covered, do ends meet on joists, do rows stagger?"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor
from typing import NamedTuple

from estimating.design.boards.checking.checked_joints import joint_faults, joist_at, line_up_faults
from estimating.design.boards.checking.fault import SLACK_MM, Fault, rectangle_of, row_band, row_count
from estimating.design.boards.checking.opened_boards import BoardInHand
from estimating.design.boards.layout import Layout, Piece
from estimating.design.boards.problem import LayoutProblem
from estimating.plane import Exact, Trapezoid, trapezoids


def row_faults(
    problem: LayoutProblem,
    layout: Layout,
    deck: Sequence[Trapezoid],
    boards: Mapping[int, BoardInHand],
) -> Iterator[Fault]:
    """Check every row: cover, joints, spans, supports and stagger.

    Args:
        problem: The layout problem. Record. [mm]
        layout: The layout to check. Record. [mm]
        deck: The deck in slices. Sequence of trapezoids. [mm]
        boards: The boards its pieces are cut from, by number. Mapping. [mm]

    Returns:
        The faults. Iterator of records. [-]

    Source:
        NHBC Standards 6.4.19; LABC Warranty, floor decks; common practice where they are silent.
    """
    runs = {row: _runs(problem, layout, deck, row) for row in range(row_count(problem))}
    for row, in_row in runs.items():
        yield from _open_deck(problem, layout, row)
        on_deck = {piece.number for run in in_row for piece in run.pieces}
        for piece in layout.pieces:
            if piece.row == row and piece.number not in on_deck:
                yield Fault("useless", (piece.number,), "covers no deck")
        for run in in_row:
            yield from _run_faults(problem, row, run, boards)
    joints = {row: [pair for run in in_row for pair in pairwise(run.pieces)] for row, in_row in runs.items()}
    yield from line_up_faults(problem, joints)


class _Run(NamedTuple):
    left: int
    right: int
    pieces: tuple[Piece, ...]


def _runs(problem: LayoutProblem, layout: Layout, deck: Sequence[Trapezoid], row: int) -> tuple[_Run, ...]:
    """The unbroken stretches of deck in a row, with the pieces that reach into each."""
    ends = _joined(_reaches_into(deck, *row_band(problem, row)))
    in_row = sorted((piece for piece in layout.pieces if piece.row == row), key=lambda piece: piece.x0)
    return tuple(
        _Run(floor(left), ceil(right), tuple(p for p in in_row if p.x1 > left and p.x0 < right))
        for left, right in ends
    )


def _reaches_into(deck: Sequence[Trapezoid], low: Exact, high: Exact) -> Iterator[tuple[Exact, Exact]]:
    """Where along x each slice has deck between two heights."""
    for part in deck:
        left, right = part.left, part.right
        above = _where_above(part.high_left - low, part.high_right - low)
        below = _where_above(high - part.low_left, high - part.low_right)
        if above and below:
            start, end = max(above[0], below[0]), min(above[1], below[1])
            if start < end:
                yield left + start * (right - left), left + end * (right - left)


def _joined(stretches: Iterable[tuple[Exact, Exact]]) -> list[list[Exact]]:
    """Stretches that touch or overlap, joined."""
    ends: list[list[Exact]] = []
    for left, right in sorted(stretches):
        if ends and left <= ends[-1][1]:
            ends[-1][1] = max(ends[-1][1], right)
        else:
            ends.append([left, right])
    return ends


def _where_above(start: Exact, end: Exact) -> tuple[Exact, Exact] | None:
    """On which part of 0..1 a straight line from start to end is above zero."""
    if start <= 0 and end <= 0:
        return None
    if start >= 0 and end >= 0:
        return 0, 1
    zero = Fraction(start) / (start - end)
    return (0, zero) if start > 0 else (zero, 1)


def _open_deck(problem: LayoutProblem, layout: Layout, row: int) -> Iterator[Fault]:
    """Deck that no piece covers, wider than a gap."""
    low, high = row_band(problem, row)
    pieces = [rectangle_of(piece) for piece in layout.pieces if piece.row == row]
    bare = trapezoids(problem.outline, [*(keep_out.outline for keep_out in problem.keep_outs), *pieces])
    tall = [
        part
        for part in bare
        if max(
            min(part.high_left, high) - max(part.low_left, low),
            min(part.high_right, high) - max(part.low_right, low),
        )
        > SLACK_MM
    ]
    for left, right in _joined(_reaches_into(tall, low + SLACK_MM, high - SLACK_MM)):
        if right - left > problem.rules.gap_tolerance_mm:
            yield Fault("cover", (), f"row {row + 1} is open from {float(left):.0f} to {float(right):.0f} mm")


def _run_faults(
    problem: LayoutProblem, row: int, run: _Run, boards: Mapping[int, BoardInHand]
) -> Iterator[Fault]:
    rules = problem.rules
    for piece in run.pieces:
        if piece.x0 < run.left - SLACK_MM or piece.x1 > run.right + SLACK_MM:
            yield Fault("row", (piece.number,), f"runs past the end of its stretch of row {row + 1}")
    for left, right in pairwise(run.pieces):
        pair = (left.number, right.number)
        if right.x0 < left.x1:
            yield Fault("row", pair, "lie over each other")
        elif right.x0 - left.x1 > rules.gap_tolerance_mm:
            yield Fault("cover", pair, f"leave {right.x0 - left.x1} mm between them")
        yield from joint_faults(problem, left, right, boards)
    yield from _span_faults(problem, run)
    for number, piece in enumerate(run.pieces):
        free = (number == 0, number == len(run.pieces) - 1)
        supports = _supports(problem, piece, free)
        if supports < rules.min_supports:
            yield Fault("supports", (piece.number,), f"rests on {supports}, not {rules.min_supports}")


def _span_faults(problem: LayoutProblem, run: _Run) -> Iterator[Fault]:
    """A piece is at most a gap shorter than the span it fills, from joint line to joint line."""
    rules = problem.rules
    line = run.left
    for number, piece in enumerate(run.pieces):
        furthest, nearest = run.right, run.right
        if number + 1 < len(run.pieces):
            following = run.pieces[number + 1]
            joist = joist_at(problem, piece, following)
            nearest, furthest = piece.x1, following.x0
            if joist is not None:
                at = problem.joist_lines[joist]
                nearest = max(nearest, at - rules.joint_tolerance_mm)
                furthest = min(furthest, at + rules.joint_tolerance_mm)
        reach = line + piece.length_mm + rules.gap_tolerance_mm
        if reach < nearest:
            yield Fault(
                "cover", (piece.number,), f"is {nearest - line - piece.length_mm} mm short of its span"
            )
        ended = min(furthest, max(reach, nearest))
        if ended - line < rules.min_piece_mm and len(run.pieces) > 1:
            yield Fault("short", (piece.number,), f"spans {ended - line} mm, under {rules.min_piece_mm} mm")
        line = ended


def _supports(problem: LayoutProblem, piece: Piece, free: tuple[bool, bool]) -> int:
    """Joists under a piece, and an edge bearer for each free end too far from them."""
    rules = problem.rules
    near = rules.gap_tolerance_mm + rules.joint_tolerance_mm
    under = [line for line in problem.joist_lines if piece.x0 - near <= line <= piece.x1 + near]
    limit = rules.max_overhang_mm + rules.gap_tolerance_mm
    left = free[0] and (not under or min(under) - piece.x0 > limit)
    right = free[1] and (not under or piece.x1 - max(under) > limit)
    return len(under) + left + right
