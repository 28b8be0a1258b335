from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.amounts import to_penny
from estimating.price.margin import margin_of, mark_up_of, offered, selling_price
from estimating.refusals import Refusal
from estimating.ways_to_price import MarginKind

costs = st.decimals(Decimal("0.01"), Decimal(100_000), places=2)
percents = st.decimals(Decimal(0), Decimal("99"), places=2)
nets = st.integers(-1_000_000, 10_000_000).map(lambda pence: Decimal(pence) / 100)
steps = st.sampled_from([Decimal("0.01"), Decimal("0.50"), Decimal(1), Decimal(5), Decimal(10)])

A_BILLIONTH = Decimal("1E-9")


def test_margin_is_on_the_price_and_mark_up_on_the_cost() -> None:
    with_margin = selling_price(Decimal(100), kind=MarginKind.MARGIN, percent=Decimal(25))
    with_mark_up = selling_price(Decimal(100), kind=MarginKind.MARK_UP, percent=Decimal(25))
    assert to_penny(with_margin.value) == Decimal("133.33")
    assert with_mark_up.value == Decimal(125)


@given(cost=costs, percent=percents)
def test_margin_asked_for_is_the_margin_earned(cost: Decimal, percent: Decimal) -> None:
    price = selling_price(cost, kind=MarginKind.MARGIN, percent=percent).value
    assert abs(margin_of(cost, price).value - percent) < A_BILLIONTH


@given(cost=costs, percent=percents)
def test_mark_up_asked_for_is_the_mark_up_earned(cost: Decimal, percent: Decimal) -> None:
    price = selling_price(cost, kind=MarginKind.MARK_UP, percent=percent).value
    assert abs(mark_up_of(cost, price).value - percent) < A_BILLIONTH


@given(cost=costs, percent=percents)
def test_same_percentage_as_margin_never_sells_lower_than_as_mark_up(cost: Decimal, percent: Decimal) -> None:
    margin = selling_price(cost, kind=MarginKind.MARGIN, percent=percent).value
    mark_up = selling_price(cost, kind=MarginKind.MARK_UP, percent=percent).value
    assert margin >= mark_up - A_BILLIONTH


def test_price_below_cost_has_a_margin_below_nothing() -> None:
    assert margin_of(Decimal(120), Decimal(100)).value == -20


@pytest.mark.parametrize("percent", ["100", "150"])
def test_margin_of_the_whole_price_is_refused(percent: str) -> None:
    with pytest.raises(Refusal, match="less than 100"):
        selling_price(Decimal(100), kind=MarginKind.MARGIN, percent=Decimal(percent))


def test_mark_up_may_be_the_whole_cost_and_more() -> None:
    assert selling_price(Decimal(100), kind=MarginKind.MARK_UP, percent=Decimal(150)).value == 250


@pytest.mark.parametrize(("cost", "percent", "field"), [("-1", "20", "cost"), ("1", "-20", "percent")])
def test_cost_and_percentage_below_nothing_are_refused(cost: str, percent: str, field: str) -> None:
    with pytest.raises(Refusal) as refused:
        selling_price(Decimal(cost), kind=MarginKind.MARK_UP, percent=Decimal(percent))
    assert refused.value.field == field


def test_share_of_nothing_is_refused() -> None:
    with pytest.raises(Refusal, match="price"):
        margin_of(Decimal(10), Decimal(0))
    with pytest.raises(Refusal, match="cost"):
        mark_up_of(Decimal(0), Decimal(10))


@pytest.mark.parametrize(
    ("net", "step", "difference"),
    [
        ("1234.56", "0.01", "0.00"),
        ("1234.56", "1", "0.44"),
        ("1234.49", "1", "-0.49"),
        ("1234.56", "5", "0.44"),
        ("1232.49", "5", "-2.49"),
        ("1232.50", "5", "2.50"),
    ],
)
def test_offered_price_is_rounded_on_a_line_of_its_own(net: str, step: str, difference: str) -> None:
    assert str(offered(Decimal(net), Decimal(step)).value) == difference


@given(net=nets, step=steps)
def test_offered_price_is_a_multiple_of_the_step_and_near(net: Decimal, step: Decimal) -> None:
    difference = offered(net, step).value
    assert (net + difference) % step == 0
    assert abs(difference) <= step / 2


@pytest.mark.parametrize(
    ("net", "step", "field"), [("1.005", "1", "net"), ("1", "0", "step"), ("1", "0.001", "step")]
)
def test_offered_price_that_cannot_be_paid_is_refused(net: str, step: str, field: str) -> None:
    with pytest.raises(Refusal) as refused:
        offered(Decimal(net), Decimal(step))
    assert refused.value.field == field
