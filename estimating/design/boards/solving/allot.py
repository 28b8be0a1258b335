"""From choices to saw lines: which board each piece comes from, and where in that board it lies.

The search speaks of offcuts by size. Here each becomes a real board, and the play that the gap tolerance
leaves is given back: a piece is cut to its full span wherever its board is long enough.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from estimating.design.boards.joint_places import joist_under
from estimating.design.boards.layout import Joint, Layout, OpenedBoard, Piece
from estimating.design.boards.problem import BoardSource, LayoutProblem
from estimating.design.boards.solving.deck_runs import DeckRuns
from estimating.design.boards.solving.sawing import Sawing
from estimating.design.boards.solving.stock import Cut, NewBoard, Offcut, Source, Strip, rest_of
from estimating.design.boards.steps import RIGHT_END, RUN_END, Step


class Choice(NamedTuple):
    """One step chosen by a solver, what it is cut from, and the capacity ripped for it if any."""

    zone: int
    row: int
    step: Step
    source: Source
    region_mm: int


class _Chosen(NamedTuple):
    choice: Choice
    cut: Cut


@dataclass(slots=True)
class _Region:
    """A length of board: one piece of full width, or a strip at the groove and one at the tongue."""

    takes_mm: int
    full: _Chosen | None = None
    groove: list[_Chosen] = field(default_factory=list)
    tongue: list[_Chosen] = field(default_factory=list)
    to_the_end: bool = False

    @property
    def span_mm(self) -> int:
        """How long the region may be cut when there is play: no longer than what lies in it needs."""
        if self.full:
            return _span(self.full)
        return max(
            (sum(_span(each) for each in lane) for lane in (self.groove, self.tongue) if len(lane) == 1),
            default=0,
        )


@dataclass(slots=True)
class _Board:
    source: BoardSource
    from_left: list[_Region] = field(default_factory=list)
    from_right: list[_Region] = field(default_factory=list)


class _Placed(NamedTuple):
    choice: Choice
    board: int
    board_x: int
    board_y: int
    length_mm: int


def allotted(deck: DeckRuns, sawing: Sawing, choices: Sequence[Choice]) -> tuple[Layout, ...]:
    """Turn chosen steps into placed pieces of numbered boards.

    Args:
        deck: The deck made ready. Record. [mm]
        sawing: The sawing that the choices were made with. Record. [mm]
        choices: The chosen steps in the order they were taken. Sequence. [mm]

    Returns:
        A layout for each zone; pieces numbered row by row in each, boards by their first piece in the deck.
        Tuple of records. [mm]

    Source:
        Geometry.
    """
    problem = deck.first_problem
    boards = _Cutting(deck.task.sources, sawing).cut(choices)
    placed = [at for number, board in enumerate(boards) for at in _places(problem, number, board)]
    placed.sort(key=lambda at: (at.choice.zone, at.choice.row, at.choice.step.x0))
    numbers: dict[int, int] = {}
    for at in placed:
        numbers.setdefault(at.board, len(numbers) + 1)
    first_zone = {at.board: at.choice.zone for at in reversed(placed)}
    opened = {
        at: OpenedBoard(
            number,
            boards[at].source.code,
            boards[at].source.cover_length_mm,
            boards[at].source.at_hand is None,
        )
        for at, number in numbers.items()
    }
    return tuple(
        _layout(
            zone,
            [at for at in placed if at.choice.zone == number],
            opened,
            [board for board, first in first_zone.items() if first == number],
        )
        for number, zone in enumerate(deck.task.zones)
    )


def _layout(
    zone: LayoutProblem, here: Sequence[_Placed], boards: dict[int, OpenedBoard], first_cut: Sequence[int]
) -> Layout:
    pieces = tuple(_piece(number, at, boards[at.board].number) for number, at in enumerate(here, start=1))
    joints = tuple(
        Joint(at.choice.row, at.choice.step.x1, joist_under(zone, at.choice.step.joist))
        for at in here
        if at.choice.step.joist != RUN_END
    )
    opened = tuple(boards[board] for board in dict.fromkeys(at.board for at in here))
    bought = sum(boards[board].bought for board in first_cut)
    return Layout(zone.reference, bought, pieces, joints, opened)


def _piece(number: int, at: _Placed, board: int) -> Piece:
    step = at.choice.step
    x1 = step.x0 + at.length_mm
    return Piece(
        number, at.choice.row, step.x0, x1, step.blank.y0, step.blank.y1, board, at.board_x, at.board_y
    )


class _Cutting:
    """Cuts real boards as the choices say."""

    def __init__(self, sources: Sequence[BoardSource], sawing: Sawing) -> None:
        self._sources, self._sawing = sources, sawing
        self._boards: list[_Board] = []
        self._offcuts: dict[Offcut, list[_Board]] = {}
        self._strips: dict[Strip, list[list[_Chosen]]] = {}

    def cut(self, choices: Sequence[Choice]) -> list[_Board]:
        """Cut every choice in turn; boards nothing is cut from are left out."""
        for source in self._sources:
            for _ in range(source.at_hand or 0):
                self._open(source)
        for choice in choices:
            chosen = _Chosen(choice, self._sawing.cut_for(choice.step))
            if isinstance(choice.source, Strip):
                self._from_strip(choice.source, chosen)
            else:
                self._from_board(choice.source, chosen)
        return [board for board in self._boards if board.from_left or board.from_right]

    def _open(self, source: BoardSource) -> Offcut:
        board, whole = _Board(source), self._sawing.opened(source)
        self._boards.append(board)
        self._offcuts.setdefault(whole, []).append(board)
        return whole

    def _from_strip(self, strip: Strip, chosen: _Chosen) -> None:
        lane = self._strips[strip].pop()
        lane.append(chosen)
        rest = strip._replace(capacity_mm=strip.capacity_mm - chosen.cut.takes_mm)
        self._strips.setdefault(rest, []).append(lane)

    def _from_board(self, source: Offcut | NewBoard, chosen: _Chosen) -> None:
        offcut = self._open(self._sources[source.source]) if isinstance(source, NewBoard) else source
        board, cut, ripped = self._offcuts[offcut].pop(), chosen.cut, chosen.choice.region_mm
        region = _Region(ripped or cut.takes_mm, to_the_end=ripped == offcut.capacity_mm)
        (board.from_right if cut.factory_ends == RIGHT_END else board.from_left).append(region)
        self._offcuts.setdefault(rest_of(offcut, cut, ripped), []).append(board)
        if not ripped:
            region.full = chosen
            return
        own, beside = self._sawing.strips_of(cut, ripped)
        lanes = (region.groove, region.tongue) if own.keeps == "groove" else (region.tongue, region.groove)
        lanes[0].append(chosen)
        self._strips.setdefault(own._replace(capacity_mm=ripped - cut.takes_mm), []).append(lanes[0])
        self._strips.setdefault(beside, []).append(lanes[1])


def _places(problem: LayoutProblem, number: int, board: _Board) -> list[_Placed]:
    kerf, board_length = problem.rules.kerf_mm, board.source.cover_length_mm
    regions = board.from_left + board.from_right
    lengths = _lengths([(each.takes_mm, each.span_mm) for each in regions], board_length, kerf)
    placed: list[_Placed] = []
    left, right = 0, board_length
    from_right = sum(length + kerf for length in lengths[len(board.from_left) :])
    for region, length in zip(board.from_left, lengths, strict=False):
        long = board_length - from_right - left if region.to_the_end else length
        placed += _places_in_region(problem, number, region, (left, long))
        left += length + kerf
    for region, length in zip(board.from_right, lengths[len(board.from_left) :], strict=True):
        placed += _places_in_region(problem, number, region, (right - length, length))
        right -= length + kerf
    return placed


def _places_in_region(
    problem: LayoutProblem, number: int, region: _Region, span: tuple[int, int]
) -> list[_Placed]:
    x, length = span
    if region.full:
        kind = region.full.choice.step.blank.kind
        return [_Placed(region.full.choice, number, x, _y(problem, region.full, kind == "tongue"), length)]
    placed: list[_Placed] = []
    for lane, at_tongue in ((region.groove, False), (region.tongue, True)):
        at = x
        taken = [(each.cut.takes_mm, _span(each)) for each in lane]
        for each, cut_to in zip(lane, _lengths(taken, length, problem.rules.kerf_mm), strict=True):
            placed.append(_Placed(each.choice, number, at, _y(problem, each, at_tongue), cut_to))
            at += cut_to + problem.rules.kerf_mm
    return placed


def _y(problem: LayoutProblem, chosen: _Chosen, at_tongue: bool) -> int:
    """Where the groove-side edge of a piece lies in its board."""
    blank = chosen.choice.step.blank
    return problem.product.cover_width_mm - (blank.y1 - blank.y0) if at_tongue else 0


def _span(chosen: _Chosen) -> int:
    return chosen.choice.step.x1 - chosen.choice.step.x0


def _lengths(pieces: Sequence[tuple[int, int]], available_mm: int, kerf_mm: int) -> list[int]:
    """Cut each piece to its full span while the length allows, else shorter by part of the gap."""
    play = available_mm + kerf_mm - sum(takes for takes, _ in pieces)
    lengths = []
    for takes, span in pieces:
        least = takes - kerf_mm
        more = max(0, min(play, span - least))
        play -= more
        lengths.append(least + more)
    return lengths
