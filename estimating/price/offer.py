"""What is asked in all, for any set of options taken; the lines themselves never change with it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

from estimating.choices import Part
from estimating.price.adjustments import adjustments
from estimating.price.margin import margin_of
from estimating.price.price import Price, PriceLine
from estimating.price.reverse_charge import ReverseCharge, reverse_charge, reverse_charge_totals
from estimating.price.stages import refuse_stages_beyond, stage_amounts
from estimating.price.taking import PartRule
from estimating.price.totals import PricedAmount, totals
from estimating.price_book import PricingRules
from estimating.price_terms import PriceTerms
from estimating.refusals import Refusal
from estimating.working import ARITHMETIC, Figure, Working, worked_out

_NO_TERMS = PriceTerms()


def offer(  # noqa: PLR0913 - what is added up, and what is carried over
    lines: Sequence[PriceLine],
    taken_parts: frozenset[Part],
    rules: PricingRules,
    *,
    terms: PriceTerms = _NO_TERMS,
    notices: tuple[str, ...] = (),
    part_rules: tuple[PartRule, ...] = (),
) -> Price:
    """Add up the lines for the options taken, take discounts off, and bring them to minimum and habit.

    It reads nothing but the lines and rules, so it also serves lines frozen in an issued quote; in which
    order the options were taken cannot matter, because only the set is known.

    Args:
        lines: Every line offered. Sequence. [GBP]
        taken_parts: The optional parts taken; one without a line costs nothing. Set. [-]
        rules: Minimum job, rounding habit and VAT method. Record. [GBP]
        terms: Discounts, stages and what a business said about VAT. Record. [-]
        notices: What the reader must be told, carried over. Sequence. [-]
        part_rules: What goes with what, carried over; the caller asks `why_not_together`. Sequence. [-]

    Returns:
        The lines with what counts marked, adjustments, totals and stages. Record. [GBP]

    Raises:
        Refusal: A part was taken that is no option, or the discounts leave nothing to pay.

    Source:
        Common practice, no source: minimum and rounding on lines of their own; totals as in price.totals.
    """
    fixed = sorted(taken_parts & {line.part for line in lines if not line.optional})
    if fixed:
        raise Refusal("taken_parts", f"must be optional, which these are not: {', '.join(fixed)}")
    marked = tuple(replace(line, counted=not line.optional or line.part in taken_parts) for line in lines)
    counted = [line for line in marked if line.counted]
    beside = adjustments(counted, rules, terms.discounts)
    amounts = [PricedAmount(line.net.value, line.vat_percent) for line in counted]
    amounts += [PricedAmount(each.net, each.vat_percent) for each in beside]
    reverse = reverse_charge_of(marked, rules, terms)
    customer_accounts = reverse is not None and reverse.applies
    added_up = totals(amounts, rules.vat_rounding, reverse_charged=customer_accounts)
    cost = _cost(counted)
    return Price(
        lines=marked,
        adjustments=beside,
        totals=added_up,
        cost=cost,
        margin_percent=_to_a_tenth(margin_of(cost.value, added_up.net)),
        notices=notices,
        part_rules=part_rules,
        stages=stage_amounts(added_up, terms.stages),
        reverse_charge=reverse_charge_totals(amounts, rules.vat_rounding) if customer_accounts else None,
    )


def refuse_terms(lines: Sequence[PriceLine], rules: PricingRules, terms: PriceTerms) -> None:
    """Refuse discounts and stages that the least price on offer cannot bear.

    The customer may leave every option, and must then still be offered a price that can be so.

    Args:
        lines: Every line offered. Sequence. [GBP]
        rules: Minimum job, rounding habit and VAT method. Record. [GBP]
        terms: The discounts and stages. Record. [-]

    Returns:
        Nothing. None. [-]

    Raises:
        Refusal: The discounts leave nothing to pay, or the stages ask more than the price.

    Source:
        Common practice, no source.
    """
    refuse_stages_beyond(offer(lines, frozenset(), rules, terms=terms).totals, terms.stages)


def reverse_charge_of(
    lines: Sequence[PriceLine], rules: PricingRules, terms: PriceTerms
) -> ReverseCharge | None:
    """Tell whether the customer accounts for the VAT of an offer, and why; nothing for a household.

    What was not asked yet leaves the usual rules in force.

    Args:
        lines: Every line offered. Sequence. [GBP]
        rules: Whether the firm is registered. Record. [-]
        terms: What the customer said. Record. [-]

    Returns:
        The answer, or None where nothing was asked because the customer is no business. Record. [-]

    Source:
        HMRC guidance on the domestic reverse charge, as in price.reverse_charge.
    """
    said = terms.reverse_charge
    if said is None:
        return None
    return reverse_charge(
        supplier_registered=rules.vat_registered,
        customer_registered=said.customer_registered is True,
        reported_in_cis=said.reported_in_cis is True,
        end_user_notice=said.end_user_notice is not False,
        rate_percent=max((line.vat_percent for line in lines if line.counted), default=Decimal(0)),
    )


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
