"""Whether a board goes up through the hatch."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.checks.verdicts import Verdict
from estimating.choices import Choices, Part
from estimating.price_book import Board
from estimating.survey import Hatch, Severity, Survey


def passes_hatch(board: Board, hatch: Hatch) -> bool:
    """Tell whether a board goes through a hatch end first, its width along the longer side.

    The room below and above, in which its length must turn, is not looked at.

    Args:
        board: The board. Record. [mm]
        hatch: The hatch. Record. [mm]

    Returns:
        Whether it does. Flag. [-]

    Source:
        Geometry.
    """
    short, long = sorted(hatch.clear_sides_mm)
    return board.cover_width_mm <= long and board.thickness_mm <= short


def board_through_hatch_verdicts(survey: Survey, choices: Choices, board: Board) -> Iterator[Verdict]:
    """Caution when the board that the deck is laid with does not go through the hatch there is.

    Args:
        survey: The hatch as measured. Record. [mm]
        choices: Whether a new hatch is offered. Record. [-]
        board: The board. Record. [mm]

    Returns:
        A verdict, or none. Iterator. [-]

    Source:
        Geometry.
    """
    if passes_hatch(board, survey.hatch) or Part.HATCH in choices.parts:
        return
    short, long = sorted(survey.hatch.clear_sides_mm)
    yield Verdict(
        subject="hatch",
        severity=Severity.CAUTION,
        words=(
            f"{board.description} is {board.cover_width_mm} mm wide and does not go through the hatch of "
            f"{long} × {short} mm: cut it before it goes up, choose another board, or offer a new hatch."
        ),
        source="geometry",
    )
