"""A cutting list in the words a saw hand reads: whole boards first, then each cut in order."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from estimating.design.boards.cutting_list import BoardCuts, CutPiece, SawCut, offcuts_worth_keeping
from estimating.design.design import Design
from estimating.drawing.numbering import piece_names

Names = dict[tuple[str, int], str]
"""What each piece is called on the drawings, by its zone and its own number, in laying order."""
FACTORY_ENDS = {
    (True, True): "both ends factory",
    (True, False): "left end factory",
    (False, True): "right end factory",
    (False, False): "no factory end",
}


def cutting_words(design: Design) -> dict[str, Any]:
    """Return the cutting list of a deck: boards laid whole, boards to cut and offcuts to keep."""
    names = piece_names(design)
    mixed = len({board.length_mm for board in design.cuts}) > 1
    return {
        "whole": _whole_boards(design, names, mixed),
        "to_cut": [_to_cut(board, names, mixed) for board in design.cuts if board.cuts],
        "kept": kept_words(design),
    }


def kept_words(design: Design) -> list[str]:
    """Return the offcuts that could still serve in another deck, like ones together."""
    return [
        f"{each.count} of {each.length_mm} × {each.width_mm} mm{'' if each.full_width else ' (ripped)'}"
        for each in offcuts_worth_keeping(design.cuts)
    ]


def _whole_boards(design: Design, names: Names, mixed: bool) -> list[str]:
    """Return the pieces that need no saw, in the order they are laid; a notched one says so."""
    whole = {
        (piece.zone, piece.number): (board, piece)
        for board in design.cuts
        if not board.cuts
        for piece in board.pieces
    }
    return [_whole(name, *whole[piece], mixed) for piece, name in names.items() if piece in whole]


def _whole(name: str, board: BoardCuts, piece: CutPiece, mixed: bool) -> str:
    said = [*_which(board, mixed), *(["notched to the plan"] if piece.notched else [])]
    return f"{name} ({', '.join(said)})" if said else name


def _which(board: BoardCuts, mixed: bool) -> list[str]:
    """What sets a board apart from the others: its length where they differ, and where it comes from."""
    length = [f"{board.length_mm} mm"] if mixed else []
    return [*length, *([] if board.bought else ["from the store"])]


def _to_cut(board: BoardCuts, names: Names, mixed: bool) -> dict[str, Any]:
    """Return a board that is cut: its cuts in saw order, what they yield and what is left."""
    return {
        "board": board.board,
        "which": ", ".join(_which(board, mixed)),
        "cuts": [_cut(cut, rest, board, names) for cut, rest in _with_rests(board)],
        "pieces": [_piece(piece, names) for piece in board.pieces],
        "left": [
            f"{left.length_mm} × {left.width_mm} mm, {'keep' if left.kept else 'waste'}"
            for left in board.left_over
        ],
    }


def _with_rests(board: BoardCuts) -> Iterator[tuple[SawCut, frozenset[int]]]:
    """Yield each cut with the places of the pieces in what it leaves: one that needs no further cut is there.

    The part that is kept is cut up before the rest, so the parts still to cut lie on a stack.
    """
    parts = [frozenset(range(1, len(board.pieces) + 1))]
    for cut in board.cuts:
        kept = frozenset(cut.kept)
        while not kept <= parts[-1]:
            parts.pop()
        rest = parts.pop() - kept
        parts += [rest, kept]
        yield cut, rest


def _cut(cut: SawCut, rest: Iterable[int], board: BoardCuts, names: Names) -> str:
    verb = "Crosscut" if cut.kind == "crosscut" else "Rip"
    part = f"{cut.part_length_mm} × {cut.part_width_mm}"
    keeps, leaves = (_named(places, board, names) for places in (cut.kept, rest))
    words = f"{verb} the {part} at {cut.at_mm} mm from the {cut.measured_from}: keep {keeps}"
    return f"{words}; the rest is {leaves}" if leaves else words


def _named(places: Iterable[int], board: BoardCuts, names: Names) -> str:
    pieces = [board.pieces[place - 1] for place in sorted(places)]
    return " and ".join(names[piece.zone, piece.number] for piece in pieces)


def _piece(piece: CutPiece, names: Names) -> str:
    name, ends = names[piece.zone, piece.number], FACTORY_ENDS[piece.factory_left, piece.factory_right]
    notched = ", notched to the plan" if piece.notched else ""
    return f"{name}: {piece.length_mm} × {piece.width_mm} mm, row {piece.row + 1}, {ends}{notched}"
