"""Room for pieces: what a pattern offers and a piece asks for."""

from __future__ import annotations

from typing import NamedTuple

from estimating.design.boards.solving.run_classes import FULL, KINDS, LeastPiece
from estimating.design.boards.solving.stock import Cut

ANY_WIDTH = 1_000_000


class Place(NamedTuple):
    """Room for a piece: which edge it keeps, what it takes and how wide it may be (a full one has no say)."""

    kind: int
    takes: int
    width: int


def any_width(piece: LeastPiece) -> Place:
    """Return the place for a piece where strips may be of any width.

    Args:
        piece: What it keeps and takes. Record. [mm]

    Returns:
        The place. Record. [mm]

    Source:
        Own definition.
    """
    return Place(piece.kind, piece.takes, 0 if piece.kind == FULL else ANY_WIDTH)


def place_for(cut: Cut) -> Place:
    """Return the place that a cut is made for.

    Args:
        cut: What a piece takes. Record. [mm]

    Returns:
        The place. Record. [mm]

    Source:
        Own definition.
    """
    return Place(KINDS[cut.kind], cut.takes_mm, 0 if cut.kind == "full" else cut.width_mm)
