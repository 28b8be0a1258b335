"""Nobody is boxed in: the deck grows from the hatch outward. Common practice, no source."""

from __future__ import annotations

import pytest

from estimating.design.boards import Layout, lay_boards
from estimating.design.boards.laying_order import laying_order
from tests.estimating.boards.problems import LONG_BOARD, deck


@pytest.mark.parametrize("hatch", [(10, 10), (3500, 1500), (6900, 2990), (3500, -500), (3500, 9000)])
def test_each_piece_joins_what_is_laid_and_rows_grow_away_from_the_hatch(hatch):
    problem = deck(7000, 3000, board=LONG_BOARD)
    layout = lay_boards(problem)
    assert isinstance(layout, Layout)
    by_number = {piece.number: piece for piece in layout.pieces}
    order = [by_number[number] for number in laying_order(problem, layout, hatch)]
    assert sorted(piece.number for piece in order) == sorted(by_number)
    rows_laid: dict[int, list[tuple[int, int]]] = {}
    for piece in order:
        in_row = rows_laid.setdefault(piece.row, [])
        if in_row:  # beside its neighbour, never leaving a hole to be filled from both sides
            left, right = min(x for x, _ in in_row), max(x for _, x in in_row)
            assert piece.x0 - right in range(4) or left - piece.x1 in range(4)
        elif len(rows_laid) > 1:
            assert {piece.row - 1, piece.row + 1} & set(rows_laid)
        in_row.append((piece.x0, piece.x1))


def test_the_first_piece_lies_at_the_hatch():
    problem = deck(7000, 3000, board=LONG_BOARD)
    layout = lay_boards(problem)
    assert isinstance(layout, Layout)
    first = laying_order(problem, layout, (3500, 1500))[0]
    piece = next(piece for piece in layout.pieces if piece.number == first)
    assert piece.x0 <= 3500 <= piece.x1 + 3
    assert piece.y0 <= 1500 <= piece.y1
