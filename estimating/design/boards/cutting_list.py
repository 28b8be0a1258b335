"""The cutting list: board by board, each cut in saw order, what it yields and where that goes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from estimating.design.boards.layout import Layout, Piece
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.rows import DeckRows

CutKind = Literal["crosscut", "rip"]
MeasuredFrom = Literal["left end", "right end", "groove edge", "tongue edge"]


class SawCut(NamedTuple):
    """One straight full cut of the part in hand, measured on that part to the side that is kept.

    The saw takes its kerf beyond the measure. The part's length and width before the cut tell the crew
    which part is meant; kept names the pieces in the measured part, the rest stays in hand.
    """

    kind: CutKind
    at_mm: int
    measured_from: MeasuredFrom
    part_length_mm: int
    part_width_mm: int
    kept: tuple[int, ...]


class CutPiece(NamedTuple):
    """A piece a board yields, where it goes, and which of its edges are still the factory's."""

    number: int
    row: int
    position: int
    length_mm: int
    width_mm: int
    factory_left: bool
    factory_right: bool
    keeps_groove: bool
    keeps_tongue: bool
    notched: bool


class LeftOver(NamedTuple):
    """What is left of a board: worth keeping, or waste."""

    length_mm: int
    width_mm: int
    kept: bool


@dataclass(frozen=True, slots=True)
class BoardCuts:
    """How one board is cut."""

    board: int
    cuts: tuple[SawCut, ...]
    pieces: tuple[CutPiece, ...]
    left_over: tuple[LeftOver, ...]


class _Part(NamedTuple):
    x0: int
    y0: int
    x1: int
    y1: int


def cutting_list(problem: LayoutProblem, layout: Layout) -> tuple[BoardCuts, ...]:
    """List how every board is cut, in saw order.

    Crosscuts come before rips, from the left factory end on, so that each measure is taken from the end the
    saw has just left. A left-over is worth keeping when it could still make a piece: at least the least
    piece long and the least strip wide.

    Args:
        problem: The layout problem. Record. [mm]
        layout: A layout of it whose boards come apart by straight cuts. Record. [mm]

    Returns:
        The cuts, pieces and left-overs of each board. Tuple of records. [mm]

    Source:
        Straight full cuts: a hand or circular saw; common practice, no source.
    """
    rows = DeckRows(problem)
    position = {
        piece.number: 1 + sum(other.row == piece.row and other.x0 < piece.x0 for other in layout.pieces)
        for piece in layout.pieces
    }
    by_board: dict[int, list[Piece]] = {}
    for piece in layout.pieces:
        by_board.setdefault(piece.board, []).append(piece)
    product = problem.product
    found = []
    for board, pieces in sorted(by_board.items()):
        saw = _Saw(problem)
        saw.separate(_Part(0, 0, product.cover_length_mm, product.cover_width_mm), pieces)
        in_order = sorted(pieces, key=lambda piece: (piece.board_x, piece.board_y))
        yielded = tuple(_cut_piece(problem, rows, piece, position[piece.number]) for piece in in_order)
        found.append(BoardCuts(board, tuple(saw.cuts), yielded, tuple(saw.left_over)))
    return tuple(found)


class _Saw:
    """Separates the pieces of one board and remembers every cut and left-over."""

    def __init__(self, problem: LayoutProblem) -> None:
        self._rules = problem.rules
        self.cuts: list[SawCut] = []
        self.left_over: list[LeftOver] = []

    def separate(self, part: _Part, pieces: Sequence[Piece]) -> None:
        """Cut a part in hand until each of its pieces is free."""
        if len(pieces) == 1:
            self._trim(part, pieces[0])
            return
        kerf = self._rules.kerf_mm
        for crosscut in (True, False):
            ordered = sorted(pieces, key=lambda piece: _begins(piece, crosscut))
            end = _ends(ordered[0], crosscut)
            for count in range(1, len(ordered)):
                if _begins(ordered[count], crosscut) >= end + kerf:
                    near, far = ordered[:count], ordered[count:]
                    self._cut(part, "left end" if crosscut else "groove edge", end, near)
                    first, rest = _divided(part, crosscut, end, kerf)
                    self.separate(first, near)
                    self.separate(rest, far)
                    return
                end = max(end, _ends(ordered[count], crosscut))

    def _trim(self, part: _Part, piece: Piece) -> None:
        """Free one piece from a part: its ends first, then its edges."""
        kerf, length = self._rules.kerf_mm, piece.length_mm
        right, top = piece.board_x + length, piece.board_y + piece.width_mm
        height = part.y1 - part.y0
        if piece.board_x > part.x0:
            self._cut(part, "right end", piece.board_x, [piece])
            self._leave(piece.board_x - kerf - part.x0, height)
            part = part._replace(x0=piece.board_x)
        if right < part.x1:
            self._cut(part, "left end", right, [piece])
            self._leave(part.x1 - right - kerf, height)
            part = part._replace(x1=right)
        if piece.board_y > part.y0:
            self._cut(part, "tongue edge", piece.board_y, [piece])
            self._leave(length, piece.board_y - kerf - part.y0)
            part = part._replace(y0=piece.board_y)
        if top < part.y1:
            self._cut(part, "groove edge", top, [piece])
            self._leave(length, part.y1 - top - kerf)

    def _cut(self, part: _Part, measured_from: MeasuredFrom, line: int, kept: Sequence[Piece]) -> None:
        at = {
            "left end": line - part.x0,
            "right end": part.x1 - line,
            "groove edge": line - part.y0,
            "tongue edge": part.y1 - line,
        }[measured_from]
        kind: CutKind = "crosscut" if measured_from.endswith("end") else "rip"
        numbers = tuple(sorted(piece.number for piece in kept))
        self.cuts.append(SawCut(kind, at, measured_from, part.x1 - part.x0, part.y1 - part.y0, numbers))

    def _leave(self, length: int, width: int) -> None:
        if length > 0 and width > 0:
            keep = length >= self._rules.min_piece_mm and width >= self._rules.min_strip_mm
            self.left_over.append(LeftOver(length, width, keep))


def _begins(piece: Piece, crosscut: bool) -> int:
    return piece.board_x if crosscut else piece.board_y


def _ends(piece: Piece, crosscut: bool) -> int:
    return piece.board_x + piece.length_mm if crosscut else piece.board_y + piece.width_mm


def _divided(part: _Part, crosscut: bool, line: int, kerf: int) -> tuple[_Part, _Part]:
    if crosscut:
        return part._replace(x1=line), part._replace(x0=line + kerf)
    return part._replace(y1=line), part._replace(y0=line + kerf)


def _cut_piece(problem: LayoutProblem, rows: DeckRows, piece: Piece, position: int) -> CutPiece:
    product = problem.product
    return CutPiece(
        number=piece.number,
        row=piece.row,
        position=position,
        length_mm=piece.length_mm,
        width_mm=piece.width_mm,
        factory_left=piece.board_x == 0,
        factory_right=piece.board_x + piece.length_mm == product.cover_length_mm,
        keeps_groove=piece.board_y == 0,
        keeps_tongue=piece.board_y + piece.width_mm == product.cover_width_mm,
        notched=_is_notched(rows, piece),
    )


def _is_notched(rows: DeckRows, piece: Piece) -> bool:
    """Whether the deck leaves some of a piece's rectangle free, so that it is cut to shape."""
    return any(
        not stretch.fills(piece.y0, piece.y1)
        for stretch in rows.stretches[piece.row]
        if stretch.right > piece.x0 and stretch.left < piece.x1
    )
