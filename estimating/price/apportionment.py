"""Splitting one price that covers supplies under two VAT rates.

Only once it is settled that there are two supplies: a single supply may not be carved up. Any fair method
is allowed, so the method and its working are kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal

from estimating.amounts import PENNY, to_penny
from estimating.price.rounding import vat_from_gross
from estimating.refusals import Refusal, Requirements
from estimating.working import Given, Origin, Working, chosen, published


@dataclass(frozen=True, slots=True)
class Apportionment:
    """A price with VAT in it, split between no VAT and the standard rate."""

    zero_rated: Decimal
    standard_rated: Decimal
    output_tax: Decimal
    working: Working


def by_cost_plus_uplift(
    income: Decimal, *, zero_rated_cost: Decimal, uplift_percent: Decimal, standard_percent: Decimal
) -> Apportionment:
    """Value the zero-rated part at its cost and an uplift, and tax the rest.

    Args:
        income: The price with VAT. Scalar. [GBP]
        zero_rated_cost: What the zero-rated part costs the firm. Scalar. [GBP]
        uplift_percent: What the firm adds to cost. Scalar. [per cent]
        standard_percent: The standard rate on the tax point. Scalar. [per cent]

    Returns:
        The two parts, the tax in the second and the working. Record. [GBP]

    Raises:
        Refusal: An amount is below zero, or the zero-rated part is worth more than the price.

    Source:
        HMRC internal manual VATVAL04100, first example (450.00 taken, cost 39.00, uplift 50 %).
    """
    needs = Requirements()
    needs.require(zero_rated_cost >= 0, "zero_rated_cost", "must not be less than 0")
    needs.require(uplift_percent >= 0, "uplift_percent", "must not be less than 0")
    needs.settle()
    zero_rated = to_penny(zero_rated_cost * (100 + uplift_percent) / 100)
    if zero_rated > income:
        raise Refusal("zero_rated_cost", "with its uplift must not be worth more than the price")
    inputs = (
        chosen("price", income, "GBP"),
        Given("cost of the zero-rated part", zero_rated_cost, "GBP", Origin.WORKED_OUT),
        chosen("uplift", uplift_percent, "%"),
    )
    formula = "zero-rated = cost x (1 + uplift / 100); the rest x rate / (100 + rate) is tax"
    return _apportioned(income, zero_rated, standard_percent, formula, inputs)


def by_percentage(
    income: Decimal, *, zero_rated_of_sample: Decimal, sample_income: Decimal, standard_percent: Decimal
) -> Apportionment:
    """Split a price in the proportion that a representative sample of the trade showed.

    Args:
        income: The price with VAT. Scalar. [GBP]
        zero_rated_of_sample: The zero-rated value in the sample. Scalar. [GBP]
        sample_income: The sample's takings with VAT. Scalar. [GBP]
        standard_percent: The standard rate on the tax point. Scalar. [per cent]

    Returns:
        The two parts, the tax in the second and the working. Record. [GBP]

    Raises:
        Refusal: The price is below zero, the sample is empty, or its zero-rated value is not within it.

    Source:
        HMRC internal manual VATVAL04100, second example (13 % of 15 000).
    """
    zero_rated_percent = zero_rated_percent_of(zero_rated_of_sample, sample_income)
    if income < 0:
        raise Refusal("income", "must not be less than 0")
    zero_rated = to_penny(income * zero_rated_of_sample / sample_income)  # rounded once, from exact numbers
    inputs = (
        chosen("price", income, "GBP"),
        Given("zero-rated share of the sample", zero_rated_percent, "%", Origin.WORKED_OUT),
    )
    formula = "zero-rated = price x share / 100; the rest x rate / (100 + rate) is tax"
    return _apportioned(income, zero_rated, standard_percent, formula, inputs)


def by_share_of_costs(
    income: Decimal,
    *,
    zero_rated_cost: Decimal,
    uplift_percent: Decimal,
    total_costs: Decimal,
    standard_percent: Decimal,
) -> Apportionment:
    """Split a price in the proportion of the zero-rated part's cost, with its uplift, to all costs.

    Args:
        income: The price with VAT. Scalar. [GBP]
        zero_rated_cost: What the zero-rated part costs the firm. Scalar. [GBP]
        uplift_percent: What the firm adds to that cost. Scalar. [per cent]
        total_costs: What everything costs. Scalar. [GBP]
        standard_percent: The standard rate on the tax point. Scalar. [per cent]

    Returns:
        The two parts, the tax in the second, to the nearest penny, and the working. Record. [GBP]

    Raises:
        Refusal: An amount is below zero, or the uplifted cost is more than all costs.

    Source:
        HMRC internal manual VATVAL04100, the example by costs (42 000 and 100 % of 250 000), second hand.
    """
    needs = Requirements()
    needs.require(zero_rated_cost >= 0, "zero_rated_cost", "must not be less than 0")
    needs.require(uplift_percent >= 0, "uplift_percent", "must not be less than 0")
    needs.require(total_costs > 0, "total_costs", "must be more than 0")
    needs.settle()
    uplifted = zero_rated_cost * (100 + uplift_percent) / 100
    if uplifted > total_costs:
        raise Refusal("zero_rated_cost", "with its uplift must not be more than all costs")
    return by_percentage(
        income,
        zero_rated_of_sample=uplifted,
        sample_income=total_costs,
        standard_percent=standard_percent,
    )


def zero_rated_percent_of(zero_rated_of_sample: Decimal, sample_income: Decimal) -> Decimal:
    """Give the zero-rated share of a representative sample.

    Args:
        zero_rated_of_sample: The zero-rated value in the sample. Scalar. [GBP]
        sample_income: The sample's takings with VAT. Scalar. [GBP]

    Returns:
        The share. Scalar. [per cent]

    Raises:
        Refusal: The sample is empty, or its zero-rated value does not lie within it.

    Source:
        HMRC internal manual VATVAL04100, second example.
    """
    if not sample_income > 0:
        raise Refusal("sample_income", "must be more than 0")
    if not 0 <= zero_rated_of_sample <= sample_income:
        raise Refusal("zero_rated_of_sample", "must be from 0 to the sample's takings")
    return zero_rated_of_sample * 100 / sample_income


def by_selling_prices(prices: Sequence[Decimal], deal: Decimal) -> tuple[Decimal, ...]:
    """Share the price of a deal among its parts as their own prices stand to each other.

    Each share is cut to the penny, and the pennies left over go where most was cut, of equals to the dearer
    part, so that the shares add up to the deal and none is a penny away from its due.

    Args:
        prices: What each part sells for by itself. Sequence. [GBP]
        deal: What they sell for together. Scalar. [GBP]

    Returns:
        The share of each, in the same order. Sequence. [GBP]

    Raises:
        Refusal: A price is below zero, all are nothing, or the deal is no whole number of pence from 0.

    Source:
        HMRC internal manual VATVAL04200, older revision, meal-deal table; the left-over penny
        by our own rule.
    """
    if any(price < 0 for price in prices) or not sum(prices) > 0:
        raise Refusal("prices", "must not be less than 0, and not all 0")
    if deal < 0 or deal != to_penny(deal):
        raise Refusal("deal", "must not be less than 0, in whole pence")
    whole = sum(prices, Decimal(0))
    due = [price * deal / whole for price in prices]
    shares = [each.quantize(PENNY, rounding=ROUND_FLOOR) for each in due]
    left = int((deal - sum(shares, Decimal(0))) / PENNY)
    most_cut_first = sorted(range(len(due)), key=lambda at: (shares[at] - due[at], -prices[at]))
    for place in most_cut_first[:left]:
        shares[place] += PENNY
    return tuple(shares)


def _apportioned(
    income: Decimal, zero_rated: Decimal, standard_percent: Decimal, formula: str, inputs: tuple[Given, ...]
) -> Apportionment:
    standard_rated = income - zero_rated
    tax = vat_from_gross(standard_rated, standard_percent).vat
    working = Working(
        formula, (*inputs, published("rate", standard_percent, "%")), "VATVAL04100; VATA 1994 s.19(4)"
    )
    return Apportionment(zero_rated, standard_rated, tax, working)
