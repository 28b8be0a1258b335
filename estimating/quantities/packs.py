"""From a quantity to whole packs: nobody sells three quarters of a box."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import ceil

from estimating.refusals import Requirements
from estimating.working import COMMON_PRACTICE, Figure, Given, Origin, Working, chosen, from_price_book


def packs_needed(
    quantity: Decimal | int, pack_size: Decimal | int, waste_percent: Decimal | int, *, unit: str = ""
) -> Figure[int]:
    """Count the whole packs that cover a quantity and its waste, rounded up.

    Counted in exact fractions: a quantity that fills its packs to the brim does not buy one more.

    Args:
        quantity: What is needed, before waste. Scalar. [as unit]
        pack_size: What one pack holds. Scalar. [as unit]
        waste_percent: What is added for cutting and breakage. Scalar. [per cent]
        unit: The unit of quantity and pack, empty for a count. Text. [-]

    Returns:
        The packs to buy. Scalar. [packs]

    Raises:
        Refusal: A quantity or waste below zero, or a pack that holds nothing.

    Source:
        Common practice, no source: packs rounded up per item.
    """
    packs = ceil(_fraction(quantity, pack_size, waste_percent))
    inputs = (
        Given("quantity", quantity, unit, Origin.WORKED_OUT),
        from_price_book("pack size", pack_size, unit),
        chosen("waste", waste_percent, "%"),
    )
    working = Working("quantity x (1 + waste / 100) / pack size, rounded up", inputs, COMMON_PRACTICE)
    return Figure("packs", packs, "packs", working)


def packs_exact(quantity: Decimal | int, pack_size: Decimal | int, waste_percent: Decimal | int) -> Decimal:
    """Give the packs before rounding up, to four places: how full the last pack will be.

    Args:
        quantity: What is needed, before waste. Scalar. [as pack_size]
        pack_size: What one pack holds. Scalar. [as quantity]
        waste_percent: What is added for cutting and breakage. Scalar. [per cent]

    Returns:
        The packs and part packs. Scalar. [packs]

    Raises:
        Refusal: A quantity or waste below zero, or a pack that holds nothing.

    Source:
        Common practice, no source; arithmetic.
    """
    packs = _fraction(quantity, pack_size, waste_percent)
    exact = Decimal(packs.numerator) / Decimal(packs.denominator)
    return exact.quantize(Decimal("0.0001"), rounding=ROUND_HALF_UP)


def _fraction(quantity: Decimal | int, pack_size: Decimal | int, waste_percent: Decimal | int) -> Fraction:
    needs = Requirements()
    needs.require(quantity >= 0, "quantity", "must not be less than 0")
    needs.require(pack_size > 0, "pack_size", "must be more than 0")
    needs.require(waste_percent >= 0, "waste_percent", "must not be less than 0")
    needs.settle()
    return Fraction(quantity) * (100 + Fraction(waste_percent)) / 100 / Fraction(pack_size)
