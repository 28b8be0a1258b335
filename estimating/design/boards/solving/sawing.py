"""Taking pieces from boards: which offcut to use next, and what each offcut is still worth.

Lengths are counted as capacity: a board has its length plus one kerf, a piece takes its least length plus
one kerf, so pieces fit one board exactly when what they take adds up to no more than the board has. A ripped
piece leaves a strip beside it that keeps the other long edge, when some other ripped piece could use it.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.rows import Kind
from estimating.design.boards.steps import BOTH_ENDS, LEFT_END, NO_END, Step


class Cut(NamedTuple):
    """What a piece takes: capacity, factory ends, and its width and kept edge if its strip can be shared."""

    takes_mm: int
    factory_ends: int
    kind: Kind
    width_mm: int


class Offcut(NamedTuple):
    """A full-width part of a board: capacity left, and which factory ends it still has."""

    capacity_mm: int
    factory_ends: int


class Strip(NamedTuple):
    """What lies beside a ripped piece: the long edge it keeps, its width and the capacity left."""

    keeps: Kind
    width_mm: int
    capacity_mm: int


class Stock(NamedTuple):
    """Offcuts and strips at hand, each sorted."""

    offcuts: tuple[Offcut, ...] = ()
    strips: tuple[Strip, ...] = ()


class Taken(NamedTuple):
    """One piece taken: from what (None: a new board), the number of the stock left, and the saw cuts."""

    source: Offcut | Strip | None
    stock: int
    cuts: int


NO_STOCK = 0


class Sawing:
    """Decides which offcut a piece comes from, the same way every time; remembers what it decided.

    Stocks and cuts go by number, because a search asks about the same few again and again.
    """

    def __init__(self, problem: LayoutProblem, steps: Iterable[Step]) -> None:
        product, rules = problem.product, problem.rules
        self._width, self._kerf = product.cover_width_mm, rules.kerf_mm
        self.capacity_mm = product.cover_length_mm + rules.kerf_mm
        self.new_board = Offcut(self.capacity_mm, BOTH_ENDS if rules.end_joint == "tg" else NO_END)
        steps = tuple(steps)
        ripped = {(s.blank.kind, s.blank.y1 - s.blank.y0) for s in steps if s.blank.kind != "full"}
        self._shared = {
            (kind, width)
            for kind, width in ripped
            for other, beside in ripped
            if (other != kind or kind == "neither") and width + rules.kerf_mm + beside <= self._width
        }
        self._worth = _worth_by_capacity({step.least_mm for step in steps}, self.capacity_mm)
        self._cuts: dict[Cut, int] = {}
        self._cut_by_number: list[Cut] = []
        self._stocks: dict[Stock, int] = {}
        self._by_number: list[Stock] = []
        self._taken: dict[tuple[int, int], Taken] = {}
        self.worth: list[int] = []  # by stock number: the length of pieces it could still give
        self._numbered(Stock())

    def cut_for(self, step: Step) -> Cut:
        """What a step takes from a board."""
        kind, width = step.blank.kind, step.blank.y1 - step.blank.y0
        if (kind, width) in self._shared:
            return Cut(step.least_mm, step.factory_ends, kind, width)
        return Cut(step.least_mm, step.factory_ends, "full", self._width)

    def cut_number(self, step: Step) -> int:
        """The number of what a step takes."""
        cut = self.cut_for(step)
        number = self._cuts.setdefault(cut, len(self._cuts))
        if number == len(self._cut_by_number):
            self._cut_by_number.append(cut)
        return number

    def take(self, stock: int, cut: int) -> Taken:
        """Take a piece where it costs the least usable length: a strip, an offcut, or a new board."""
        taken = self._taken.get((stock, cut))
        if taken is None:
            wanted = self._cut_by_number[cut]
            at_hand = self._by_number[stock]
            taken = self._from_strip(at_hand, wanted) or self._from_offcut(at_hand, wanted)
            self._taken[stock, cut] = taken
        return taken

    def _numbered(self, stock: Stock) -> int:
        number = self._stocks.get(stock)
        if number is None:
            number = self._stocks[stock] = len(self._by_number)
            self._by_number.append(stock)
            lengths = sum(self._worth[offcut.capacity_mm] for offcut in stock.offcuts)
            self.worth.append(lengths + sum(strip.capacity_mm for strip in stock.strips) // 4)
        return number

    def _from_strip(self, stock: Stock, cut: Cut) -> Taken | None:
        if cut.kind == "full" or cut.factory_ends:
            return None
        fitting = [
            strip
            for strip in stock.strips
            if (cut.kind in (strip.keeps, "neither"))
            and strip.width_mm >= cut.width_mm
            and strip.capacity_mm >= cut.takes_mm
        ]
        if not fitting:
            return None
        best = min(fitting, key=lambda strip: (strip.capacity_mm, strip.width_mm))
        rest = best._replace(capacity_mm=best.capacity_mm - cut.takes_mm)
        strips = list(stock.strips)
        strips.remove(best)
        if rest.capacity_mm > self._kerf:
            strips.append(rest)
        left = self._numbered(Stock(stock.offcuts, tuple(sorted(strips))))
        return Taken(best, left, (rest.capacity_mm > 0) + (best.width_mm > cut.width_mm))

    def _from_offcut(self, stock: Stock, cut: Cut) -> Taken:
        worth = self._worth
        best, least = None, self.capacity_mm - worth[self.capacity_mm - cut.takes_mm]
        for offcut in stock.offcuts:
            if (
                offcut.capacity_mm >= cut.takes_mm
                and offcut.factory_ends & cut.factory_ends == cut.factory_ends
            ):
                loss = worth[offcut.capacity_mm] - worth[offcut.capacity_mm - cut.takes_mm]
                if loss <= least and (best is None or loss < least):
                    best, least = offcut, loss
        offcuts = list(stock.offcuts)
        if best is not None:
            offcuts.remove(best)
        rest = rest_of(best or self.new_board, cut)
        if worth[rest.capacity_mm]:
            offcuts.append(rest)
        strips = stock.strips
        if cut.kind != "full":
            strips = tuple(sorted((*strips, self.strip_beside(cut))))
        left = self._numbered(Stock(tuple(sorted(offcuts)), strips))
        return Taken(best, left, (rest.capacity_mm > 0) + (cut.kind != "full"))

    def strip_beside(self, cut: Cut) -> Strip:
        """The strip a ripped piece leaves along its own length."""
        return Strip(
            "tongue" if cut.kind == "groove" else "groove",
            max(0, self._width - cut.width_mm - self._kerf),
            cut.takes_mm,
        )


def rest_of(offcut: Offcut, cut: Cut) -> Offcut:
    """Say what is left of an offcut when a piece is taken from it.

    Pieces are cut from the left unless they need the right factory end, so a piece that needs neither
    uses up the left one.

    Args:
        offcut: What it is taken from. Record. [mm]
        cut: What is taken. Record. [mm]

    Returns:
        The rest. Record. [mm]

    Source:
        Geometry.
    """
    used = cut.factory_ends or (LEFT_END if offcut.factory_ends & LEFT_END else NO_END)
    return Offcut(offcut.capacity_mm - cut.takes_mm, offcut.factory_ends & ~used)


def _worth_by_capacity(takes: set[int], capacity: int) -> list[int]:
    """For each capacity, what an offcut of it is worth: the most of it that pieces of this problem can use.

    A fifth is taken off, because an offcut kept may never be wanted; otherwise offcuts would be hoarded and
    new boards bought beside them.
    """
    fits, within = 1, (1 << (capacity + 1)) - 1
    for take in sorted(takes):
        before = 0
        while fits != before:
            before, fits = fits, (fits | fits << take) & within
    worth, last = [], 0
    for used in range(capacity + 1):
        if fits >> used & 1:
            last = used
        worth.append(last * 4 // 5)
    return worth
