"""The checker's look at each board: do its pieces fit, and do they come apart by straight cuts?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from estimating.design.boards.checking.fault import Fault
from estimating.design.boards.layout import Piece
from estimating.design.boards.problem import LayoutProblem


def board_faults(problem: LayoutProblem, pieces: Sequence[Piece]) -> Iterator[Fault]:
    """Check that the pieces of one board can be sawn from it.

    Args:
        problem: The layout problem. Record. [mm]
        pieces: The pieces of one board. Sequence of records. [mm]

    Returns:
        The faults. Iterator of records. [-]

    Source:
        Straight full cuts: a hand or circular saw; common practice, no source.
    """
    product, kerf = problem.product, problem.rules.kerf_mm
    cut = {
        piece.number: (
            piece.board_x,
            piece.board_x + piece.length_mm,
            piece.board_y,
            piece.board_y + piece.width_mm,
        )
        for piece in pieces
    }
    for number, (left, right, low, high) in cut.items():
        if left < 0 or low < 0 or right > product.cover_length_mm or high > product.cover_width_mm:
            yield Fault("board", (number,), "does not fit in its board")
    for (one, a), (other, b) in combinations(cut.items(), 2):
        if max(a[0] - b[1], b[0] - a[1], a[2] - b[3], b[2] - a[3]) < kerf:
            yield Fault("board", (one, other), "leave no room for the saw between them")
    if not _comes_apart(list(cut.values()), kerf):
        yield Fault("board", tuple(cut), "do not come apart by straight cuts")


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
