"""A bound where end joints may float: prices are proved over every millimetre, whoever found them."""

from __future__ import annotations

from estimating.design.boards.checking.bound_checker import certified_cost
from estimating.design.boards.layout import Bound, Certificate
from estimating.design.boards.problem import DeckTask
from estimating.design.boards.solving.certify import costs_of

SHARES = (11, 60)  # a few shares go well with few lengths, many with none in particular


def bound_where_joints_float(task: DeckTask, certificate: Certificate) -> Bound:
    """Prove the best bound for joints that float, from prices found on some places and from prices by length.

    Programmes price pieces between the places that are worth a look; a joint may float anywhere, and pieces
    they did not meet have no price. A piece by its share of a board's length is worth something wherever it
    lies. The checker adds up each, and the best is kept.

    Args:
        task: The zones and the boards to cut from. Record. [mm]
        certificate: Prices found on the places that were looked at. Record. [-]

    Returns:
        The bound that most is proved by. Record. [-]

    Source:
        Dual feasible functions: Clautiaux, Alves, Valério de Carvalho (2010); from memory.
    """
    tried = [certificate, *(_by_length(task, shares) for shares in SHARES)]
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
