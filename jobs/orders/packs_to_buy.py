"""Whole packs for a whole job: the same product asked for by several parts is packed once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from estimating.estimate import Estimate
from estimating.price_book import PriceBook, Role
from estimating.quantities.packs import packs_needed
from estimating.quantities.purchases import pack_content
from estimating.quantities.quantities import Purchase
from estimating.working import ARITHMETIC, Figure, Given, Origin, Working


@dataclass(frozen=True, slots=True, kw_only=True)
class PacksToBuy:
    """What to buy of one product; `weight_kg` is of all the packs."""

    code: str
    description: str
    supplier: str
    supplier_code: str
    role: Role
    needed: Decimal
    unit: str
    packs: int
    pack_size: int
    pack_cost: Decimal
    weight_kg: Decimal

    @property
    def cost(self) -> Decimal:
        return self.packs * self.pack_cost


def packs_to_buy(worked: Estimate) -> tuple[PacksToBuy, ...]:
    """Return what the counted parts need, product by product.

    The price packs each part by itself, so that an option left out takes all of its cost with it. The order
    packs what is needed in all: two parts that need half a box each share one.
    """
    counted = worked.choices.counted_parts
    by_code: dict[str, list[Purchase]] = {}
    for purchase in worked.quantities.purchases:
        if purchase.part in counted and purchase.packs.value:
            by_code.setdefault(purchase.product_code, []).append(purchase)
    found = [_packed(purchases, worked.price_book) for purchases in by_code.values()]
    return tuple(sorted(found, key=lambda each: (list(Role).index(each.role), each.code)))


def by_supplier(packs: Iterable[PacksToBuy]) -> dict[str, list[PacksToBuy]]:
    """Return the packs under the name of who sells them."""
    found: dict[str, list[PacksToBuy]] = {}
    for each in packs:
        found.setdefault(each.supplier, []).append(each)
    return found


def weight_to_carry(packs: Iterable[PacksToBuy]) -> Figure[Decimal]:
    """Return the weight of all packs as a figure that can be opened."""
    packs = tuple(packs)
    inputs = tuple(Given(each.description, each.weight_kg, "kg", Origin.WORKED_OUT) for each in packs)
    total = sum((each.weight_kg for each in packs), Decimal(0))
    return Figure("weight to carry up", total, "kg", Working("sum of all packs", inputs, ARITHMETIC))


def _packed(purchases: Sequence[Purchase], book: PriceBook) -> PacksToBuy:
    first = purchases[0]
    product = book.product(first.product_code)
    if product is None:
        raise LookupError(f"{first.product_code} is not in the price book it was bought from")
    needed = sum((Decimal(each.needed.value) for each in purchases), Decimal(0))
    packs = packs_needed(needed, pack_content(product, first.needed.unit), 0, unit=first.needed.unit).value
    return PacksToBuy(
        code=first.product_code,
        description=first.description,
        supplier=first.supplier,
        supplier_code=first.supplier_code,
        role=first.role,
        needed=needed,
        unit=first.needed.unit,
        packs=packs,
        pack_size=product.pack_size,
        pack_cost=first.pack_cost,
        weight_kg=first.weight_kg / first.packs.value * packs,
    )
