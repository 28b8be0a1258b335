from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from estimating.choices import Part
from estimating.estimate import Estimate
from jobs.orders.packs_to_buy import by_supplier, packs_to_buy
from tests.jobs.offers import worked_loft


def needing(worked: Estimate, code: str, amounts: dict[Part, int]) -> Estimate:
    """Return the estimate with only one product to buy, so much of it for each part."""
    book = worked.price_book
    product = book.product(code)
    bought = next(each for each in worked.quantities.purchases if each.role == product.role)
    size = product.pack_size
    purchases = tuple(
        replace(
            bought,
            product_code=code,
            pack_cost=product.pack_cost,
            part=part,
            needed=replace(bought.needed, value=amount),
            packs=replace(bought.packs, value=-(-amount // size)),
            weight_kg=Decimal(-(-amount // size)) * 2,
        )
        for part, amount in amounts.items()
    )
    return replace(worked, quantities=replace(worked.quantities, purchases=purchases))


@pytest.mark.parametrize(
    ("deck", "trim", "boxes"), [(5, 6, 1), (6, 6, 1), (7, 6, 2), (12, 12, 2), (60, 1, 6), (1, 1, 1)]
)
def test_two_parts_that_fit_one_box_share_it(deck, trim, boxes):
    worked = needing(worked_loft(), "P225-12", {Part.DECK: deck, Part.EDGE_TRIM: trim})
    (packs,) = packs_to_buy(worked)
    assert (packs.needed, packs.pack_size, packs.packs) == (deck + trim, 12, boxes)
    assert packs.cost == boxes * packs.pack_cost
    assert packs.weight_kg == boxes * 2


def test_an_option_that_was_left_is_not_bought():
    worked = worked_loft()
    offered = {each.product_code for each in worked.quantities.purchases if each.part is Part.LADDER}
    assert offered
    assert not offered & {each.code for each in packs_to_buy(worked)}
    taken = replace(worked, choices=replace(worked.choices, taken_parts=frozenset({Part.LADDER})))
    assert offered <= {each.code for each in packs_to_buy(taken)}


def test_each_product_stands_once_under_its_supplier():
    packs = packs_to_buy(worked_loft())
    codes = [each.code for each in packs]
    assert len(codes) == len(set(codes))
    gathered = by_supplier(packs)
    assert sorted(each.code for group in gathered.values() for each in group) == sorted(codes)
    assert all(each.supplier == supplier for supplier, group in gathered.items() for each in group)
