"""Add up a certificate again, in whole numbers, and say what it proves: boards, or pence, at the least.

The certificate gives pieces a price by what they take from a board. First, no board may be worth more than
it costs: the worth is that of the best cutting, edges told apart. Then every run is worth at least its
cheapest laying. A joist has a price too, paid by each joint on it; since adjacent rows cannot both have a
joint there, that is taken back for as many rows as could.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from estimating.design.boards.checking.cheapest_runs import PriceList, rising_prices, worth_of_runs
from estimating.design.boards.layout import Certificate
from estimating.design.boards.problem import DeckTask, LayoutProblem


def certified_bound(problem: LayoutProblem, certificate: Certificate) -> int:
    """Say how many boards a certificate proves to be needed for one zone by itself.

    Args:
        problem: The layout problem. Record. [mm]
        certificate: The prices. Record. [-]

    Returns:
        Boards that no layout of it can do without; 0 where the certificate proves nothing. Scalar. [-]

    Source:
        Duality of linear programmes: any prices within what a board is worth give a bound.
    """
    return certified_cost(DeckTask.of(problem), certificate)


def certified_cost(task: DeckTask, certificate: Certificate) -> int:
    """Say what a certificate proves the boards bought for all zones together to cost.

    Boards at hand cost nothing but are worth something, so all of them are taken to be used at their worth.

    Args:
        task: The zones and the boards to cut from. Record. [mm]
        certificate: The prices. Record. [-]

    Returns:
        Boards where one length is on sale, else pence, that no layout can do without; 0 where the
        certificate proves nothing. Scalar. [-]

    Source:
        As certified_bound.
    """
    prices = (certificate.full, certificate.groove, certificate.tongue)
    priced = [(capacity, price) for prices_of in prices for capacity, price in prices_of]
    if certificate.unit <= 0 or any(capacity < 1 or price < 0 for capacity, price in priced):
        return 0
    if any(price < 0 for _, _, price in certificate.joists):
        return 0
    longest = max(source.cover_length_mm for source in task.sources)
    kerf = min(zone.rules.kerf_mm for zone in task.zones)
    worth = _worths(prices, longest + kerf)
    total = 0
    one_length = sum(source.at_hand is None for source in task.sources) == 1
    for source in task.sources:
        board = worth.of(source.cover_length_mm + kerf)
        if source.at_hand is not None:
            total -= board * source.at_hand
        elif board > certificate.unit * (1 if one_length else source.price_pence):
            return 0
    total += worth_of_runs(task.zones, certificate, longest + kerf)
    return max(0, -(-total // certificate.unit))


class _Worths(NamedTuple):
    """The greatest worth of the full, groove and tongue pieces in each length of board."""

    full: Sequence[int]
    groove: Sequence[int]
    tongue: Sequence[int]

    def of(self, capacity: int) -> int:
        """The greatest worth of a board: full pieces along part of it, both kinds of strip along the rest."""
        return max(
            full + self.groove[rest] + self.tongue[rest]
            for full, rest in zip(self.full[: capacity + 1], range(capacity, -1, -1), strict=True)
        )


def _worths(prices: Sequence[PriceList], capacity: int) -> _Worths:
    full, groove, tongue = (_best_cuttings(each, capacity) for each in prices)
    return _Worths(full, groove, tongue)


def _best_cuttings(prices: PriceList, capacity: int) -> list[int]:
    """What the best pieces cut from every length up to a capacity are worth, by dynamic programming."""
    rising = [(least, price) for least, price in rising_prices(prices) if least <= capacity]
    best = [0] * (capacity + 1)
    if not rising:
        return best
    sizes = [least for least, _ in rising] + [capacity + 1]
    for longest in range(len(rising)):
        fitting = rising[: longest + 1]
        for length in range(sizes[longest], sizes[longest + 1]):
            best[length] = max([best[length - least] + price for least, price in fitting])
    return best
