"""Take-off lines of the deck, shared out among packs of different sizes where that costs less."""

from __future__ import annotations

from collections.abc import Sequence

from estimating.choices import Part
from estimating.price_book import Product, Role
from estimating.quantities.pack_mix import cheapest_mix
from estimating.quantities.quantities import TakeOffLine
from estimating.working import COMMON_PRACTICE, Figure, Working, from_price_book, worked_out


def deck_line(role: Role, product: Product, needed: Figure[int]) -> TakeOffLine:
    """Give one line of the deck.

    Args:
        role: What the product does. Choice. [-]
        product: The product. Record. [-]
        needed: How many are needed. Scalar. [count]

    Returns:
        The line. Record. [count]

    Source:
        Own definition.
    """
    return TakeOffLine(
        part=Part.DECK, role=role, product_code=product.code, description=product.description, needed=needed
    )


def mixed_packs(role: Role, products: Sequence[Product], needed: Figure[int]) -> list[TakeOffLine]:
    """Give one line for each kind of pack in the cheapest mix that holds what is needed.

    Args:
        role: What the products do. Choice. [-]
        products: Products that differ only in how they are sold. Sequence. [-]
        needed: How many are needed. Scalar. [count]

    Returns:
        The lines, none when nothing is needed. List of records. [count]

    Source:
        Common practice, no source.
    """
    shares = cheapest_mix(products, needed.value)
    if len(shares) == 1:
        return [deck_line(role, shares[0][0], needed)]
    costs = [from_price_book(f"pack of {pack.pack_size}", pack.pack_cost, "GBP") for pack, _ in shares]
    formula = f"share of the {needed.name} in the mix of whole packs that costs least"
    working = Working(formula, (worked_out(needed), *costs), COMMON_PRACTICE)
    return [
        deck_line(role, pack, Figure(f"{needed.name} in packs of {pack.pack_size}", share, "", working))
        for pack, share in shares
    ]
