"""The checker's look at each board: do its pieces fit, and do they come apart by straight cuts?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from estimating.design.boards.checking.fault import Fault
from estimating.design.boards.layout import Piece
from estimating.design.boards.problem import LayoutProblem


def board_faults(
    problem: LayoutProblem, number: int, length_mm: int, pieces: Sequence[Piece]
) -> Iterator[Fault]:
    """Check that the pieces of one board can be sawn from it, whatever zones they lie in.

    Args:
        problem: A layout problem of the deck. Record. [mm]
        number: The board's number in the deck. Scalar. [-]
        length_mm: How long the board is. Scalar. [mm]
        pieces: The pieces of the board. Sequence of records. [mm]

    Returns:
        The faults. Iterator of records. [-]

    Source:
        Straight full cuts: a hand or circular saw; common practice, no source.
    """
    kerf = problem.rules.kerf_mm
    cut = [
        (
            piece.board_x,
            piece.board_x + piece.length_mm,
            piece.board_y,
            piece.board_y + piece.width_mm,
        )
        for piece in pieces
    ]
    for piece, (left, right, low, high) in zip(pieces, cut, strict=True):
        if left < 0 or low < 0 or right > length_mm or high > problem.product.cover_width_mm:
            yield Fault("board", (piece.number,), f"does not fit in board {number}")
    for (one, a), (other, b) in combinations(zip(pieces, cut, strict=True), 2):
        if max(a[0] - b[1], b[0] - a[1], a[2] - b[3], b[2] - a[3]) < kerf:
            says = f"leave no room for the saw between them in board {number}"
            yield Fault("board", (one.number, other.number), says)
    if not _comes_apart(cut, kerf):
        numbers = tuple(piece.number for piece in pieces)
        yield Fault("board", numbers, f"do not come apart by straight cuts in board {number}")


def _comes_apart(cut: list[tuple[int, int, int, int]], kerf: int) -> bool:
    """Whether some straight full cut divides the pieces, and again each side, until all are free."""
    if len(cut) < 2:
        return True
    for begins in (0, 2):
        for line in sorted(each[begins + 1] for each in cut):
            near = [each for each in cut if each[begins + 1] <= line]
            far = [each for each in cut if each[begins] >= line + kerf]
            if far and len(near) + len(far) == len(cut):
                return _comes_apart(near, kerf) and _comes_apart(far, kerf)
    return False
