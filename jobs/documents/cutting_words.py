"""A cutting list in the words a saw hand reads: whole boards first, then each cut in order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from estimating.design.boards.cutting_list import BoardCuts, CutPiece, SawCut

Names = Mapping[int, str]
"""What each piece is called on the drawings, by its own number."""


def whole_boards(cuts: Sequence[BoardCuts], names: Names) -> list[str]:
    """Return the pieces that need no saw, in the order they are laid; a notched one says so."""
    whole = [piece for board in cuts if not board.cuts for piece in board.pieces]
    order = list(names)
    return [
        f"{names[piece.number]}{' (notched to the plan)' if piece.notched else ''}"
        for piece in sorted(whole, key=lambda piece: order.index(piece.number))
    ]


def boards_to_cut(cuts: Sequence[BoardCuts], names: Names) -> list[dict[str, Any]]:
    """Return each board that is cut: its cuts in saw order, what they yield and what is left."""
    return [
        {
            "board": board.board,
            "cuts": [_cut(cut, names) for cut in board.cuts],
            "pieces": [_piece(piece, names) for piece in board.pieces],
            "left": [
                f"{left.length_mm} × {left.width_mm} mm, {'keep' if left.kept else 'waste'}"
                for left in board.left_over
            ],
        }
        for board in cuts
        if board.cuts
    ]


def _cut(cut: SawCut, names: Names) -> str:
    verb = "Crosscut" if cut.kind == "crosscut" else "Rip"
    keeps = " and ".join(names[number] for number in cut.kept)
    part = f"{cut.part_length_mm} × {cut.part_width_mm}"
    return f"{verb} the {part} at {cut.at_mm} mm from the {cut.measured_from}: keep {keeps}"


def _piece(piece: CutPiece, names: Names) -> str:
    notched = ", notched to the plan" if piece.notched else ""
    return f"{names[piece.number]}: {piece.length_mm} × {piece.width_mm} mm, row {piece.row + 1}{notched}"
