"""Discounts: what is not asked, with its reason, shared over the VAT rates of the lines it comes off."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import ROUND_FLOOR, Decimal

from estimating.amounts import PENNY, to_penny
from estimating.price.price import Adjustment, LineOrigin, PriceLine
from estimating.price_terms import Discount
from estimating.refusals import Refusal
from estimating.working import COMMON_PRACTICE, Given, Origin, Working, chosen

_SOURCE = f"{COMMON_PRACTICE}; VATA 1994 s.19(4) on a price for supplies under several rates"


def discount_lines(counted: Sequence[PriceLine], discounts: Sequence[Discount]) -> tuple[Adjustment, ...]:
    """Give the lines by which discounts lower an offer, one for each VAT rate that each comes off.

    A per cent is of the lines that count, before any other discount. What it comes to is shared over the
    rates as their lines stand to each other; odd pennies go to the lowest rate, so that the VAT never falls
    by more than its share.

    Args:
        counted: The lines that count. Sequence. [GBP]
        discounts: What is not asked. Sequence. [-]

    Returns:
        The lines, all below zero. Sequence. [GBP]

    Raises:
        Refusal: The discounts leave nothing to pay, or less.

    Source:
        Common practice, no source; VATA 1994 s.19(4) on a price that covers several rates.
    """
    by_rate = _net_by_rate(counted)
    asked = sum(by_rate.values(), Decimal("0.00"))
    amounts = [discount_amount(each, asked) for each in discounts]
    off = sum(amounts, Decimal("0.00"))
    if discounts and off >= asked:
        words = f"must leave something to pay: £{off} would come off lines of £{asked}"
        raise Refusal("discounts", words)
    left = dict(by_rate)
    found: list[Adjustment] = []
    for discount, amount in zip(discounts, amounts, strict=True):
        shares = _shares(amount, by_rate, left)
        for rate, share in shares.items():
            left[rate] -= share
        several = len(shares) > 1
        found += [
            _line(discount, rate, share, asked=asked, of_rate=by_rate[rate], several=several)
            for rate, share in shares.items()
        ]
    return tuple(found)


def discount_amount(discount: Discount, asked: Decimal) -> Decimal:
    """Give what one discount comes to, without VAT.

    Args:
        discount: Per cent or pounds. Record. [-]
        asked: The sum of the lines that count. Scalar. [GBP]

    Returns:
        The amount to the penny. Scalar. [GBP]

    Source:
        Arithmetic; half up by HMRC internal manual VATREC12030.
    """
    if discount.amount is not None:
        return to_penny(discount.amount)
    return to_penny(asked * (discount.percent or 0) / 100)


def _net_by_rate(counted: Sequence[PriceLine]) -> dict[Decimal, Decimal]:
    """The sums of the lines, lowest rate first."""
    by_rate: dict[Decimal, Decimal] = {}
    for line in sorted(counted, key=lambda line: line.vat_percent):
        by_rate[line.vat_percent] = by_rate.get(line.vat_percent, Decimal("0.00")) + line.net.value
    return by_rate


def _shares(
    amount: Decimal, by_rate: Mapping[Decimal, Decimal], left: Mapping[Decimal, Decimal]
) -> dict[Decimal, Decimal]:
    """Cut every share to the penny, then give what is over to the lowest rates that have something left."""
    asked = sum(by_rate.values(), Decimal(0))
    shares = {
        rate: min(left[rate], (amount * net / asked).quantize(PENNY, rounding=ROUND_FLOOR))
        for rate, net in by_rate.items()
    }
    over = amount - sum(shares.values(), Decimal(0))
    for rate, share in shares.items():
        more = min(over, left[rate] - share)
        shares[rate] = share + more
        over -= more
    return {rate: share for rate, share in shares.items() if share}


def _line(  # noqa: PLR0913 - each is said in the working
    discount: Discount, rate: Decimal, share: Decimal, *, asked: Decimal, of_rate: Decimal, several: bool
) -> Adjustment:
    how_much = f" of {discount.percent.normalize():f} %" if discount.percent is not None else ""
    where = f", on what carries {rate.normalize():f} % VAT" if several else ""
    size = (
        chosen("discount", discount.percent, "%")
        if discount.percent is not None
        else chosen("discount", discount.amount or Decimal(0), "GBP")
    )
    inputs = (
        size,
        Given("lines that count", asked, "GBP", Origin.WORKED_OUT),
        Given(f"lines at {rate} %", of_rate, "GBP", Origin.WORKED_OUT),
    )
    formula = "discount shared as the lines of each rate stand to all; odd pennies to the lowest rate"
    return Adjustment(
        origin=LineOrigin.DISCOUNT,
        description=f"Discount{how_much}: {discount.reason.strip()}{where}",
        net=-share,
        vat_percent=rate,
        working=Working(formula, inputs, _SOURCE),
    )
