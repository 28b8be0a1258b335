"""From choices to saw lines: which board each piece comes from, and where in that board it lies.

The search speaks of offcuts by size. Here each becomes a real board, and the play that the gap tolerance
leaves is given back: a piece is cut to its full span wherever its board is long enough.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from estimating.design.boards.layout import Joint, Layout, OpenedBoard, Piece
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.solving.sawing import Cut, Offcut, Sawing, Strip, rest_of
from estimating.design.boards.steps import RIGHT_END, RUN_END, Step


class Choice(NamedTuple):
    """One step chosen by a solver: its row and the offcut or strip it is cut from (None: a new board)."""

    row: int
    step: Step
    source: Offcut | Strip | None


@dataclass(slots=True)
class _Block:
    """A length of board holding one piece, and beside it the pieces cut from its strip."""

    choice: Choice
    cut: Cut
    beside: list[_Block] = field(default_factory=list)


@dataclass(slots=True)
class _Board:
    from_left: list[_Block] = field(default_factory=list)
    from_right: list[_Block] = field(default_factory=list)


class _Placed(NamedTuple):
    choice: Choice
    board: int
    board_x: int
    board_y: int
    length_mm: int


def allotted(problem: LayoutProblem, sawing: Sawing, choices: Sequence[Choice]) -> Layout:
    """Turn chosen steps into placed pieces of numbered boards.

    Args:
        problem: The layout problem. Record. [mm]
        sawing: The sawing that the choices were made with. Record. [mm]
        choices: The chosen steps in the order they were taken. Sequence. [mm]

    Returns:
        The layout, pieces numbered row by row and boards by their first piece. Record. [mm]

    Source:
        Geometry.
    """
    placed = [
        at
        for number, board in enumerate(_cut_boards(sawing, choices))
        for at in _places(problem, number, board)
    ]
    placed.sort(key=lambda at: (at.choice.row, at.choice.step.x0))
    board_numbers: dict[int, int] = {}
    pieces = []
    for number, at in enumerate(placed, start=1):
        board = board_numbers.setdefault(at.board, len(board_numbers) + 1)
        step = at.choice.step
        pieces.append(
            Piece(
                number,
                at.choice.row,
                step.x0,
                step.x0 + at.length_mm,
                step.blank.y0,
                step.blank.y1,
                board,
                at.board_x,
                at.board_y,
            )
        )
    joints = tuple(
        Joint(at.choice.row, at.choice.step.x1, at.choice.step.joist)
        for at in placed
        if at.choice.step.joist != RUN_END
    )
    product = problem.product
    opened = tuple(
        OpenedBoard(number, product.code, product.cover_length_mm, True) for number in board_numbers.values()
    )
    return Layout(problem.reference, len(board_numbers), tuple(pieces), joints, opened)


def _cut_boards(sawing: Sawing, choices: Sequence[Choice]) -> list[_Board]:
    boards: list[_Board] = []
    offcuts: dict[Offcut, list[_Board]] = {}
    strips: dict[Strip, list[_Block]] = {}
    for choice in choices:
        cut = sawing.cut_for(choice.step)
        block = _Block(choice, cut)
        if isinstance(choice.source, Strip):
            beside = strips[choice.source].pop()
            beside.beside.append(block)
            rest = choice.source._replace(capacity_mm=choice.source.capacity_mm - cut.takes_mm)
            strips.setdefault(rest, []).append(beside)
            continue
        if choice.source is None:
            board = _Board()
            boards.append(board)
        else:
            board = offcuts[choice.source].pop()
        (board.from_right if cut.factory_ends == RIGHT_END else board.from_left).append(block)
        offcuts.setdefault(rest_of(choice.source or sawing.new_board, cut), []).append(board)
        if cut.kind != "full":
            strips.setdefault(sawing.strip_beside(cut), []).append(block)
    return boards


def _places(problem: LayoutProblem, number: int, board: _Board) -> list[_Placed]:
    kerf, board_length = problem.rules.kerf_mm, problem.product.cover_length_mm
    blocks = board.from_left + board.from_right
    lengths = _lengths(blocks, board_length, kerf)
    placed: list[_Placed] = []
    left, right = 0, board_length
    for block, length in zip(blocks[: len(board.from_left)], lengths, strict=False):
        placed += _places_in_block(problem, number, block, (left, length))
        left += length + kerf
    for block, length in zip(board.from_right, lengths[len(board.from_left) :], strict=True):
        placed += _places_in_block(problem, number, block, (right - length, length))
        right -= length + kerf
    return placed


def _places_in_block(
    problem: LayoutProblem, number: int, block: _Block, span: tuple[int, int]
) -> list[_Placed]:
    width = problem.product.cover_width_mm

    def y_of(each: _Block, keeps_tongue: bool) -> int:
        blank = each.choice.step.blank
        return width - (blank.y1 - blank.y0) if keeps_tongue else 0

    # a shared piece that may keep either edge lies against the tongue, so its strip keeps the groove
    at_top = block.choice.step.blank.kind == "tongue" or block.cut.kind == "neither"
    x, length = span
    placed = [_Placed(block.choice, number, x, y_of(block, at_top), length)]
    lengths = _lengths(block.beside, length, problem.rules.kerf_mm)
    for each, each_length in zip(block.beside, lengths, strict=True):
        placed.append(_Placed(each.choice, number, x, y_of(each, not at_top), each_length))
        x += each_length + problem.rules.kerf_mm
    return placed


def _lengths(blocks: Sequence[_Block], available_mm: int, kerf_mm: int) -> list[int]:
    """Cut each piece to its full span while the length allows, else shorter by part of the gap."""
    play = available_mm + kerf_mm - sum(block.cut.takes_mm for block in blocks)
    lengths = []
    for block in blocks:
        least = block.cut.takes_mm - kerf_mm
        more = max(0, min(play, block.choice.step.x1 - block.choice.step.x0 - least))
        play -= more
        lengths.append(least + more)
    return lengths
