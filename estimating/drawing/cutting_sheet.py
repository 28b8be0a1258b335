"""The cutting sheet: every board that is cut, to scale, with its pieces, cuts and what is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from estimating.design.boards.problem import BoardProduct
from estimating.design.design import Design
from estimating.drawing.cutting_patterns import (
    Pattern,
    PatternPiece,
    cut_words,
    cutting_patterns,
    left_over_words,
    number_ranges,
    whole_boards,
)
from estimating.drawing.dimensions import Axis as Line
from estimating.drawing.dimensions import ticks
from estimating.drawing.labels import Box, Room, box_around, label_box, write_in
from estimating.drawing.loft_parts import define_patterns
from estimating.drawing.notches import notch_words
from estimating.drawing.svg import TEXT_PX, Canvas, Spot
from estimating.drawing.view import A4_LANDSCAPE, Format
from estimating.drawing.wrapping import wrapped

COLUMN_PX = 500.0
"""The least width in which a board and its words can be read."""
GUTTER_PX = 24.0
TALLEST_BOARD_PX = 90.0
LINE_PX = 16.0
AIR_PX = 8.0
LENGTHS_PX = 24.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cell:
    """The room for one pattern, the scale of its board, and how many lines stand above and below it.

    Every board of a deck has the product's width and thickness; the lengths may differ.
    """

    canvas: Canvas
    left_px: float
    top_px: float
    width_px: float
    px_per_mm: float
    head_lines: int
    rest_lines: int
    product: BoardProduct
    mixed: bool

    @property
    def board_top_px(self) -> float:
        return self.top_px + self.head_lines * LINE_PX + AIR_PX

    @property
    def height_px(self) -> float:
        board = self.product.cover_width_mm * self.px_per_mm
        return self.board_top_px - self.top_px + board + LENGTHS_PX + self.rest_lines * LINE_PX + 2 * AIR_PX

    def x(self, x_mm: float) -> float:
        return self.left_px + x_mm * self.px_per_mm

    def y(self, y_mm: float) -> float:
        return self.board_top_px + (self.product.cover_width_mm - y_mm) * self.px_per_mm

    def box(self, piece: PatternPiece) -> Box:
        return Box(
            self.x(piece.x_mm),
            self.y(piece.y_mm + piece.width_mm),
            self.x(piece.x_mm + piece.length_mm),
            self.y(piece.y_mm),
        )


def cutting_sheet(
    design: Design, *, drawn_for: Format = A4_LANDSCAPE, prefix: str = "cutting"
) -> tuple[str, ...]:
    """Draw the boards of a deck that are cut, alike ones once, on as many sheets as they need.

    Args:
        design: Where everything goes. Record. [mm]
        drawn_for: The room for each sheet, and its colours; without a height all stand on one. Record. [px]
        prefix: What its ids begin with, unlike those of other drawings on the page. Text. [-]

    Returns:
        One SVG element a sheet; none where no board is cut. Tuple of text. [-]

    Source:
        Own definition.
    """
    patterns = cutting_patterns(design)
    if not patterns:
        return ()
    product = design.zones[0].problem.product
    columns = max(1, int((drawn_for.width_px + GUTTER_PX) // (COLUMN_PX + GUTTER_PX)))
    width = (drawn_for.width_px - GUTTER_PX * (columns - 1)) / columns
    mixed = len({(board.length_mm, board.bought) for board in design.cuts}) > 1
    cell = _Cell(
        canvas=Canvas(drawn_for.width_px, 0, prefix),
        left_px=2,
        top_px=0,
        width_px=width,
        px_per_mm=_scale(product, width - 6),
        head_lines=max(
            len(_title_lines(each, width, mixed)) + len(_saw_lines(each, width)) for each in patterns
        ),
        rest_lines=max(len(_rest_lines(each, width)) for each in patterns),
        product=product,
        mixed=mixed,
    )
    note = _note_lines(design, drawn_for.width_px)
    foot = len(note) * LINE_PX + AIR_PX
    rows = len(patterns)
    if drawn_for.height_px:
        rows = max(1, int((drawn_for.height_px - foot) // cell.height_px))
    shown = [patterns[at : at + columns * rows] for at in range(0, len(patterns), columns * rows)]
    return tuple(
        _sheet(
            replace(
                cell,
                canvas=Canvas(
                    drawn_for.width_px, -(-len(each) // columns) * cell.height_px + foot, f"{prefix}-{number}"
                ),
            ),
            each,
            columns,
            note,
        ).svg(
            title=f"Cutting sheet {number} of {len(shown)}",
            description=_described(each),
            palette=drawn_for.palette,
        )
        for number, each in enumerate(shown, start=1)
    )


def _described(patterns: Sequence[Pattern]) -> str:
    cut = ", ".join(str(board) for pattern in patterns for board in pattern.boards)
    return f"Boards {cut}. The cutting list says every cut in words."


def _scale(product: BoardProduct, width_px: float) -> float:
    return min(width_px / product.cover_length_mm, TALLEST_BOARD_PX / product.cover_width_mm)


def _title_lines(pattern: Pattern, width_px: float, mixed: bool) -> tuple[str, ...]:
    numbers, alike = ", ".join(number_ranges(pattern.boards)), len(pattern.boards)
    words = f"Boards {numbers}: {alike} alike" if alike > 1 else f"Board {numbers}"
    if mixed:
        words += f", {pattern.length_mm} long" + ("" if pattern.bought else ", from the store")
    return wrapped(words.split(), width_px)


def _rest_lines(pattern: Pattern, width_px: float) -> tuple[str, ...]:
    notched = [
        notch_words(", ".join(piece.names), notch) for piece in pattern.pieces for notch in piece.notches
    ]
    return wrapped((*notched, *left_over_words(pattern)), width_px, between="; ")


def _saw_lines(pattern: Pattern, width_px: float) -> tuple[str, ...]:
    cuts = [f"{rank} {words}" for rank, words in enumerate(cut_words(pattern), start=1)]
    return wrapped(cuts, width_px, between="; ") or ("no cut but the notch",)


def _note_lines(design: Design, width_px: float) -> tuple[str, ...]:
    kerf, whole = design.zones[0].problem.rules.kerf_mm, len(whole_boards(design))
    words = (
        f"Left end at the left, groove edge below; sides not marked as cut are the factory's. The saw takes "
        f"{kerf} mm. Laid whole: {whole} boards."
    )
    return wrapped(words.split(), width_px)


def _sheet(cell: _Cell, patterns: Sequence[Pattern], columns: int, note: Sequence[str]) -> Canvas:
    """Draw patterns in columns on the cell's canvas, the note below them."""
    define_patterns(cell.canvas)
    for rank, pattern in enumerate(patterns):
        left = cell.left_px + rank % columns * (cell.width_px + GUTTER_PX)
        top = rank // columns * cell.height_px
        _draw_pattern(replace(cell, left_px=left, top_px=top), pattern)
    for rank, words in enumerate(reversed(note)):
        place = 2, cell.canvas.height_px - 6 - rank * LINE_PX
        cell.canvas.words("text--soft drawing__text--start", place, words)
    return cell.canvas


def _draw_pattern(cell: _Cell, pattern: Pattern) -> None:
    canvas, product = cell.canvas, cell.product
    title = _title_lines(pattern, cell.width_px, cell.mixed)
    for rank, words in enumerate(title, start=1):
        place = cell.left_px, cell.top_px + rank * LINE_PX
        canvas.words("text--strong drawing__text--start", place, words)
    for rank, words in enumerate(_saw_lines(pattern, cell.width_px), start=len(title) + 1):
        canvas.words("text drawing__text--start", (cell.left_px, cell.top_px + rank * LINE_PX), words)
    board = Box(cell.x(0), cell.y(product.cover_width_mm), cell.x(pattern.length_mm), cell.y(0))
    corner, size = (board.left, board.top), (board.right - board.left, board.bottom - board.top)
    canvas.box("offcut", corner, size)
    canvas.box("", corner, size, fill="hatching")
    ripped = any(piece.width_mm < product.cover_width_mm for piece in pattern.pieces)
    for piece in pattern.pieces:
        _draw_piece(cell, piece, pattern.length_mm, sized=ripped)
    _draw_lengths(cell, pattern)
    for rank, words in enumerate(_rest_lines(pattern, cell.width_px), start=1):
        below = board.bottom + LENGTHS_PX + rank * LINE_PX
        canvas.words("text--soft drawing__text--start", (cell.left_px, below), words)


def _draw_piece(cell: _Cell, piece: PatternPiece, board_length_mm: int, *, sized: bool) -> None:
    box, product = cell.box(piece), cell.product
    corner, size = (box.left, box.top), (box.right - box.left, box.bottom - box.top)
    cell.canvas.box("board--cut", corner, size)
    for notch in piece.notches:
        corners = [(cell.x(piece.x_mm + x), cell.y(piece.y_mm + y)) for x, y in notch]
        cell.canvas.polygon("offcut", corners)
        cell.canvas.polygon("", corners, fill="hatching")
        cell.canvas.polygon("cut", corners)
    right, top = piece.x_mm + piece.length_mm, piece.y_mm + piece.width_mm
    sides = [
        (piece.x_mm > 0, ((box.left, box.top), (box.left, box.bottom))),
        (right < board_length_mm, ((box.right, box.top), (box.right, box.bottom))),
        (piece.y_mm > 0, ((box.left, box.bottom), (box.right, box.bottom))),
        (top < product.cover_width_mm, ((box.left, box.top), (box.right, box.top))),
    ]
    cell.canvas.lines("cut", [line for is_sawn, line in sides if is_sawn])
    lines = list(wrapped(piece.names, box.right - box.left - 4, between=", "))
    if sized:
        size_words = f"{piece.length_mm} × {piece.width_mm}"
        is_thin = box.bottom - box.top < 2 * LINE_PX
        lines = [f"{', '.join(piece.names)}: {size_words}"] if is_thin else [*lines, size_words]
    x, y = _clear_middle(cell, piece, box)
    for rank, words in enumerate(lines):
        middle = x, y + (rank - (len(lines) - 1) / 2) * LINE_PX
        kind = "text" if sized and rank and rank == len(lines) - 1 else "text--strong"
        write_in(cell.canvas, kind, label_box(middle, words), words)


def _clear_middle(cell: _Cell, piece: PatternPiece, box: Box) -> Spot:
    """The middle of a piece, or of its half with no notch in the way."""
    taken = Room(
        [
            box_around([(cell.x(piece.x_mm + x), cell.y(piece.y_mm + y)) for x, y in notch])
            for notch in piece.notches
        ]
    )
    across, (_, y) = box.right - box.left, box.middle
    middles = [(box.left + across * part, y) for part in (0.5, 0.2, 0.8)]
    found = taken.first_free(middles, ", ".join(piece.names))
    return found.middle if found else box.middle


def _draw_lengths(cell: _Cell, pattern: Pattern) -> None:
    """The length of each piece that lies at the groove edge; the others carry theirs."""
    line = Line(level=True, line_px=cell.y(0) + 8, place=cell.x, outward=1)
    for piece in pattern.pieces:
        if piece.y_mm == 0:
            start, end = cell.x(piece.x_mm), cell.x(piece.x_mm + piece.length_mm)
            cell.canvas.line("dimension", line.spot(start), line.spot(end))
            ticks(cell.canvas, line, (start, end))
            cell.canvas.words("text", line.spot((start + end) / 2, TEXT_PX + 2), str(piece.length_mm))
