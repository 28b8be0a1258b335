"""The cheapest mix of packs: a large box and two small ones may cost less than two large ones."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from decimal import Decimal
from typing import TypeVar

from estimating.price_book import Product

AnyKind = TypeVar("AnyKind", bound=Product)


def cheapest_mix(products: Sequence[AnyKind], needed: int) -> tuple[tuple[AnyKind, int], ...]:
    """Share out a count among packs so that the whole packs cost least, all from one supplier.

    Products must serve alike and differ only in how they are sold. A second supplier would bring a second
    delivery, which costs more than a mix can save.

    Args:
        products: What would serve, at least one. Sequence. [-]
        needed: How many are needed. Scalar. [count]

    Returns:
        Each product with its share, largest packs first; only the last pack is part full. Tuple. [count]

    Source:
        Common practice, no source; arithmetic (every smaller count is solved first).
    """
    suppliers = dict.fromkeys(product.supplier for product in products)
    mixes = [_mix([each for each in products if each.supplier == supplier], needed) for supplier in suppliers]
    return _shares(min(mixes, key=_cost), needed)


def _mix(products: Sequence[AnyKind], needed: int) -> list[AnyKind]:
    """The packs to buy: for each count the last pack of its cheapest mix is kept, and followed back."""
    costs = [Decimal(0)]
    last_pack: list[AnyKind] = []
    for count in range(1, needed + 1):
        cost, place = min(
            (costs[max(0, count - each.pack_size)] + each.pack_cost, place)
            for place, each in enumerate(products)
        )
        costs.append(cost)
        last_pack.append(products[place])
    packs: list[AnyKind] = []
    while needed > 0:
        packs.append(last_pack[needed - 1])
        needed -= packs[-1].pack_size
    return packs


def _cost(packs: Sequence[Product]) -> Decimal:
    return sum((pack.pack_cost for pack in packs), Decimal(0))


def _shares(packs: Sequence[AnyKind], needed: int) -> tuple[tuple[AnyKind, int], ...]:
    numbers = Counter(pack.code for pack in packs)
    by_code = {pack.code: pack for pack in packs}
    shares = []
    for pack in sorted(by_code.values(), key=lambda each: -each.pack_size):
        share = min(needed, numbers[pack.code] * pack.pack_size)
        shares.append((pack, share))
        needed -= share
    return tuple(shares)
