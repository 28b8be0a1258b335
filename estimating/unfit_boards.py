"""Boards that a deck may not be laid with: joists too far apart for them, or no way up through the hatch."""

from __future__ import annotations

from collections.abc import Sequence

from estimating.checks.access.carried_up import board_passes, board_size
from estimating.checks.access.goes_up import goes_up
from estimating.checks.access.way_up import WayUp, way_up
from estimating.costed_decks import DeckInputs
from estimating.price_book import Board
from estimating.published.panel_centres import greatest_centres_mm
from estimating.ways_to_board import AlikeBoards


def why_unfit(board: Board, inputs: DeckInputs) -> str:
    """Tell why a board may not be used.

    Args:
        board: The board. Record. [mm]
        inputs: The loft, and every zone with what raises it. Record. [mm]

    Returns:
        The reason in words, by how much it fails among them; empty where it may be used. Text. [-]

    Source:
        NHBC Standards 6.4.19 for spans; geometry for the way up.
    """
    on_joists = _why_not_on_the_joists(board, inputs)
    return on_joists or _why_not_up(board, way_up(inputs.survey, inputs.price_book, inputs.choices))


def least_unfit(boards: Sequence[AlikeBoards], inputs: DeckInputs) -> AlikeBoards:
    """Choose the board to show where none may be used.

    One that the joists carry comes first, since a board can be cut for the hatch; of those the one that is
    too large by least, and of equals the strongest.

    Args:
        boards: The boards, none of which may be used. Sequence. [mm]
        inputs: The loft, and every zone with what raises it. Record. [mm]

    Returns:
        The board. Record. [mm]

    Source:
        Common practice, no source.
    """
    way = way_up(inputs.survey, inputs.price_book, inputs.choices)

    def unfit_by(alike: AlikeBoards) -> tuple[bool, int, int, int]:
        board = alike.board
        too_weak = bool(_why_not_on_the_joists(board, inputs))
        too_large = 0 if too_weak else _too_large_mm(board, way)
        return too_weak, too_large, -board.max_joist_centres_mm, -board.thickness_mm

    return min(boards, key=unfit_by)


def _why_not_on_the_joists(board: Board, inputs: DeckInputs) -> str:
    bays = [frame.widest_bay_mm for frame, support in inputs.supported if support.pedestal]
    widest = max(bays, default=0)
    if widest > board.max_joist_centres_mm:
        return f"joists lie up to {widest} mm apart, outside the {board.max_joist_centres_mm} mm it allows"
    table = greatest_centres_mm(board.thickness_mm)
    if table is None or widest > table:
        limit = f"{table} mm for {board.thickness_mm} mm boards" if table else "which starts at 18 mm boards"
        return f"joists lie up to {widest} mm apart, outside the published table ({limit})"
    return ""


def _why_not_up(board: Board, way: WayUp) -> str:
    if board_passes(way, board):
        return ""
    carried = goes_up(way, board.description, board_size(board))
    if carried.too_wide_mm.value:
        return f"it is {carried.too_wide_mm.value} mm too wide for the hatch"
    return f"it is {carried.too_long_mm.value} mm too long for the hatch and the rooms below and above it"


def _too_large_mm(board: Board, way: WayUp) -> int:
    carried = goes_up(way, board.description, board_size(board))
    return carried.too_wide_mm.value + carried.too_long_mm.value
