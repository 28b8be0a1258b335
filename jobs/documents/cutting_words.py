"""A cutting list in the words a saw hand reads: whole boards first, then each cut in order."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from estimating.design.boards.cutting_list import BoardCuts, CutPiece, SawCut


def whole_boards(cuts: Sequence[BoardCuts]) -> list[int]:
    """Return the pieces that are laid as whole boards, uncut."""
    return [piece.number for board in cuts if not board.cuts for piece in board.pieces]


def boards_to_cut(cuts: Sequence[BoardCuts]) -> list[dict[str, Any]]:
    """Return each board that is cut: its cuts in saw order, what they yield and what is left."""
    return [
        {
            "board": board.board,
            "cuts": [_cut(cut) for cut in board.cuts],
            "pieces": [_piece(piece) for piece in board.pieces],
            "left": [
                f"{left.length_mm} × {left.width_mm} mm, {'keep' if left.kept else 'waste'}"
                for left in board.left_over
            ],
        }
        for board in cuts
        if board.cuts
    ]


def _cut(cut: SawCut) -> str:
    verb = "Crosscut" if cut.kind == "crosscut" else "Rip"
    keeps = " and ".join(str(number) for number in cut.kept)
    part = f"{cut.part_length_mm} × {cut.part_width_mm}"
    return f"{verb} the {part} at {cut.at_mm} mm from the {cut.measured_from}: keep {keeps}"


def _piece(piece: CutPiece) -> str:
    notched = ", notched on site" if piece.notched else ""
    size = f"{piece.length_mm} × {piece.width_mm} mm"
    return f"{piece.number}: {size}, row {piece.row + 1}, place {piece.position}{notched}"
