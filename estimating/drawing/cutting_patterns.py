"""Boards that are cut alike, taken together so that the saw is set once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from estimating.design.boards.cutting_list import BoardCuts, LeftOver, SawCut
from estimating.design.boards.layout import Piece
from estimating.design.design import Design, ZoneDesign
from estimating.drawing.notches import notches
from estimating.drawing.numbering import piece_names
from estimating.plane import Polygon


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternPiece:
    """One place in a pattern: where it lies on the board, and the piece each board yields there."""

    x_mm: int
    y_mm: int
    length_mm: int
    width_mm: int
    names: tuple[str, ...]
    notches: tuple[Polygon, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """Boards cut alike: their numbers, what they are, the cuts in saw order, the pieces and what is left."""

    boards: tuple[int, ...]
    length_mm: int
    bought: bool
    cuts: tuple[SawCut, ...]
    pieces: tuple[PatternPiece, ...]
    left_over: tuple[LeftOver, ...]


Place = tuple[int, int, int, int, tuple[Polygon, ...]]
Alike = tuple[str, int, bool, tuple[Place, ...]]
"""What boards that are cut alike share: their code, length, whether they are bought, and their places."""


def cutting_patterns(design: Design) -> tuple[Pattern, ...]:
    """Group the boards of a deck that are cut or notched, in the order of their numbers.

    Args:
        design: Where everything goes. Record. [mm]

    Returns:
        The patterns. Tuple of records. [mm]

    Source:
        Own definition.
    """
    placed = {
        (zone.zone, piece.number): (zone, piece)
        for zone in design.zones
        if zone.layout
        for piece in zone.layout.pieces
    }
    names = piece_names(design)
    alike: dict[Alike, list[BoardCuts]] = {}
    for board in design.cuts:
        if not board.laid_as_it_comes:
            places = tuple(_place(*placed[piece.zone, piece.number]) for piece in board.pieces)
            alike.setdefault((board.code, board.length_mm, board.bought, places), []).append(board)
    return tuple(_pattern(names, places, boards) for (*_, places), boards in alike.items())


def whole_boards(design: Design) -> tuple[str, ...]:
    """Name the pieces that are laid as they come, neither cut nor notched.

    Args:
        design: Where everything goes. Record. [mm]

    Returns:
        Their names, zone by zone in laying order. Tuple of text. [-]

    Source:
        Own definition.
    """
    uncut = {
        (piece.zone, piece.number)
        for board in design.cuts
        if board.laid_as_it_comes
        for piece in board.pieces
    }
    return tuple(name for piece, name in piece_names(design).items() if piece in uncut)


def _place(zone: ZoneDesign, piece: Piece) -> Place:
    return piece.board_x, piece.board_y, piece.length_mm, piece.width_mm, notches(zone, piece)


def _pattern(
    names: Mapping[tuple[str, int], str], places: tuple[Place, ...], boards: list[BoardCuts]
) -> Pattern:
    pieces = tuple(
        PatternPiece(
            x_mm=x,
            y_mm=y,
            length_mm=length,
            width_mm=width,
            names=tuple(names[board.pieces[rank].zone, board.pieces[rank].number] for board in boards),
            notches=found,
        )
        for rank, (x, y, length, width, found) in enumerate(places)
    )
    first = boards[0]
    return Pattern(
        boards=tuple(board.board for board in boards),
        length_mm=first.length_mm,
        bought=first.bought,
        cuts=first.cuts,
        pieces=pieces,
        left_over=first.left_over,
    )


def number_ranges(numbers: Sequence[int]) -> tuple[str, ...]:
    """Tell rising numbers shortly, those in a row as a range.

    Args:
        numbers: The numbers, rising. Sequence. [count]

    Returns:
        Words such as "2–5" and "7". Tuple of text. [-]

    Source:
        Own definition.
    """
    ranges: list[tuple[int, int]] = []
    for number in numbers:
        if ranges and ranges[-1][1] == number - 1:
            ranges[-1] = (ranges[-1][0], number)
        else:
            ranges.append((number, number))
    return tuple(str(low) if low == high else f"{low}–{high}" for low, high in ranges)


def cut_words(pattern: Pattern) -> tuple[str, ...]:
    """Say each cut of a pattern in saw order.

    Args:
        pattern: The pattern. Record. [mm]

    Returns:
        Words such as "cut 1197 from left end". Tuple of text. [mm]

    Source:
        Own definition.
    """
    kinds = {"crosscut": "cut", "rip": "rip"}
    return tuple(f"{kinds[cut.kind]} {cut.at_mm} from {cut.measured_from}" for cut in pattern.cuts)


def left_over_words(pattern: Pattern) -> tuple[str, ...]:
    """Say what is left of a board, part by part.

    Args:
        pattern: The pattern. Record. [mm]

    Returns:
        Words such as "keep 740 × 600". Tuple of text. [mm]

    Source:
        Own definition.
    """
    if not pattern.left_over:
        return ("nothing left over",)
    return tuple(
        f"{'keep' if rest.kept else 'waste'} {rest.length_mm} × {rest.width_mm}" for rest in pattern.left_over
    )
