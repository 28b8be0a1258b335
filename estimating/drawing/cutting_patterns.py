"""Boards that are cut alike, taken together so that the saw is set once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from estimating.design.boards.cutting_list import BoardCuts, LeftOver, SawCut
from estimating.design.boards.layout import Piece
from estimating.design.design import ZoneDesign
from estimating.drawing.notches import notches
from estimating.drawing.numbering import laying_numbers, piece_name
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
    """Boards cut alike: their numbers, the cuts in saw order, the pieces and what is left over."""

    boards: tuple[int, ...]
    cuts: tuple[SawCut, ...]
    pieces: tuple[PatternPiece, ...]
    left_over: tuple[LeftOver, ...]


Place = tuple[int, int, int, int, tuple[Polygon, ...]]
Places = tuple[Place, ...]


def cutting_patterns(zone: ZoneDesign, letter: str = "") -> tuple[Pattern, ...]:
    """Group the boards of a zone that are cut or notched, in the order of their numbers.

    Args:
        zone: The zone. Record. [mm]
        letter: The letter of the zone, for the names of its pieces. Text. [-]

    Returns:
        The patterns. Tuple of records. [mm]

    Source:
        Own definition.
    """
    if zone.layout is None:
        return ()
    placed = {piece.number: piece for piece in zone.layout.pieces}
    alike: dict[Places, list[BoardCuts]] = {}
    for board in zone.cuts:
        if board.cuts or any(piece.notched for piece in board.pieces):
            places = tuple(_place(zone, placed[piece.number]) for piece in board.pieces)
            alike.setdefault(places, []).append(board)
    return tuple(_pattern(zone, letter, places, boards) for places, boards in alike.items())


def whole_boards(zone: ZoneDesign, letter: str = "") -> tuple[str, ...]:
    """Name the pieces that are laid as they come, neither cut nor notched.

    Args:
        zone: The zone. Record. [mm]
        letter: The letter of the zone, for the names of its pieces. Text. [-]

    Returns:
        Their names, in laying order. Tuple of text. [-]

    Source:
        Own definition.
    """
    numbers = laying_numbers(zone)
    uncut = [each for each in zone.cuts if not each.cuts and not any(piece.notched for piece in each.pieces)]
    laid = sorted(numbers[piece.number] for board in uncut for piece in board.pieces)
    return tuple(piece_name(letter, number) for number in laid)


def _place(zone: ZoneDesign, piece: Piece) -> Place:
    return piece.board_x, piece.board_y, piece.length_mm, piece.width_mm, notches(zone, piece)


def _pattern(zone: ZoneDesign, letter: str, places: Places, boards: list[BoardCuts]) -> Pattern:
    numbers = laying_numbers(zone)
    pieces = tuple(
        PatternPiece(
            x_mm=x,
            y_mm=y,
            length_mm=length,
            width_mm=width,
            names=tuple(piece_name(letter, numbers[board.pieces[rank].number]) for board in boards),
            notches=found,
        )
        for rank, (x, y, length, width, found) in enumerate(places)
    )
    first = boards[0]
    return Pattern(
        boards=tuple(board.board for board in boards),
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
