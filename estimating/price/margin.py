"""From cost to price: margin is a share of the price, mark-up a share of the cost, never confused."""

from __future__ import annotations

from decimal import Decimal

from estimating.amounts import PENNY
from estimating.price.rounding import to_step
from estimating.refusals import Refusal
from estimating.ways_to_price import MarginKind
from estimating.working import ARITHMETIC, COMMON_PRACTICE, Figure, Given, Origin, Working, chosen


def selling_price(cost: Decimal, *, kind: MarginKind, percent: Decimal) -> Figure[Decimal]:
    """Price a cost so that it earns the firm's margin or mark-up.

    The same percentage gives different prices: 25 % margin on 100 pounds sells at 133.33, 25 % mark-up at
    125. The result is exact; a line rounds it to the penny by its own rule.

    Args:
        cost: What the work costs the firm. Scalar. [GBP]
        kind: Margin on the price, or mark-up on the cost. Choice. [-]
        percent: The margin or mark-up. Scalar. [per cent]

    Returns:
        The price without VAT. Scalar. [GBP]

    Raises:
        Refusal: The cost or percentage is below zero, or a margin is 100 % or more.

    Source:
        Common practice, no source; arithmetic.
    """
    if not cost >= 0:
        raise Refusal("cost", "must not be less than 0")
    if not percent >= 0:
        raise Refusal("percent", "must not be less than 0: a price below cost is a discount, on its own line")
    if kind is MarginKind.MARGIN:
        if percent >= 100:
            raise Refusal("percent", "must be less than 100: a margin is a share of the price")
        price, formula = cost * 100 / (100 - percent), "cost / (1 - margin / 100)"
    else:
        price, formula = cost * (100 + percent) / 100, "cost x (1 + mark-up / 100)"
    inputs = (_given("cost", cost), chosen(kind.value, percent, "%"))
    return Figure("selling price", price, "GBP", Working(formula, inputs, COMMON_PRACTICE))


def margin_of(cost: Decimal, price: Decimal) -> Figure[Decimal]:
    """Tell the margin: what share of the price is left after the cost.

    Args:
        cost: What the work costs the firm. Scalar. [GBP]
        price: What it sells for, without VAT. Scalar. [GBP]

    Returns:
        The margin, below zero when the price does not cover the cost. Scalar. [per cent]

    Raises:
        Refusal: The price is nothing or less.

    Source:
        Common practice, no source; arithmetic.
    """
    if not price > 0:
        raise Refusal("price", "must be more than 0: a margin is a share of the price")
    inputs = (_given("price", price), _given("cost", cost))
    working = Working("(price - cost) / price x 100", inputs, COMMON_PRACTICE)
    return Figure("margin", (price - cost) * 100 / price, "%", working)


def mark_up_of(cost: Decimal, price: Decimal) -> Figure[Decimal]:
    """Tell the mark-up: what was added to the cost, as a share of the cost.

    Args:
        cost: What the work costs the firm. Scalar. [GBP]
        price: What it sells for, without VAT. Scalar. [GBP]

    Returns:
        The mark-up, below zero when the price does not cover the cost. Scalar. [per cent]

    Raises:
        Refusal: The cost is nothing or less.

    Source:
        Common practice, no source; arithmetic.
    """
    if not cost > 0:
        raise Refusal("cost", "must be more than 0: a mark-up is a share of the cost")
    inputs = (_given("price", price), _given("cost", cost))
    working = Working("(price - cost) / cost x 100", inputs, COMMON_PRACTICE)
    return Figure("mark-up", (price - cost) * 100 / cost, "%", working)


def told_the_other_way(kind: MarginKind, percent: Decimal) -> Figure[Decimal]:
    """Tell a margin as the mark-up that gives the same price, or a mark-up as the margin.

    Both are shown side by side, so that 30 % of the one is never taken for 30 % of the other.

    Args:
        kind: What the percentage is. Choice. [-]
        percent: The margin or mark-up. Scalar. [per cent]

    Returns:
        The other one, exact. Scalar. [per cent]

    Raises:
        Refusal: The percentage is below zero, or a margin is 100 % or more.

    Source:
        Common practice, no source; arithmetic.
    """
    cost = Decimal(100)
    price = selling_price(cost, kind=kind, percent=percent).value
    return mark_up_of(cost, price) if kind is MarginKind.MARGIN else margin_of(cost, price)


def offered(net: Decimal, step: Decimal) -> Figure[Decimal]:
    """Give the line that brings a price to the firm's habit of whole pounds or five pounds.

    It stands as a line of its own, so that the other lines keep the prices their working shows.

    Args:
        net: The sum of the lines, in whole pence. Scalar. [GBP]
        step: What the offered price is to be a multiple of: 0.01, 1, 5. Scalar. [GBP]

    Returns:
        What to add to the net, below zero when it is rounded down. Scalar. [GBP]

    Raises:
        Refusal: The net or the step is not whole pence, or the step is nothing or less.

    Source:
        Common practice, no source; half up by HMRC internal manual VATREC12030.
    """
    for field, amount in (("net", net), ("step", step)):
        if amount != amount.quantize(PENNY):
            raise Refusal(field, "must be whole pence")
    difference = (to_step(net, step) - net).quantize(PENNY)
    inputs = (_given("net", net), chosen("step", step, "GBP"))
    working = Working("nearest multiple of the step, half up, - net", inputs, ARITHMETIC)
    return Figure("rounding of the offered price", difference, "GBP", working)


def _given(name: str, amount: Decimal) -> Given:
    return Given(name, amount, "GBP", Origin.WORKED_OUT)
