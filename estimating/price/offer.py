"""What is asked in all, for any set of options taken; the lines themselves never change with it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from decimal import ROUND_HALF_UP, Decimal

from estimating.amounts import to_penny
from estimating.choices import Choices, Part
from estimating.price.lines import supply_mode
from estimating.price.margin import margin_of, offered
from estimating.price.price import Adjustment, LineOrigin, Price, PriceLine
from estimating.price.taking import PartRule
from estimating.price.totals import PricedAmount, totals
from estimating.price.vat import ANCILLARY_HATCH_CAUTION, SINGLE_SUPPLY_CAUTION, rate_changes_between
from estimating.price_book import PriceBook, PricingRules
from estimating.refusals import Refusal
from estimating.survey import Survey
from estimating.ways_to_price import SupplyMode, VatClass
from estimating.working import (
    ARITHMETIC,
    COMMON_PRACTICE,
    Figure,
    Given,
    Origin,
    Working,
    chosen,
    worked_out,
)

_LOOK_AHEAD = timedelta(days=365)


def offer(
    lines: Sequence[PriceLine],
    taken_parts: frozenset[Part],
    rules: PricingRules,
    *,
    notices: tuple[str, ...] = (),
    part_rules: tuple[PartRule, ...] = (),
) -> Price:
    """Add up the lines for the options taken, bring them to the firm's minimum and habit, and total them.

    It reads nothing but the lines and rules, so it also serves lines frozen in an issued quote; in which
    order the options were taken cannot matter, because only the set is known.

    Args:
        lines: Every line offered. Sequence. [GBP]
        taken_parts: The optional parts taken; one without a line costs nothing. Set. [-]
        rules: Minimum job, rounding habit and VAT method. Record. [GBP]
        notices: What the reader must be told, carried over. Sequence. [-]
        part_rules: What goes with what, carried over; the caller asks `why_not_together`. Sequence. [-]

    Returns:
        The lines with what counts marked, adjustments and totals. Record. [GBP]

    Raises:
        Refusal: A part was taken that is no option.

    Source:
        Common practice, no source: minimum and rounding on lines of their own; totals as in price.totals.
    """
    fixed = sorted(taken_parts & {line.part for line in lines if not line.optional})
    if fixed:
        raise Refusal("taken_parts", f"must be optional, which these are not: {', '.join(fixed)}")
    marked = tuple(replace(line, counted=not line.optional or line.part in taken_parts) for line in lines)
    counted = [line for line in marked if line.counted]
    adjustments = _adjustments(counted, rules)
    amounts = [PricedAmount(line.net.value, line.vat_percent) for line in counted]
    amounts += [PricedAmount(each.net, each.vat_percent) for each in adjustments]
    added_up = totals(amounts, rules.vat_rounding)
    cost = _cost(counted)
    return Price(
        lines=marked,
        adjustments=adjustments,
        totals=added_up,
        cost=cost,
        margin_percent=_to_a_tenth(margin_of(cost.value, added_up.net)),
        notices=notices,
        part_rules=part_rules,
    )


def _adjustments(counted: Sequence[PriceLine], rules: PricingRules) -> tuple[Adjustment, ...]:
    """Both carry the highest rate of the lines they belong to, so that too little VAT is never asked."""
    net = sum((line.net.value for line in counted), Decimal("0.00"))
    rate = max((line.vat_percent for line in counted), default=Decimal(0))
    found = []
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


def _cost(counted: Sequence[PriceLine]) -> Figure[Decimal]:
    total = sum((line.cost.value for line in counted), Decimal("0.00"))
    working = Working(
        "sum of the costs of the parts that count",
        tuple(worked_out(line.cost) for line in counted),
        ARITHMETIC,
    )
    return Figure("cost of the job", total, "GBP", working)


def _to_a_tenth(margin: Figure[Decimal]) -> Figure[Decimal]:
    working = replace(margin.working, formula=f"{margin.working.formula}, to a tenth")
    return replace(
        margin, value=margin.value.quantize(Decimal("0.1"), rounding=ROUND_HALF_UP), working=working
    )


def _vat_more(lines: Sequence[PriceLine]) -> Decimal:
    """The VAT that the lines that count would carry more, were all of them at their highest rate."""
    highest = max(line.vat_percent for line in lines)
    counted = (line for line in lines if line.counted)
    return to_penny(
        sum(((highest - line.vat_percent) * line.net.value / 100 for line in counted), Decimal(0))
    )


def notices(
    lines: Sequence[PriceLine], survey: Survey, price_book: PriceBook, choices: Choices
) -> tuple[str, ...]:
    """Say what the office must know about the VAT of this offer before it goes out.

    Args:
        lines: The lines offered. Sequence. [GBP]
        survey: The property's nation. Record. [-]
        price_book: Whether the firm is registered. Record. [-]
        choices: Tax point, hatch and supply. Record. [-]

    Returns:
        The notices, none for a firm that charges no VAT. Sequence. [-]

    Source:
        VENSAV3240 on single supplies; VATA 1994 s.88 on a change of rate; the rows in published.vat_rates.
    """
    if not price_book.pricing.vat_registered:
        return ()
    found = []
    relieved = {Part.INSULATION, Part.DRAUGHT_STRIP, Part.HATCH} & {line.part for line in lines}
    if len({line.vat_percent for line in lines}) > 1:
        found.append(f"{SINGLE_SUPPLY_CAUTION} One supply would be £{_vat_more(lines)} more VAT.")
    if Part.HATCH in relieved and choices.hatch_cut_with_insulation:
        found.append(ANCILLARY_HATCH_CAUTION)
    mode = supply_mode(survey, choices)
    fitted_at_home = mode not in (SupplyMode.SUPPLY_ONLY, SupplyMode.NOT_RESIDENTIAL)
    last = choices.tax_point + _LOOK_AHEAD
    for change in rate_changes_between(choices.tax_point, last, survey.nation):
        if change.vat_class is VatClass.STANDARD or (relieved and fitted_at_home):
            day = f"{change.on.day} {change.on:%B %Y}"
            found.append(
                f"From {day} the rate for {change.vat_class} goes from {change.before_percent} % to "
                f"{change.after_percent} %: the rate is that of the tax point ({change.source})."
            )
    return tuple(found)
