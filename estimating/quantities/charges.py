"""The charges of the visit: what a job costs besides materials and hours."""

from __future__ import annotations

from decimal import Decimal

from estimating.amounts import to_penny
from estimating.choices import Choices, Part
from estimating.price_book import Charge, PriceBook
from estimating.quantities.quantities import ChargeLine
from estimating.refusals import Refusal
from estimating.working import COMMON_PRACTICE, Figure, Working, chosen, from_price_book


def charges(price_book: PriceBook, choices: Choices) -> tuple[ChargeLine, ...]:
    """Give the charges that always apply and those chosen for this job.

    They stand in the visit's line, so that the price asked has every charge in it.

    Args:
        price_book: The edition that holds the charges. Record. [GBP]
        choices: The charges chosen, and the miles. Record. [-]

    Returns:
        The charges that cost something. Sequence. [GBP]

    Raises:
        Refusal: A chosen charge is not in the book.

    Source:
        Common practice, no source.
    """
    unknown = sorted(choices.charge_codes - {charge.code for charge in price_book.charges})
    if unknown:
        raise Refusal("choices.charge_codes", f"must be in the price book: {', '.join(unknown)}")
    taken = [charge for charge in price_book.charges if charge.always or charge.code in choices.charge_codes]
    lines = (_line(charge, choices.miles) for charge in taken)
    return tuple(line for line in lines if line.cost.value)


def _line(charge: Charge, miles: Decimal) -> ChargeLine:
    amount = from_price_book("charge", charge.amount, "GBP")
    if charge.per == "mile":
        value = charge.amount * miles
        working = Working("charge × miles", (amount, chosen("miles", miles, "miles")), COMMON_PRACTICE)
    else:
        value, working = charge.amount, Working("charge", (amount,), COMMON_PRACTICE)
    cost = Figure(charge.description or charge.code, to_penny(value), "GBP", working)
    return ChargeLine(part=Part.VISIT, code=charge.code, description=charge.description, cost=cost)
