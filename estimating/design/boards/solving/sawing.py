"""Taking pieces from boards: where each can come from, and what that leaves and loses.

A piece comes from a strip, from an offcut or from a new board. A ripped piece that can share its board's
width is ripped from a region of board: one just as long as the piece, or all that is left of the board;
beside it and beyond it strips remain that keep the groove or the tongue.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Iterable, Iterator

from estimating.design.boards.problem import BoardSource
from estimating.design.boards.rows import Kind
from estimating.design.boards.solving.certify import costs_of
from estimating.design.boards.solving.deck_runs import DeckRuns
from estimating.design.boards.solving.stock import (
    Cut,
    NewBoard,
    Offcut,
    Source,
    Stock,
    Strip,
    Taken,
    rest_of,
)
from estimating.design.boards.solving.worth import BoardWorth
from estimating.design.boards.steps import BOTH_ENDS, NO_END, Step


class Sawing:
    """Knows every way to take a piece and judges them, the same way every time.

    Stocks and cuts go by number, because a search asks about the same few again and again.
    """

    def __init__(
        self, deck: DeckRuns, worth: BoardWorth, unit: int, *, doubt: int = 0, only: int | None = None
    ) -> None:
        problem = deck.first_problem
        self._worth, self._unit, self._doubt = worth, unit, doubt
        self._width, self._kerf = problem.product.cover_width_mm, problem.rules.kerf_mm
        self._gap = problem.rules.gap_tolerance_mm  # as much longer a piece may be cut, so nothing is left
        self._new_ends = BOTH_ENDS if problem.rules.end_joint != "butt" else NO_END
        self._sources = deck.task.sources
        self._new_boards = [
            (NewBoard(place), self.opened(source), cost)
            for place, (source, cost) in enumerate(zip(self._sources, costs_of(self._sources), strict=True))
            if source.at_hand is None and only in (None, place)
        ]
        steps = tuple(deck.steps())
        self._shared = _shareable(steps, self._width - self._kerf)
        self._least = _least_takes(self.cut_for(step) for step in steps)
        self._cuts: dict[Cut, int] = {}
        self._cut_by_number: list[Cut] = []
        self._stocks: dict[Stock, int] = {}
        self._by_number: list[Stock] = []
        self._taken: dict[tuple[int, int], tuple[Taken, ...]] = {}
        self.worth: list[int] = []  # by stock number
        self.doubts: list[int] = []  # what of it may never be realised
        self.start = self._numbered(
            sorted(each for source in self._sources for each in self._at_hand(source)), []
        )

    def _at_hand(self, source: BoardSource) -> list[Offcut]:
        return [self.opened(source)] * (source.at_hand or 0)

    def opened(self, source: BoardSource) -> Offcut:
        """A whole board of a source."""
        return Offcut(source.cover_length_mm + self._kerf, NO_END if source.cut else self._new_ends)

    def at_full_width(self, source: Offcut | NewBoard) -> Offcut:
        """An offcut, or a new board as one."""
        return self.opened(self._sources[source.source]) if isinstance(source, NewBoard) else source

    def cut_for(self, step: Step) -> Cut:
        """What a step takes from a board."""
        kind, width = step.blank.kind, step.blank.y1 - step.blank.y0
        if (kind, width) in self._shared and not step.factory_ends:
            return Cut(step.least_mm, NO_END, kind, width)
        return Cut(step.least_mm, step.factory_ends, "full", self._width)

    def cut_number(self, step: Step) -> int:
        """The number of what a step takes."""
        cut = self.cut_for(step)
        number = self._cuts.setdefault(cut, len(self._cuts))
        if number == len(self._cut_by_number):
            self._cut_by_number.append(cut)
        return number

    def ways_to_take(self, stock: int, cut: int) -> tuple[Taken, ...]:
        """Every way to take a piece that leaves something different, least loss of worth first."""
        taken = self._taken.get((stock, cut))
        if taken is None:
            wanted, at_hand = self._cut_by_number[cut], self._by_number[stock]
            found = list(self._from_boards(stock, at_hand, wanted))
            if wanted.kind != "full":
                found += self._from_strips(stock, at_hand, wanted)
            # of equal losses a strip before an offcut, a small offcut before a large one
            taken = self._taken[stock, cut] = tuple(sorted(found, key=_preference))
        return taken

    def _numbered(self, offcuts: Iterable[Offcut], strips: Iterable[Strip]) -> int:
        stock = Stock(tuple(offcuts), tuple(strips))
        number = self._stocks.get(stock)
        if number is None:
            number = self._stocks[stock] = len(self._by_number)
            self._by_number.append(stock)
            board, groove, tongue = self._worth.board, self._worth.groove, self._worth.tongue
            worth = sum(board[offcut.capacity_mm] for offcut in stock.offcuts)
            for strip in stock.strips:
                worth += (groove if strip.keeps == "groove" else tongue)[strip.capacity_mm]
            self.worth.append(worth)
            self.doubts.append(worth // self._doubt if self._doubt else 0)
        return number

    def _lost(self, before: int, after: int) -> int:
        """The worth lost, in doubt counted lower than it is, or offcuts would be hoarded."""
        return (self.worth[before] - self.doubts[before]) - (self.worth[after] - self.doubts[after])

    def _from_strips(self, number: int, stock: Stock, cut: Cut) -> Iterator[Taken]:
        for strip in dict.fromkeys(stock.strips):
            if (
                cut.kind in (strip.keeps, "neither")
                and strip.width_mm >= cut.width_mm
                and strip.capacity_mm >= cut.takes_mm
            ):
                strips = list(stock.strips)
                strips.remove(strip)
                rest = strip._replace(capacity_mm=strip.capacity_mm - cut.takes_mm)
                self._keep_strip(strips, rest)
                left = self._numbered(stock.offcuts, strips)
                cuts = (rest.capacity_mm > self._gap) + (strip.width_mm > cut.width_mm)
                yield Taken(self._lost(number, left), cuts, 0, 0, strip, left)

    def _from_boards(self, number: int, stock: Stock, cut: Cut) -> Iterator[Taken]:
        for offcut in dict.fromkeys(stock.offcuts):
            if self._serves(offcut, cut):
                offcuts = list(stock.offcuts)
                offcuts.remove(offcut)
                yield from self._from_board(number, (offcuts, stock.strips), (offcut, offcut, 0), cut)
        for board, opened, cost in self._new_boards:
            if self._serves(opened, cut):
                yield from self._from_board(number, (stock.offcuts, stock.strips), (board, opened, cost), cut)

    def _serves(self, offcut: Offcut, cut: Cut) -> bool:
        return (
            offcut.capacity_mm >= cut.takes_mm and offcut.factory_ends & cut.factory_ends == cut.factory_ends
        )

    def _from_board(
        self,
        number: int,
        others: tuple[Iterable[Offcut], Iterable[Strip]],
        source: tuple[Source, Offcut, int],
        cut: Cut,
    ) -> Iterator[Taken]:
        named, board, cost = source
        regions = [0] if cut.kind == "full" else sorted({cut.takes_mm, board.capacity_mm})
        for region in regions:
            offcuts, strips = list(others[0]), list(others[1])
            rest = rest_of(board, cut, region)
            if rest.capacity_mm >= self._least[0]:
                insort(offcuts, rest)
            cuts = int(rest.capacity_mm > self._gap)
            if region:
                own, beside = self.strips_of(cut, region)
                self._keep_strip(strips, own._replace(capacity_mm=region - cut.takes_mm))
                self._keep_strip(strips, beside)
                cuts += 1 + (region > cut.takes_mm)
            left = self._numbered(offcuts, strips)
            loss = cost * self._unit + self._lost(number, left)
            yield Taken(loss, cuts, cost, region, named, left)

    def _keep_strip(self, strips: list[Strip], strip: Strip) -> None:
        if strip.capacity_mm >= self._least[1]:
            insort(strips, strip)

    def strips_of(self, cut: Cut, region_mm: int) -> tuple[Strip, Strip]:
        """The strip a ripped piece lies in and the one beside it.

        A piece that may keep either edge lies against the tongue, so that the strip beside keeps the groove.
        """
        own: Kind = "groove" if cut.kind == "groove" else "tongue"
        other: Kind = "tongue" if own == "groove" else "groove"
        beside = max(0, self._width - cut.width_mm - self._kerf)
        return Strip(own, cut.width_mm, region_mm), Strip(other, beside, region_mm)


def _preference(taken: Taken) -> tuple[int, int, int, int, int]:
    capacity = 0 if isinstance(taken.source, NewBoard) else taken.source.capacity_mm
    return taken.loss, not isinstance(taken.source, Strip), taken.cuts, capacity, taken.region_mm


def _shareable(steps: Iterable[Step], room_mm: int) -> set[tuple[Kind, int]]:
    ripped = {(s.blank.kind, s.blank.y1 - s.blank.y0) for s in steps if s.blank.kind != "full"}
    return {
        (kind, width)
        for kind, width in ripped
        for other, beside in ripped
        if (other != kind or kind == "neither") and width + beside <= room_mm
    }


def _least_takes(cuts: Iterable[Cut]) -> tuple[int, int]:
    """The least that any piece takes of a board, and of a strip; smaller remains are waste."""
    takes = sorted({(cut.kind != "full", cut.takes_mm) for cut in cuts})
    every = min((each for _, each in takes), default=1)
    return every, min((each for ripped, each in takes if ripped), default=1)
