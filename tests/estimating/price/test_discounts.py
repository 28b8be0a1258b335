"""Discounts come off with their reason, by the rates of the lines, and never take too much VAT with them."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import cache

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from estimating.choices import Part
from estimating.estimate import estimate
from estimating.price.adjustments import adjustments
from estimating.price.discounts import discount_lines
from estimating.price.floor import below_floor
from estimating.price.offer import offer
from estimating.price.price import LineOrigin, Price, PriceLine
from estimating.price.rounding import exact_vat
from estimating.price_book import PricingRules
from estimating.price_terms import Discount, PriceTerms
from estimating.refusals import Refusal
from estimating.ways_to_price import VatRounding
from tests.estimating.lofts import EVERY_PART, choices, price_book, trussed_loft

RATES = (Decimal(0), Decimal(5), Decimal(20))
PARTS = tuple(Part)


@cache
def offered() -> Price:
    return estimate(
        trussed_loft(), price_book(), choices(parts=EVERY_PART, optional_parts=EVERY_PART - {Part.INSULATION})
    ).price


def line(part: Part, net: Decimal, rate: Decimal, *, optional: bool = False) -> PriceLine:
    like = offered().lines[0]
    figure = replace(like.net, value=net)
    return replace(
        like, part=part, net=figure, cost=replace(like.cost, value=Decimal("1.00")), vat_percent=rate,
        optional=optional, counted=not optional,
    )  # fmt: skip


pounds = st.decimals(min_value="0.01", max_value=9000, places=2)
several_lines = st.lists(st.tuples(pounds, st.sampled_from(RATES)), min_size=1, max_size=len(PARTS)).map(
    lambda pairs: tuple(line(part, *pair) for part, pair in zip(PARTS, pairs, strict=False))
)
discount = st.one_of(
    st.decimals(min_value="0.01", max_value="99.99", places=2).map(
        lambda share: Discount(reason="x", percent=share)
    ),
    pounds.map(lambda amount: Discount(reason="x", amount=amount)),
)
any_rules = st.builds(
    PricingRules,
    minimum_net=st.decimals(min_value=0, max_value=3000, places=2),
    round_to=st.sampled_from([Decimal("0.01"), Decimal(1), Decimal(5)]),
    vat_rounding=st.sampled_from(VatRounding),
)


def test_a_discount_is_shared_over_the_rates_of_its_lines() -> None:
    """100 off 300 at 0 % and 700 at 20 %: 30 and 70. Common practice, no source."""
    lines = (line(Part.INSULATION, Decimal("300.00"), RATES[0]), line(Part.DECK, Decimal("700.00"), RATES[2]))
    low, high = discount_lines(lines, [Discount(reason="Two lofts at once", amount=Decimal(100))])
    assert (low.net, low.vat_percent, high.net, high.vat_percent) == (-30, 0, -70, 20)
    assert high.description == "Discount: Two lofts at once, on what carries 20 % VAT"
    assert high.origin is LineOrigin.DISCOUNT


def test_an_odd_penny_comes_off_the_lowest_rate() -> None:
    lines = (line(Part.INSULATION, Decimal("100.00"), RATES[0]), line(Part.DECK, Decimal("200.00"), RATES[2]))
    shares = [each.net for each in discount_lines(lines, [Discount(reason="x", amount=Decimal("0.01"))])]
    assert shares == [Decimal("-0.01")]


def test_a_share_is_of_the_lines_that_count_and_says_so() -> None:
    lines = (line(Part.DECK, Decimal("199.99"), RATES[2]),)
    (found,) = discount_lines(
        lines, [Discount(reason="A neighbour of the last job", percent=Decimal("7.50"))]
    )
    assert found.net == Decimal("-15.00")  # 7.5 % of 199.99 is 14.99925
    assert found.description == "Discount of 7.5 %: A neighbour of the last job"


def test_lines_then_discount_then_minimum_then_rounding() -> None:
    lines = (line(Part.DECK, Decimal("601.37"), RATES[2]),)
    rules = PricingRules(minimum_net=Decimal("552.00"), round_to=Decimal(5))
    found = adjustments(lines, rules, [Discount(reason="x", percent=Decimal(10))])
    assert [each.origin for each in found] == [
        LineOrigin.DISCOUNT, LineOrigin.MINIMUM_JOB, LineOrigin.ROUNDING,
    ]  # fmt: skip
    assert [each.net for each in found] == [Decimal("-60.14"), Decimal("10.77"), Decimal("-2.00")]


@settings(max_examples=150, deadline=None)
@given(several_lines, st.lists(discount, max_size=3), any_rules)
def test_lines_sum_to_totals_for_any_lines_discounts_and_rounding(lines, discounts, rules) -> None:
    terms = PriceTerms(discounts=tuple(discounts))
    try:
        price = offer(lines, frozenset(), rules, terms=terms)
    except Refusal:  # the discounts, or rounding to five pounds, left nothing
        assume(False)
    on_paper = [(each.net.value, each.vat_percent) for each in price.lines if each.counted]
    on_paper += [(each.net, each.vat_percent) for each in price.adjustments]
    assert sum(net for net, _ in on_paper) == price.totals.net
    for subtotal in price.totals.vat_by_rate:
        assert subtotal.net == sum(net for net, rate in on_paper if rate == subtotal.rate_percent)
    assert price.totals.vat == sum(each.vat for each in price.totals.vat_by_rate)
    assert price.totals.gross == price.totals.net + price.totals.vat
    assert sum(stage.gross for stage in price.stages) == price.totals.gross


@settings(max_examples=150, deadline=None)
@given(several_lines, st.lists(discount, min_size=1, max_size=3))
def test_a_discount_never_takes_more_vat_with_it_than_its_share(lines, discounts) -> None:
    asked = sum(each.net.value for each in lines)
    try:
        found = discount_lines(lines, discounts)
    except Refusal:
        assume(False)
    off = -sum(each.net for each in found)
    assume(off * 10 <= asked * 9)  # nearly nothing left may leave no penny at the lowest rate
    vat = sum(exact_vat(each.net.value, each.vat_percent) for each in lines)
    taken = -sum(exact_vat(each.net, each.vat_percent) for each in found)
    assert taken <= vat * off / asked
    for rate in {each.vat_percent for each in found}:
        left = sum(each.net.value for each in lines if each.vat_percent == rate)
        assert left + sum(each.net for each in found if each.vat_percent == rate) >= 0


@settings(max_examples=60, deadline=None)
@given(
    st.permutations(sorted(EVERY_PART - {Part.INSULATION})[:6]),
    st.lists(st.booleans(), min_size=6, max_size=6),
    discount.filter(lambda each: (each.amount or 0) < 900 and (each.percent or 0) < 99),
)
def test_taking_and_leaving_options_in_any_order_ends_at_the_same_price(order, kept, less) -> None:
    rules, terms = PricingRules(round_to=Decimal(5)), PriceTerms(discounts=(less,))
    price, taken = offer(offered().lines, frozenset(), rules, terms=terms), frozenset()
    for part in order:
        taken |= {part}
        price = offer(price.lines, taken, rules, terms=terms)
    for part, stays in zip(order, kept, strict=True):
        if not stays:
            taken -= {part}
            price = offer(price.lines, taken, rules, terms=terms)
    assert price == offer(offered().lines, taken, rules, terms=terms)


def test_a_discount_that_rounds_the_price_to_nothing_is_refused() -> None:
    terms = PriceTerms(discounts=(Discount(reason="x", percent=Decimal("99.86")),))
    with pytest.raises(Refusal, match="something to pay once the price is rounded"):
        offer(offered().lines, frozenset(), PricingRules(round_to=Decimal(5)), terms=terms)


@pytest.mark.parametrize(
    "changes",
    [{"reason": " "}, {"percent": None}, {"percent": Decimal(100)}, {"percent": Decimal(0)},
     {"amount": Decimal(5)}, {"percent": None, "amount": Decimal("0.001")}],
)  # fmt: skip
def test_a_discount_says_why_and_how_much(changes) -> None:
    with pytest.raises(Refusal):
        Discount(**{"reason": "x", "percent": Decimal(5), **changes})


def test_a_discount_that_leaves_nothing_is_refused_even_with_every_option_left() -> None:
    chosen = choices(parts=EVERY_PART, optional_parts=EVERY_PART, taken_parts=EVERY_PART)
    least = estimate(trussed_loft(), price_book(), replace(chosen, taken_parts=frozenset())).price.totals.net
    too_much = (Discount(reason="x", amount=least),)
    with pytest.raises(Refusal, match="must leave something to pay"):
        estimate(trussed_loft(), price_book(), replace(chosen, discounts=too_much))
    just = (Discount(reason="x", amount=least - 1),)
    assert estimate(trussed_loft(), price_book(), replace(chosen, discounts=just)).price.discounts


def test_the_floor_looks_at_the_price_with_every_option_left() -> None:
    """A discount in pounds weighs most on the smallest price. Common practice, no source."""
    lines = (
        replace(
            line(Part.DECK, Decimal("1000.00"), RATES[2]), cost=replace(offered().cost, value=Decimal(700))
        ),
        replace(
            line(Part.LADDER, Decimal("1000.00"), RATES[2], optional=True),
            cost=replace(offered().cost, value=Decimal(700)),
        ),
    )
    rules = PricingRules(least_margin_percent=Decimal(25))
    terms = PriceTerms(discounts=(Discount(reason="x", amount=Decimal(100)),))
    price = offer(lines, frozenset({Part.LADDER}), rules, terms=terms)
    found = below_floor(price, rules, terms)
    assert price.margin_percent.value == Decimal("26.3")  # (1900 - 1400) / 1900
    assert found is not None
    assert found.in_words == (
        "The margin is 22.2 % if the customer leaves every option, 2.8 below the 25 % that needs no approval "
        "by the owner."
    )
    assert below_floor(price, replace(rules, least_margin_percent=Decimal(22)), terms) is None
