"""An independent look at a finished layout: every rule it breaks, whoever made it.

Nothing here is shared with the solver but the plane and the records, so that a mistake in how the solver
sees rows, runs or boards shows up as a fault and is not made twice.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from estimating.design.boards.checking.checked_boards import board_faults
from estimating.design.boards.checking.checked_rows import row_faults
from estimating.design.boards.checking.fault import SLACK_MM, Fault, row_band, row_count
from estimating.design.boards.checking.opened_boards import (
    BoardInHand,
    boards_in_hand,
    opened_board_faults,
)
from estimating.design.boards.layout import LaidDeck, Layout, OpenedBoard, Piece
from estimating.design.boards.problem import DeckTask, LayoutProblem
from estimating.plane import Trapezoid, trapezoids


def faults(problem: LayoutProblem, layout: Layout) -> tuple[Fault, ...]:
    """Check a layout of one zone by itself against every laying rule and name each fault.

    Args:
        problem: The layout problem. Record. [mm]
        layout: The layout to check. Record. [mm]

    Returns:
        The faults, none for a layout that keeps every rule. Tuple of records. [-]

    Source:
        Rules: NHBC Standards 6.4.19; LABC Warranty, floor decks; common practice where they are silent.
    """
    if not layout.opened:  # a layout that only says how many: all are boards of the product
        product = problem.product
        numbers = range(1, layout.boards + 1)
        opened = tuple(OpenedBoard(n, product.code, product.cover_length_mm, True) for n in numbers)
        layout = replace(layout, opened=opened)
    return deck_faults(DeckTask.of(problem), LaidDeck((layout,), layout.boards, None))


def deck_faults(task: DeckTask, laid: LaidDeck) -> tuple[Fault, ...]:
    """Check every zone of a deck by itself, and the boards they are cut from together.

    Args:
        task: The zones and the boards to cut from. Record. [mm]
        laid: What is to be checked; zones without a layout are passed over. Record. [mm]

    Returns:
        The faults, none for a deck that keeps every rule. Tuple of records. [-]

    Source:
        As faults.
    """
    pairs = zip(task.zones, laid.zones, strict=True)
    zones = [(n, problem, zone) for n, (problem, zone) in enumerate(pairs) if isinstance(zone, Layout)]
    layouts = [layout for _, _, layout in zones]
    found = [*opened_board_faults(task, layouts, laid.cost)]
    for number, problem, layout in zones:
        found += (fault._replace(zone=number) for fault in _wrong_numbers(problem, layout))
    if found:
        return tuple(found)
    boards = boards_in_hand(task, layouts)
    for number, problem, layout in zones:
        found += (fault._replace(zone=number) for fault in _zone_faults(problem, layout, boards))
    for number, board in boards.items():
        pieces = [piece for layout in layouts for piece in layout.pieces if piece.board == number]
        found += board_faults(task.zones[0], number, board.length_mm, pieces)
    return tuple(found)


def _zone_faults(
    problem: LayoutProblem, layout: Layout, boards: Mapping[int, BoardInHand]
) -> Iterator[Fault]:
    deck = trapezoids(problem.outline, [keep_out.outline for keep_out in problem.keep_outs])
    yield from row_faults(problem, layout, deck, boards)
    if problem.product.sides == "tg":
        for piece in layout.pieces:
            yield from _edge_faults(problem, deck, piece)


def _wrong_numbers(problem: LayoutProblem, layout: Layout) -> Iterator[Fault]:
    opened = {board.number for board in layout.opened}
    seen: set[int] = set()
    for piece in layout.pieces:
        if piece.number in seen:
            yield Fault("numbers", (piece.number,), "two pieces have this number")
        seen.add(piece.number)
        if piece.board not in opened:
            yield Fault("numbers", (piece.number,), f"board {piece.board} is not among those opened")
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
