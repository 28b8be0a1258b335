"""What is claimed: bounds that the checker, which knows nothing of how they were found, adds up again."""

from __future__ import annotations

from estimating.design.boards.checking.bound_checker import certified_cost
from estimating.design.boards.layout import Bound, Certificate
from estimating.design.boards.problem import DeckTask
from estimating.design.boards.solving.certify import costs_of

SHARES = (11, 60)  # a few shares go well with few lengths, many with none in particular


def added_up(task: DeckTask, bound: Bound) -> Bound:
    """Claim no more than the checker finds that a certificate proves.

    The two may differ by a hair, where an edge lies within a saw's width of a joist. A search that looked for
    every cheaper layout began where the certificate ends, so then it is not claimed either.

    Args:
        task: The zones and the boards to cut from. Record. [mm]
        bound: What the programmes say. Record. [-]

    Returns:
        What may be claimed. Record. [-]

    Source:
        Own rule.
    """
    proved = certified_cost(task, bound.certificate)
    if proved >= bound.certified:
        return bound
    return Bound(proved, proved, bound.certificate)


def best_added_up(task: DeckTask, *certificates: Certificate) -> Bound:
    """Prove the best bound from prices that were found and from prices by length.

    Where joints float, programmes price pieces between the places that are worth a look; a joint may lie
    anywhere, and pieces they did not meet have no price. Where there is no solver there are no prices at all.
    A piece by its share of a board's length is worth something wherever it lies.

    Args:
        task: The zones and the boards to cut from. Record. [mm]
        certificates: Prices that were found. Records. [-]

    Returns:
        The bound that most is proved by. Record. [-]

    Source:
        Dual feasible functions: Clautiaux, Alves, Valério de Carvalho (2010); from memory.
    """
    tried = [*certificates, *(_by_length(task, shares) for shares in SHARES)]
    proved, _, best = max((certified_cost(task, each), -place, each) for place, each in enumerate(tried))
    return Bound(proved, proved, best)


def _by_length(task: DeckTask, shares: int) -> Certificate:
    """A price that rises with each share of the longest board; a strip is half a full piece.

    A board's pieces have fewer shares than itself, since each takes a little more than it is priced by.
    """
    kerf = min(zone.rules.kerf_mm for zone in task.zones)
    capacity = max(source.cover_length_mm for source in task.sources) + kerf
    steps = [(share * capacity // (shares + 1) + 1, share) for share in range(1, shares + 1)]
    # what one unit of cost may be worth: the most that any board on sale is worth for what it costs
    unit = max(
        -(-2 * min(shares, (source.cover_length_mm + kerf) * (shares + 1) // capacity) // cost)
        for source, cost in zip(task.sources, costs_of(task.sources), strict=True)
        if source.at_hand is None
    )
    strips = tuple(steps)
    return Certificate(unit, tuple((takes, 2 * price) for takes, price in steps), strips, strips, ())
