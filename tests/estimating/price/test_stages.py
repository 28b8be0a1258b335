"""Deposits and stages add up to the price to the penny, rate by rate, and say when their VAT falls."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.price.stages import refuse_stages_beyond, stage_amounts
from estimating.price.totals import PricedAmount, Totals, totals
from estimating.price_terms import Stage, StageDue
from estimating.refusals import Refusal
from estimating.ways_to_price import VatRounding

HALF_UP = VatRounding.RATE_SUBTOTAL_HALF_UP
pounds = st.decimals(min_value="0.01", max_value=9000, places=2)
any_totals = st.builds(
    lambda lines, method, reverse: totals(
        [PricedAmount(net, Decimal(rate)) for net, rate in lines], method, reverse_charged=reverse
    ),
    st.lists(st.tuples(pounds, st.sampled_from([0, 5, 20])), min_size=1, max_size=8),
    st.sampled_from(VatRounding),
    st.booleans(),
)
any_stage = st.one_of(
    st.decimals(min_value="0.01", max_value=100, places=2).map(
        lambda share: Stage(due=StageDue.ACCEPTANCE, percent=share)
    ),
    pounds.map(lambda amount: Stage(on=date(2027, 3, 1), amount=amount)),
)


def of(*lines: tuple[str, int]) -> Totals:
    return totals([PricedAmount(Decimal(net), Decimal(rate)) for net, rate in lines], HALF_UP)


@settings(max_examples=200, deadline=None)
@given(any_totals, st.lists(any_stage, max_size=5))
def test_stages_add_up_to_the_totals_to_the_penny(asked: Totals, stages: list[Stage]) -> None:
    found = stage_amounts(asked, stages)
    assert sum(each.net for each in found) == asked.net
    assert sum(each.vat for each in found) == asked.vat
    assert sum(each.gross for each in found) == asked.gross
    for subtotal in asked.vat_by_rate:
        parts = [part for each in found for part in each.vat_by_rate]
        mine = [part for part in parts if part.rate_percent == subtotal.rate_percent]
        assert sum(part.net for part in mine) == subtotal.net
        assert sum(part.vat for part in mine) == subtotal.vat
        assert all(part.net >= 0 and part.vat >= 0 for part in mine)
    for each in found:
        assert each.gross == each.net + each.vat > 0
        assert [each.is_rest for each in found].count(True) <= 1
    assert not any(each.is_rest for each in found[:-1])


@settings(max_examples=100, deadline=None)
@given(any_totals, st.decimals(min_value=1, max_value=99, places=2))
def test_a_deposits_vat_is_its_share_of_each_rates_vat_within_a_penny(asked: Totals, share: Decimal) -> None:
    deposit = stage_amounts(asked, [Stage(due=StageDue.ACCEPTANCE, percent=share)])[0]
    whole = {each.rate_percent: each for each in asked.vat_by_rate}
    for part in deposit.vat_by_rate:
        exact = whole[part.rate_percent].vat * deposit.gross / asked.gross
        assert abs(part.vat - exact) <= Decimal("0.0151")  # a penny of the share and half a penny of its VAT


def test_a_quarter_when_accepted_and_five_hundred_at_the_start() -> None:
    """1000 at 20 % and 300 at 0 %, 1500 with VAT: 375, 500 and 625. Common practice, no source."""
    found = stage_amounts(
        of(("1000.00", 20), ("300.00", 0)),
        [Stage(due=StageDue.ACCEPTANCE, percent=Decimal(25)), Stage(due=StageDue.START, amount=Decimal(500))],
    )
    assert [(each.when, each.gross, each.vat) for each in found] == [
        ("When you accept", Decimal("375.00"), Decimal("50.00")),
        ("On the day the work starts", Decimal("500.00"), Decimal("66.67")),
        (
            "When the work is complete and you have walked through it with us",
            Decimal("625.00"),
            Decimal("83.33"),
        ),
    ]


def test_the_tax_point_of_a_deposit_is_the_day_of_the_money_and_of_the_rest_completion() -> None:
    """HMRC internal manual VATTOS5105, VATTOS3600."""
    stages = [Stage(on=date(2027, 3, 1), amount=Decimal(50))]
    first, rest = stage_amounts(of(("100.00", 20)), stages)
    assert first.when == "On 1 March 2027"
    assert "the day it comes in" in first.tax_point
    assert "the work is complete" in rest.tax_point
    assert "14 days" in rest.tax_point


def test_without_stages_all_is_the_rest() -> None:
    (rest,) = stage_amounts(of(("100.00", 20)), [])
    assert (rest.is_rest, rest.net, rest.vat, rest.gross) == (True, 100, 20, 120)


def test_an_option_left_never_lets_a_stage_ask_more_than_the_price() -> None:
    (only,) = stage_amounts(of(("100.00", 20)), [Stage(due=StageDue.START, amount=Decimal(500))])
    assert (only.gross, only.is_rest) == (120, False)


def test_stages_that_ask_more_than_the_price_are_refused() -> None:
    asked = of(("100.00", 20))
    stages = [
        Stage(due=StageDue.ACCEPTANCE, percent=Decimal(50)),
        Stage(due=StageDue.START, amount=Decimal(61)),
    ]
    with pytest.raises(Refusal, match=r"must not ask more than the price: £121\.00 of £120\.00"):
        refuse_stages_beyond(asked, stages)
    refuse_stages_beyond(asked, [Stage(due=StageDue.ACCEPTANCE, percent=Decimal(100))])


@pytest.mark.parametrize(
    "changes",
    [
        {"due": None},
        {"on": date(2027, 1, 1)},
        {"percent": None},
        {"amount": Decimal(5)},
        {"percent": Decimal(101)},
    ],
)
def test_a_stage_has_one_time_and_one_size(changes) -> None:
    with pytest.raises(Refusal):
        Stage(**{"due": StageDue.START, "percent": Decimal(10), **changes})
