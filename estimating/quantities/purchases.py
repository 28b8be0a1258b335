"""What must be bought: the take-off in whole packs, at what the firm pays for them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from itertools import groupby
from typing import TypeVar

from estimating.amounts import to_penny
from estimating.choices import Part
from estimating.price_book import InsulationRoll, Length, PriceBook, Product
from estimating.quantities.packs import packs_needed
from estimating.quantities.quantities import Purchase, TakeOffLine
from estimating.refusals import Refusal
from estimating.working import (
    ARITHMETIC,
    COMMON_PRACTICE,
    Figure,
    Given,
    Origin,
    Working,
    from_price_book,
    published,
    worked_out,
)

_ORDER = list(Part)
AnyKind = TypeVar("AnyKind", bound=Product)


def pack_content(product: Product, unit: str) -> Decimal:
    """Tell what one whole pack holds, in the unit the take-off counts in.

    Rolls are counted by the area they cover and trims by their length; everything else one by one.

    Args:
        product: The product. Record. [-]
        unit: The take-off's unit: m², m or empty for a count. Text. [-]

    Returns:
        The content of a pack. Scalar. [as unit]

    Raises:
        Refusal: The product is not sold in that unit.

    Source:
        Common practice, no source.
    """
    if unit == "":
        return Decimal(product.pack_size)
    if unit == "m²" and isinstance(product, InsulationRoll):
        return product.coverage_m2 * product.pack_size
    if unit == "m" and isinstance(product, Length):
        return Decimal(product.length_mm * product.pack_size) / 1000
    raise Refusal(f"products.{product.code}", f"cannot be counted in {unit}")


def least_cost(products: Sequence[AnyKind], needed: Decimal | int, unit: str = "") -> AnyKind:
    """Choose the product whose whole packs cost least for what is needed.

    A dearer pack may win when it leaves less over; the first in the book wins a tie.

    Args:
        products: What would serve, at least one. Sequence. [-]
        needed: How much is needed. Scalar. [as unit]
        unit: The unit: m², m or empty for a count. Text. [-]

    Returns:
        The product. Record. [-]

    Source:
        Common practice, no source; arithmetic.
    """

    def cost(product: AnyKind) -> Decimal:
        packs = packs_needed(needed, pack_content(product, unit), 0, unit=unit)
        return packs.value * product.pack_cost

    return min(products, key=cost)


def purchases(
    take_off: Iterable[TakeOffLine], price_book: PriceBook, *, vat_not_reclaimed_percent: Decimal = Decimal(0)
) -> tuple[Purchase, ...]:
    """Turn the take-off into whole packs of each product, part by part.

    Each part buys its own packs, so that leaving an option out leaves out all of its cost.

    Args:
        take_off: The lines counted from the design, waste included. Sequence. [-]
        price_book: The edition that holds their products. Record. [GBP]
        vat_not_reclaimed_percent: VAT that an unregistered firm pays and keeps paying. Scalar. [per cent]

    Returns:
        One purchase for each product of each part. Sequence. [-]

    Source:
        Common practice, no source: packs rounded up per item.
    """
    ordered = sorted(take_off, key=lambda line: (_ORDER.index(line.part), line.product_code))
    return tuple(
        _purchase(list(lines), price_book, vat_not_reclaimed_percent)
        for _, lines in groupby(ordered, key=lambda line: (line.part, line.product_code))
    )


def _purchase(lines: list[TakeOffLine], price_book: PriceBook, vat_percent: Decimal) -> Purchase:
    first = lines[0]
    product = price_book.product(first.product_code)
    if product is None:
        raise Refusal("products", f"must hold {first.product_code}")
    needed = first.needed if len(lines) == 1 else _sum_of(lines)
    packs = packs_needed(needed.value, pack_content(product, needed.unit), 0, unit=needed.unit)
    return Purchase(
        part=first.part,
        role=first.role,
        product_code=product.code,
        description=product.description,
        supplier=product.supplier,
        supplier_code=product.supplier_code,
        needed=needed,
        packs=packs,
        pack_cost=product.pack_cost,
        cost=_cost(packs, product, vat_percent),
        weight_kg=packs.value * product.pack_size * product.weight_kg,
    )


def _sum_of(lines: Sequence[TakeOffLine]) -> Figure[Decimal]:
    total = sum((Decimal(line.needed.value) for line in lines), Decimal(0))
    formula = " + ".join(line.needed.name for line in lines)
    working = Working(formula, tuple(worked_out(line.needed) for line in lines), ARITHMETIC)
    return Figure(f"{lines[0].description} needed", total, lines[0].needed.unit, working)


def _cost(packs: Figure[int], product: Product, vat_percent: Decimal) -> Figure[Decimal]:
    cost = packs.value * product.pack_cost
    given: tuple[Given, ...] = (worked_out(packs), from_price_book("pack cost", product.pack_cost, "GBP"))
    name = f"cost of {product.description}"
    if not vat_percent:
        return Figure(name, to_penny(cost), "GBP", Working("packs × pack cost", given, COMMON_PRACTICE))
    given = (*given, published("VAT not reclaimed", vat_percent, "%"))
    working = Working(
        "packs × pack cost × (1 + VAT not reclaimed / 100)", given, "VATA 1994 s.26; arithmetic"
    )
    return Figure(name, to_penny(cost * (100 + vat_percent) / 100), "GBP", working)


def weight_in_all(bought: Iterable[Purchase]) -> Figure[Decimal]:
    """Add up the delivery weight of what is bought.

    Args:
        bought: The purchases. Sequence. [kg]

    Returns:
        The weight. Scalar. [kg]

    Source:
        Arithmetic.
    """
    bought = tuple(bought)
    inputs = tuple(Given(each.description, each.weight_kg, "kg", Origin.WORKED_OUT) for each in bought)
    total = sum((each.weight_kg for each in bought), Decimal(0))
    return Figure(
        "delivery weight",
        total,
        "kg",
        Working("sum of packs × pieces in a pack × weight of a piece", inputs, ARITHMETIC),
    )
