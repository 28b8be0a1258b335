"""From what a part costs the firm to what is asked for it: each kind of cost at the firm's share for it."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from estimating.amounts import to_penny
from estimating.choices import Part
from estimating.price.margin import selling_price
from estimating.price_book import PricingRules
from estimating.quantities.quantities import Quantities
from estimating.ways_to_price import MarginKind
from estimating.working import ARITHMETIC, COMMON_PRACTICE, Figure, Given, Origin, Working, chosen, worked_out

_FORMULA = {
    MarginKind.MARGIN: "cost / (1 − margin / 100)",
    MarginKind.MARK_UP: "cost × (1 + mark-up / 100)",
}


def cost_of(part: Part, quantities: Quantities) -> Figure[Decimal]:
    """Add up what one part costs the firm: its packs, its hours and its charges.

    Args:
        part: The part. Choice. [-]
        quantities: What was counted. Record. [GBP]

    Returns:
        The cost. Scalar. [GBP]

    Source:
        Arithmetic.
    """
    costs = [cost for _, found, _ in _by_kind(part, quantities, PricingRules()) for cost in found]
    working = Working(
        "sum of materials, hours and charges of this part", tuple(map(worked_out, costs)), ARITHMETIC
    )
    return Figure(f"cost of {part}", _sum(costs), "GBP", working)


def price_of(part: Part, quantities: Quantities, rules: PricingRules) -> Figure[Decimal]:
    """Price one part: materials, hours and charges each at the firm's percentage for them, to the penny.

    A firm that asks more on hours than on boards still has one kind of percentage, margin or mark-up, so the
    two are never mixed up within a price.

    Args:
        part: The part. Choice. [-]
        quantities: What it costs. Record. [GBP]
        rules: Margin or mark-up, and its percentages. Record. [per cent]

    Returns:
        The price without VAT. Scalar. [GBP]

    Source:
        Common practice, no source: one percentage, or one for each kind of cost; arithmetic in price.margin.
    """
    kinds = [kind for kind in _by_kind(part, quantities, rules) if kind[1]]
    formula = f"{_FORMULA[rules.margin_kind]}, to the penny"
    if len({percent for _, _, percent in kinds}) <= 1:
        cost = cost_of(part, quantities)
        percent = kinds[0][2] if kinds else rules.percent
        exact = selling_price(cost.value, kind=rules.margin_kind, percent=percent).value
        inputs = [worked_out(cost), chosen(rules.margin_kind.value, percent, "%")]
    else:
        formula, exact, inputs = f"sum over the kinds of cost of {formula}", Decimal(0), []
        for name, costs, percent in kinds:
            exact += selling_price(_sum(costs), kind=rules.margin_kind, percent=percent).value
            inputs += [
                Given(f"cost of {name}", _sum(costs), "GBP", Origin.WORKED_OUT),
                chosen(f"{rules.margin_kind.value} on {name}", percent, "%"),
            ]
    working = Working(formula, tuple(inputs), COMMON_PRACTICE)
    return Figure(f"price of {part}", to_penny(exact), "GBP", working)


def _by_kind(
    part: Part, quantities: Quantities, rules: PricingRules
) -> tuple[tuple[str, list[Figure[Decimal]], Decimal], ...]:
    """Return each kind of cost by name, its costs for one part, and the percentage that is asked on it."""
    materials = [line.cost for line in quantities.purchases if line.part is part]
    hours = [line.cost for line in quantities.labour if line.part is part]
    others = [line.cost for line in quantities.charges if line.part is part]
    return (
        ("materials", materials, rules.on_materials_percent),
        ("hours", hours, rules.on_hours_percent),
        ("charges", others, rules.on_charges_percent),
    )


def _sum(costs: Sequence[Figure[Decimal]]) -> Decimal:
    return sum((cost.value for cost in costs), Decimal("0.00"))
