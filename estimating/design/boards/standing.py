"""Where pedestals stand once the boards are laid: by the product's rule, and where an end would hang loose.

The rule puts middles at the very ends of the deck, which is how pedestals are counted. Here each base is
moved in until it stands under the deck, clear of its neighbours, so that none has to stand in a chimney.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil, floor
from typing import NamedTuple

from estimating.design.boards.bearers import edge_bearers
from estimating.design.boards.layout import Layout, Piece
from estimating.design.boards.pedestal_grid import joist_stretches
from estimating.design.boards.problem import LayoutProblem
from estimating.plane import Polygon, bounds

BY_RULE = ""
AT_THE_HATCH = "at the hatch"
AT_AN_EDGE_BEARER = "at an edge bearer"
UNDER_A_CUT_END = "under a cut end"


class Standing(NamedTuple):
    """A pedestal's middle, and why it stands there when the product's rule alone would not put it there."""

    x: int
    y: int
    why: str


class _Wish(NamedTuple):
    """A place on a joist that wants a pedestal: the best place, and the part of the joist that would do."""

    x: int
    y: int
    low: int
    high: int
    why: str


def stand_pedestals(
    problem: LayoutProblem, layout: Layout | None, base_mm: int, hatch: Polygon | None = None
) -> tuple[Standing, ...]:
    """Stand every pedestal of a zone, so that no two bases meet and every base is under the deck.

    Extra ones are added only where none stands near enough: on the joists beside the hatch level with its
    trimmers, where people step onto the deck; on the joist that a board's end levers on at an edge bearer, at
    both ends of the bearer; and under a cut end that would rest on none, which could not be screwed down. A
    stretch of deck shorter than one base has a single pedestal in its middle.

    Args:
        problem: The layout problem with its pedestal rule. Record. [mm]
        layout: Its layout, None where there is none. Record. [mm]
        base_mm: The length of a pedestal's base along the joist. Scalar. [mm]
        hatch: The hatch in the zone's frame, wherever it lies. Polygon. [mm]

    Returns:
        The pedestals, joist by joist and upward along each. Tuple of records. [mm]

    Source:
        Common practice, no source.
    """
    room = base_mm + base_mm % 2
    along = [_OnStretch(problem, each, room) for each in _stretches(problem, room)]
    for wish in (*_at_the_hatch(problem, hatch, room), *_at_bearers(problem, layout)):
        for stretch in along:
            stretch.add_near(wish)
    for wish in _under_cut_ends(problem, layout):
        for stretch in along:
            stretch.add_within(wish)
    return tuple(standing for stretch in along for standing in stretch.standing)


class _Reach(NamedTuple):
    x: int
    low: int
    high: int
    ys: tuple[int, ...]


def _stretches(problem: LayoutProblem, room: int) -> Iterator[_Reach]:
    for each in joist_stretches(problem, least_apart_mm=room):
        yield _Reach(each.x, ceil(each.low), floor(each.high), each.ys)


class _OnStretch:
    """The pedestals on one stretch of joist under deck, while they are being placed."""

    def __init__(self, problem: LayoutProblem, reach: _Reach, room: int) -> None:
        self._x, self._low, self._high = reach.x, reach.low, reach.high
        self._room = room
        self._near = max(problem.pedestals.merge_mm, room)
        placed = bases_clear_of_each_other(reach.ys, reach.low, reach.high, room)
        self._why = dict.fromkeys(placed, BY_RULE)

    @property
    def standing(self) -> Iterator[Standing]:
        """The pedestals, upward."""
        return (Standing(self._x, y, self._why[y]) for y in sorted(self._why))

    def add_near(self, wish: _Wish) -> None:
        """Add a pedestal where one is wished for, unless one stands near enough to serve."""
        if wish.x == self._x and self._low <= wish.y <= self._high and self._holds_a_base:
            y = min(max(wish.y, self._low + self._room // 2), self._high - self._room // 2)
            if all(abs(y - other) > self._near for other in self._why):
                self._why[y] = wish.why

    def add_within(self, wish: _Wish) -> None:
        """Add a pedestal somewhere in a part of the joist, unless one stands in it or none finds room."""
        low, high = max(wish.low, self._low), min(wish.high, self._high)
        if wish.x != self._x or low >= high or any(low <= y <= high for y in self._why):
            return
        clear = [
            y
            for y in self._places_between(low, high, wish.y)
            if all(abs(y - other) >= self._room for other in self._why)
        ]
        if clear and self._holds_a_base:
            self._why[min(clear, key=lambda y: (abs(y - wish.y), y))] = wish.why

    @property
    def _holds_a_base(self) -> bool:
        return self._high - self._low >= self._room

    def _places_between(self, low: int, high: int, best: int) -> list[int]:
        """The best place and those just clear of each neighbour, of what keeps the base under the deck."""
        low, high = max(low, self._low + self._room // 2), min(high, self._high - self._room // 2)
        beside = [y + aside for y in self._why for aside in (-self._room, self._room)]
        return [y for y in (min(max(best, low), high), *beside) if low <= y <= high]


def bases_clear_of_each_other(ys: Sequence[int], low: int, high: int, base_mm: int) -> tuple[int, ...]:
    """Move pedestals along a stretch of joist until every base is under the deck and clear of the others.

    Where there is no room for all, those that stand closest between others go.

    Args:
        ys: Middles of the pedestals, rising. Sequence. [mm]
        low: Where the stretch starts. Scalar. [mm]
        high: Where it ends. Scalar. [mm]
        base_mm: The length of a base, an even number. Scalar. [mm]

    Returns:
        The middles, rising. Tuple. [mm]

    Source:
        Arithmetic.
    """
    kept = list(ys)
    while len(kept) > max(1, (high - low) // base_mm):
        gaps = [after - before for before, after in pairwise([low, *kept[1:-1], high])]
        inner = range(1, len(kept) - 1)
        kept.pop(min(inner, key=lambda place: gaps[place - 1] + gaps[place]) if inner else -1)
    if len(kept) == 1:
        return ((low + high) // 2,) if high - low < 2 * base_mm else tuple(kept)
    half = base_mm // 2
    for place, y in enumerate(kept):
        kept[place] = max(y, kept[place - 1] + base_mm if place else low + half)
    for place in reversed(range(len(kept))):
        kept[place] = min(kept[place], kept[place + 1] - base_mm if place + 1 < len(kept) else high - half)
    return tuple(kept)


def _at_the_hatch(problem: LayoutProblem, hatch: Polygon | None, room: int) -> Iterator[_Wish]:
    """On the joists at either side, level with the trimmers that frame the hatch."""
    outlines = [each.outline for each in problem.keep_outs if each.kind == "hatch"]
    for outline in outlines or ([hatch] if hatch else []):
        left, low, right, high = bounds(outline)
        beside = [
            max((line for line in problem.joist_lines if line <= left), default=None),
            min((line for line in problem.joist_lines if line >= right), default=None),
        ]
        for line in beside:
            if line is not None and max(left - line, line - right) <= _widest_bay_mm(problem):
                for y in (low - room // 2, high + room // 2):
                    yield _Wish(line, y, y, y, AT_THE_HATCH)


def _widest_bay_mm(problem: LayoutProblem) -> int:
    return max((after - before for before, after in pairwise(problem.joist_lines)), default=0)


def _at_bearers(problem: LayoutProblem, layout: Layout | None) -> Iterator[_Wish]:
    for bearer in edge_bearers(problem, layout) if layout else ():
        if bearer.levers_on is not None:
            for y in (bearer.y0, bearer.y1):
                yield _Wish(bearer.levers_on, y, y, y, AT_AN_EDGE_BEARER)


def _under_cut_ends(problem: LayoutProblem, layout: Layout | None) -> Iterator[_Wish]:
    if layout is None:
        return
    reach = problem.rules.gap_tolerance_mm + problem.rules.joint_tolerance_mm
    lengths = {board.number: board.length_mm for board in layout.opened if board.bought}
    for piece in layout.pieces:
        for end in _cut_ends(piece, lengths.get(piece.board)):
            for line in problem.joist_lines:
                if abs(line - end) <= reach:
                    yield _Wish(line, (piece.y0 + piece.y1) // 2, piece.y0, piece.y1, UNDER_A_CUT_END)


def _cut_ends(piece: Piece, board_length_mm: int | None) -> Iterator[int]:
    """The ends a saw made; what was in the firm's store may have been cut at both."""
    if piece.board_x != 0 or board_length_mm is None:
        yield piece.x0
    if piece.board_x + piece.length_mm != board_length_mm:
        yield piece.x1
