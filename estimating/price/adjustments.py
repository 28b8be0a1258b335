"""What stands in an offer beside the parts of the job: discounts, the least job, the firm's rounding."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from estimating.amounts import to_penny
from estimating.price.discounts import discount_lines
from estimating.price.margin import offered
from estimating.price.price import Adjustment, LineOrigin, PriceLine
from estimating.price_book import PricingRules
from estimating.price_terms import Discount
from estimating.refusals import Refusal
from estimating.working import COMMON_PRACTICE, Given, Origin, Working, chosen


def adjustments(
    counted: Sequence[PriceLine], rules: PricingRules, discounts: Sequence[Discount] = ()
) -> tuple[Adjustment, ...]:
    """Give what brings the lines to the price offered: discounts first, then minimum job, then rounding.

    Minimum and rounding carry the highest rate of the lines, so that too little VAT is never asked.

    Args:
        counted: The lines that count. Sequence. [GBP]
        rules: Minimum job and rounding habit. Record. [GBP]
        discounts: What is not asked, and why. Sequence. [-]

    Returns:
        The lines, in the order they were worked out. Sequence. [GBP]

    Raises:
        Refusal: The discounts leave nothing to pay, or nothing once that is rounded.

    Source:
        Common practice, no source.
    """
    found = list(discount_lines(counted, discounts))
    net = sum((line.net.value for line in counted), Decimal("0.00"))
    net += sum((each.net for each in found), Decimal("0.00"))
    rate = max((line.vat_percent for line in counted), default=Decimal(0))
    if net < rules.minimum_net:
        short = to_penny(rules.minimum_net - net)
        inputs = (chosen("minimum", rules.minimum_net, "GBP"), Given("lines", net, "GBP", Origin.WORKED_OUT))
        found.append(
            Adjustment(
                origin=LineOrigin.MINIMUM_JOB,
                description=f"To the minimum for one job, £{rules.minimum_net}",
                net=short,
                vat_percent=rate,
                working=Working("minimum − lines", inputs, COMMON_PRACTICE),
            )
        )
        net += short
    rounding = offered(net, rules.round_to)
    if counted and net + rounding.value <= 0:
        raise Refusal("discounts", "must leave something to pay once the price is rounded")
    if rounding.value:
        found.append(
            Adjustment(
                origin=LineOrigin.ROUNDING,
                description=f"To the nearest £{rules.round_to}",
                net=rounding.value,
                vat_percent=rate,
                working=rounding.working,
            )
        )
    return tuple(found)
