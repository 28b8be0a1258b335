"""Boards numbered in the order in which the crew opens them, all over the deck."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from estimating.design.boards.layout import LaidDeck, Layout


def numbered_as_laid(
    laid: LaidDeck, laying_orders: Sequence[Sequence[int]], zones_in_order: Sequence[int]
) -> LaidDeck:
    """Number the boards by the first piece of each that is laid, so that the list is sawn as it is laid.

    Args:
        laid: A deck laid. Record. [mm]
        laying_orders: The piece numbers of each zone in laying order. Sequence of sequences. [-]
        zones_in_order: The places of the zones in the order they are laid, nearest the hatch first.
            Sequence. [-]

    Returns:
        The same deck with boards numbered from 1; each counts for the zone that cuts it first. Record. [mm]

    Source:
        Common practice, no source.
    """
    numbers: dict[int, int] = {}
    first_cut_in: dict[int, int] = {}
    for place in zones_in_order:
        layout = laid.zones[place]
        if isinstance(layout, Layout):
            board_of = {piece.number: piece.board for piece in layout.pieces}
            for piece in laying_orders[place]:
                number = numbers.setdefault(board_of[piece], len(numbers) + 1)
                first_cut_in.setdefault(number, place)
    bought = {
        numbers[board.number]
        for layout in laid.zones
        if isinstance(layout, Layout)
        for board in layout.opened
        if board.bought
    }
    counts = Counter(place for number, place in first_cut_in.items() if number in bought)
    zones = tuple(
        _renumbered(layout, numbers, counts[place]) if isinstance(layout, Layout) else layout
        for place, layout in enumerate(laid.zones)
    )
    return replace(laid, zones=zones)


def _renumbered(layout: Layout, numbers: dict[int, int], boards: int) -> Layout:
    opened = [replace(board, number=numbers[board.number]) for board in layout.opened]
    pieces = tuple(replace(piece, board=numbers[piece.board]) for piece in layout.pieces)
    return replace(
        layout, boards=boards, pieces=pieces, opened=tuple(sorted(opened, key=lambda board: board.number))
    )
