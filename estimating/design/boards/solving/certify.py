"""From prices of pieces and joists to a bound that anyone can add up again, in whole numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from estimating.design.boards.layout import Certificate
from estimating.design.boards.problem import BoardSource
from estimating.design.boards.solving.deck_runs import DeckRuns
from estimating.design.boards.solving.run_classes import RunClass, rows_with_joints
from estimating.design.boards.solving.worth import BoardWorth, Price, board_worth

IMPOSSIBLE = 1_000_000_000


@dataclass(frozen=True, slots=True)
class Prices:
    """Whole-number prices: of pieces by what they take, and of joints by zone and joist."""

    full: tuple[Price, ...]
    groove: tuple[Price, ...]
    tongue: tuple[Price, ...]
    joists: Mapping[tuple[int, int], int]

    def worth(self, capacity: int) -> BoardWorth:
        """What lengths of board are worth at these prices."""
        return board_worth(self.full, self.groove, self.tongue, capacity)

    def by_kind(self, capacity: int) -> tuple[list[int], ...]:
        """Prices by what a piece takes: full, groove, tongue, neither."""
        priced = (self.full, self.groove, self.tongue, ())
        return tuple(_stepped(prices, capacity) for prices in priced)


@dataclass(frozen=True, slots=True)
class Guide:
    """Prices with what follows from them: the bound, and worths for a search to go by."""

    prices: Prices
    worth: BoardWorth
    unit: int
    total: int  # what the deck is worth at least, joists taken off, boards at hand not yet

    @property
    def bound(self) -> int:
        """The least cost of any layout."""
        return max(0, -(-self.total // self.unit))

    def certificate(self) -> Certificate:
        """The prices as a certificate."""
        joists = tuple((*key, price) for key, price in sorted(self.prices.joists.items()) if price)
        full, groove, tongue = (
            _needed(each) for each in (self.prices.full, self.prices.groove, self.prices.tongue)
        )
        return Certificate(self.unit, full, groove, tongue, joists)


def costs_of(sources: Sequence[BoardSource]) -> tuple[int, ...]:
    """Give what a board of each source costs: boards count one where one length is on sale, else pence.

    Args:
        sources: The boards. Sequence. [GBP]

    Returns:
        A cost for each source, 0 for boards at hand. Tuple. [-]

    Source:
        Own definition.
    """
    on_sale = [source for source in sources if source.at_hand is None]
    if len(on_sale) == 1:
        return tuple(int(source.at_hand is None) for source in sources)
    return tuple(max(1, source.price_pence) if source.at_hand is None else 0 for source in sources)


def guide_by(deck: DeckRuns, classes: Sequence[RunClass], prices: Prices) -> Guide:
    """Work out the bound that prices prove.

    No board is worth more than its cost in units; the deck is worth at least what its cheapest ways are
    worth, less what the joists' prices could at most have added; so boards must cost as many units.

    Args:
        deck: The deck made ready. Record. [mm]
        classes: Its runs by class. Sequence. [-]
        prices: The prices. Record. [-]

    Returns:
        The prices with worths, unit and total. Record. [-]

    Source:
        Linear programming duality; every number is whole.
    """
    problem = deck.first_problem
    kerf = problem.rules.kerf_mm
    capacity = problem.product.cover_length_mm + kerf
    worth = prices.worth(capacity)
    by_kind = prices.by_kind(capacity)
    total = 0
    for each in classes:
        least = each.least_worth(by_kind, dict(prices.joists))
        if least is None:
            return Guide(prices, worth, 1, IMPOSSIBLE)
        total += least * len(each.rows)
    caps = rows_with_joints(tuple(classes))
    total -= sum(price * caps.get(key, 0) for key, price in prices.joists.items())
    unit = 1
    for source, cost in zip(deck.task.sources, costs_of(deck.task.sources), strict=True):
        board = worth.board[min(capacity, source.cover_length_mm + kerf)]
        if source.at_hand is None:
            unit = max(unit, -(-board // cost))
        else:
            total -= board * source.at_hand
    return Guide(prices, worth, unit, total)


def _stepped(prices: Sequence[Price], capacity: int) -> list[int]:
    """What a piece is worth, by what it takes: as much as the dearest that takes no more."""
    by_takes = [0] * (capacity + 1)
    for takes, price in prices:
        if takes <= capacity:
            by_takes[takes] = max(by_takes[takes], price)
    for takes in range(1, capacity + 1):
        by_takes[takes] = max(by_takes[takes], by_takes[takes - 1])
    return by_takes


def _needed(prices: Sequence[Price]) -> tuple[Price, ...]:
    """The prices at which the steps rise; the others say nothing."""
    kept: list[Price] = []
    for takes, price in sorted(prices):
        if price > (kept[-1][1] if kept else 0):
            kept.append((takes, price))
    return tuple(kept)
