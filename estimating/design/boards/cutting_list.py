"""The cutting list of a deck: board by board, each cut in saw order, what it yields and where that goes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from estimating.design.boards.layout import Layout, OpenedBoard, Piece
from estimating.design.boards.problem import BoardSource, LayoutProblem
from estimating.design.boards.rows import DeckRows

CutKind = Literal["crosscut", "rip"]
MeasuredFrom = Literal["left end", "right end", "groove edge", "tongue edge"]


class SawCut(NamedTuple):
    """One straight full cut of the part in hand, measured on that part to the side that is kept.

    The saw takes its kerf beyond the measure. The part's length and width before the cut tell the crew
    which part is meant; kept says which of the board's pieces lie in the measured part, by their places in
    its list of pieces, from 1. The rest stays in hand.
    """

    kind: CutKind
    at_mm: int
    measured_from: MeasuredFrom
    part_length_mm: int
    part_width_mm: int
    kept: tuple[int, ...]


class CutPiece(NamedTuple):
    """A piece a board yields, where it goes, and which of its edges are still the factory's.

    Its number is that of the zone's layout, its position counts along the row.
    """

    zone: str
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
    """How one board is cut: what it is, the cuts in saw order, the pieces and what is left."""

    board: int
    code: str
    length_mm: int
    width_mm: int
    bought: bool  # else it was at hand
    cuts: tuple[SawCut, ...]
    pieces: tuple[CutPiece, ...]
    left_over: tuple[LeftOver, ...]

    @property
    def laid_as_it_comes(self) -> bool:
        """Whether no saw touches it, not even for a notch."""
        return not self.cuts and not any(piece.notched for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class KeptOffcuts:
    """Offcuts of one board and size that are worth keeping for another deck."""

    code: str
    length_mm: int
    width_mm: int
    count: int
    full_width: bool  # else it has lost its groove or its tongue


class _Part(NamedTuple):
    x0: int
    y0: int
    x1: int
    y1: int


class _Placed(NamedTuple):
    problem: LayoutProblem
    rows: DeckRows
    piece: Piece
    position: int


def cutting_list(
    zones: Iterable[tuple[LayoutProblem, Layout]], sources: Iterable[BoardSource] = ()
) -> tuple[BoardCuts, ...]:
    """List how every board of a deck is cut, in saw order, whichever zones its pieces go to.

    Crosscuts come before rips, from the left factory end on, so that each measure is taken from the end the
    saw has just left. A left-over is worth keeping when it could still make a piece: at least the least
    piece long and the least strip wide.

    Args:
        zones: Each zone's problem with its layout; board numbers are those of the whole deck. Sequence of
            pairs. [mm]
        sources: What the boards come from; tells which boards at hand have no factory ends. Sequence. [mm]

    Returns:
        The cuts, pieces and left-overs of each board, by rising number. Tuple of records. [mm]

    Source:
        Straight full cuts: a hand or circular saw; common practice, no source.
    """
    sawn = {(each.code, each.cover_length_mm) for each in sources if each.at_hand and each.cut}
    opened: dict[int, OpenedBoard] = {}
    by_board: dict[int, list[_Placed]] = {}
    for problem, layout in zones:
        rows = DeckRows(problem)
        opened.update((board.number, board) for board in layout.opened)
        for placed in _in_rows(problem, rows, layout):
            by_board.setdefault(placed.piece.board, []).append(placed)
    return tuple(_cut_board(opened[number], placed, sawn) for number, placed in sorted(by_board.items()))


def offcuts_worth_keeping(boards: Iterable[BoardCuts]) -> tuple[KeptOffcuts, ...]:
    """Gather the offcuts that could still make a piece, so that none goes to the tip.

    Args:
        boards: The cutting list. Sequence. [mm]

    Returns:
        The offcuts by board and size, the longest first. Tuple of records. [mm]

    Source:
        What could still make a piece by the laying rules: common practice, no source.
    """
    counted = Counter(
        (board.code, left.length_mm, left.width_mm, left.width_mm == board.width_mm)
        for board in boards
        for left in board.left_over
        if left.kept
    )
    found = [
        KeptOffcuts(code, length, width, count, full_width)
        for (code, length, width, full_width), count in counted.items()
    ]
    return tuple(sorted(found, key=lambda each: (-each.length_mm, -each.width_mm, each.code)))


def _in_rows(problem: LayoutProblem, rows: DeckRows, layout: Layout) -> Iterable[_Placed]:
    """Each piece with its place in its row, counted from the left."""
    reached: Counter[int] = Counter()
    for piece in sorted(layout.pieces, key=lambda each: (each.row, each.x0)):
        reached[piece.row] += 1
        yield _Placed(problem, rows, piece, reached[piece.row])


def _cut_board(board: OpenedBoard, placed: Sequence[_Placed], sawn: set[tuple[str, int]]) -> BoardCuts:
    in_order = sorted(placed, key=lambda each: (each.piece.board_x, each.piece.board_y))
    pieces = [each.piece for each in in_order]
    problem = in_order[0].problem
    width = problem.product.cover_width_mm
    saw = _Saw(problem, pieces)
    saw.separate(_Part(0, 0, board.length_mm, width), pieces)
    ends = (0, board.length_mm)
    if not board.bought and (board.code, board.length_mm) in sawn:
        ends = (-1, -1)  # no piece of it begins or ends at the factory's cut
    return BoardCuts(
        board=board.number,
        code=board.code,
        length_mm=board.length_mm,
        width_mm=width,
        bought=board.bought,
        cuts=tuple(saw.cuts),
        pieces=tuple(_cut_piece(each, ends) for each in in_order),
        left_over=tuple(saw.left_over),
    )


class _Saw:
    """Separates the pieces of one board and remembers every cut and left-over."""

    def __init__(self, problem: LayoutProblem, pieces: Sequence[Piece]) -> None:
        self._rules = problem.rules
        # by identity: two zones may have pieces that are alike in every number
        self._places = {id(piece): place for place, piece in enumerate(pieces, start=1)}
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
        places = tuple(sorted(self._places[id(piece)] for piece in kept))
        self.cuts.append(SawCut(kind, at, measured_from, part.x1 - part.x0, part.y1 - part.y0, places))

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


def _cut_piece(placed: _Placed, ends: tuple[int, int]) -> CutPiece:
    piece = placed.piece
    return CutPiece(
        zone=placed.problem.reference,
        number=piece.number,
        row=piece.row,
        position=placed.position,
        length_mm=piece.length_mm,
        width_mm=piece.width_mm,
        factory_left=piece.board_x == ends[0],
        factory_right=piece.board_x + piece.length_mm == ends[1],
        keeps_groove=piece.board_y == 0,
        keeps_tongue=piece.board_y + piece.width_mm == placed.problem.product.cover_width_mm,
        notched=_is_notched(placed.rows, piece),
    )


def _is_notched(rows: DeckRows, piece: Piece) -> bool:
    """Whether the deck leaves some of a piece's rectangle free, so that it is cut to shape."""
    return any(
        not stretch.fills(piece.y0, piece.y1)
        for stretch in rows.stretches[piece.row]
        if stretch.right > piece.x0 and stretch.left < piece.x1
    )
