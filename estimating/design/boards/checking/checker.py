"""An independent look at a finished layout: every rule it breaks, whoever made it.

Nothing here is shared with the solver but the plane and the records, so that a mistake in how the solver
sees rows, runs or boards shows up as a fault and is not made twice.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from estimating.design.boards.checking.checked_boards import board_faults
from estimating.design.boards.checking.checked_rows import row_faults
from estimating.design.boards.checking.fault import SLACK_MM, Fault, row_band, row_count
from estimating.design.boards.layout import Layout, Piece
from estimating.design.boards.problem import LayoutProblem
from estimating.plane import Trapezoid, trapezoids


def faults(problem: LayoutProblem, layout: Layout) -> tuple[Fault, ...]:
    """Check a layout against every laying rule and name each fault.

    Args:
        problem: The layout problem. Record. [mm]
        layout: The layout to check. Record. [mm]

    Returns:
        The faults, none for a layout that keeps every rule. Tuple of records. [-]

    Source:
        Rules: NHBC Standards 6.4.19; LABC Warranty, floor decks; common practice where they are silent.
    """
    found = [*_wrong_numbers(problem, layout)]
    if found:
        return tuple(found)
    deck = trapezoids(problem.outline, [keep_out.outline for keep_out in problem.keep_outs])
    found += row_faults(problem, layout, deck)
    if problem.product.sides == "tg":
        for piece in layout.pieces:
            found += _edge_faults(problem, deck, piece)
    for board in range(1, layout.boards + 1):
        found += board_faults(problem, [piece for piece in layout.pieces if piece.board == board])
    return tuple(found)


def _wrong_numbers(problem: LayoutProblem, layout: Layout) -> Iterator[Fault]:
    seen: set[int] = set()
    for piece in layout.pieces:
        if piece.number in seen:
            yield Fault("numbers", (piece.number,), "two pieces have this number")
        seen.add(piece.number)
        if not 1 <= piece.board <= layout.boards:
            yield Fault("numbers", (piece.number,), f"board {piece.board} is not among those bought")
        low, high = row_band(problem, piece.row)
        in_row = 0 <= piece.row < row_count(problem) and low <= piece.y0 < piece.y1 <= high
        if not in_row or piece.x0 >= piece.x1:
            yield Fault("row", (piece.number,), f"does not lie inside row {piece.row + 1}")


def _edge_faults(problem: LayoutProblem, deck: Sequence[Trapezoid], piece: Piece) -> Iterator[Fault]:
    low, high = row_band(problem, piece.row)
    if _crosses(deck, piece, low) and piece.board_y != 0:
        yield Fault("edge", (piece.number,), "needs its groove against the row below")
    if _crosses(deck, piece, high) and piece.board_y + piece.width_mm != problem.product.cover_width_mm:
        yield Fault("edge", (piece.number,), "needs its tongue against the row above")


def _crosses(deck: Sequence[Trapezoid], piece: Piece, seam: int) -> bool:
    """Whether deck passes through a seam beside a piece, so that its edge meets another board."""
    for part in deck:
        left, right = max(part.left, piece.x0), min(part.right, piece.x1)
        if right - left > SLACK_MM:
            whole = Fraction(part.right - part.left)
            for x in (left, right):
                along = (x - part.left) / whole
                low = part.low_left + (part.low_right - part.low_left) * along
                high = part.high_left + (part.high_right - part.high_left) * along
                if low < seam - SLACK_MM and high > seam + SLACK_MM:
                    return True
    return False
