from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.price.apportionment import (
    by_cost_plus_uplift,
    by_percentage,
    by_selling_prices,
    by_share_of_costs,
)
from estimating.refusals import Refusal

prices = st.integers(0, 500_000).map(lambda pence: Decimal(pence) / 100)


@given(parts=st.lists(prices, min_size=1, max_size=12).filter(any), deal=prices)
def test_shares_of_a_deal_add_up_to_it(parts: list[Decimal], deal: Decimal) -> None:
    shares = by_selling_prices(parts, deal)
    assert sum(shares) == deal
    assert len(shares) == len(parts)


@given(parts=st.lists(prices, min_size=1, max_size=60).filter(any), deal=prices)
def test_no_share_of_a_deal_is_a_penny_away_from_its_due(parts: list[Decimal], deal: Decimal) -> None:
    for price, share in zip(parts, by_selling_prices(parts, deal), strict=True):
        due = Fraction(price) * Fraction(deal) / Fraction(sum(parts))
        assert abs(Fraction(share) - due) < Fraction(1, 100)
        assert share >= 0


@pytest.mark.parametrize("deal", ["-10", "10.005"])
def test_a_deal_that_nobody_can_pay_is_refused(deal: str) -> None:
    with pytest.raises(Refusal, match="whole pence"):
        by_selling_prices([Decimal(1)], Decimal(deal))


@pytest.mark.parametrize(
    ("income", "part", "sample", "zero_rated"),
    [
        ("13781.90", 195, 1716, "1566.13"),
        ("4160.79", 150, 996, "626.63"),
        ("12011.65", 405, 1134, "4289.88"),
        ("2909.35", 169, 806, "610.03"),
    ],
)
def test_a_share_at_an_exact_half_penny_goes_up(income: str, part: int, sample: int, zero_rated: str) -> None:
    """Arithmetic: each is an odd number of half pence, which a share cut to a percentage would miss."""
    split = by_percentage(
        Decimal(income),
        zero_rated_of_sample=Decimal(part),
        sample_income=Decimal(sample),
        standard_percent=Decimal(20),
    )
    exact = Fraction(income) * part / sample
    assert (exact * 200).denominator == 1
    assert split.zero_rated == Decimal(zero_rated)


def test_a_share_of_all_costs_splits_as_the_manual_does() -> None:
    """HMRC internal manual VATVAL04100, the example by costs, second hand; it cuts the tax to 44 266.66."""
    split = by_share_of_costs(
        Decimal(400_000),
        zero_rated_cost=Decimal(42_000),
        uplift_percent=Decimal(100),
        total_costs=Decimal(250_000),
        standard_percent=Decimal(20),
    )
    assert (split.zero_rated, split.standard_rated) == (134_400, 265_600)
    assert split.output_tax == Decimal("44266.67")


def test_left_over_pennies_go_where_most_was_cut() -> None:
    thirds = by_selling_prices([Decimal(1), Decimal(1), Decimal(1)], Decimal(10))
    assert thirds == (Decimal("3.34"), Decimal("3.33"), Decimal("3.33"))
    sixths = by_selling_prices([Decimal(1), Decimal(4), Decimal(1)], Decimal(10))
    assert sixths == (Decimal("1.67"), Decimal("6.67"), Decimal("1.66"))


@given(income=prices, cost=prices, uplift=st.integers(0, 100))
def test_both_parts_add_up_to_the_price(income: Decimal, cost: Decimal, uplift: int) -> None:
    try:
        split = by_cost_plus_uplift(
            income, zero_rated_cost=cost, uplift_percent=Decimal(uplift), standard_percent=Decimal(20)
        )
    except Refusal:
        assert cost * (100 + uplift) / 100 > income - Decimal("0.005")
        return
    assert split.zero_rated + split.standard_rated == income
    assert 0 <= split.output_tax <= split.standard_rated


def test_split_opens_to_its_working() -> None:
    split = by_percentage(
        Decimal(600), zero_rated_of_sample=Decimal(1), sample_income=Decimal(4), standard_percent=Decimal(20)
    )
    assert (split.zero_rated, split.standard_rated, split.output_tax) == (150, 450, 75)
    values = {given.name: given.value for given in split.working.inputs}
    assert values == {"price": 600, "zero-rated share of the sample": 25, "rate": 20}


@pytest.mark.parametrize(
    ("zero_rated", "sample", "field"), [(1, 0, "sample_income"), (5, 4, "zero_rated_of_sample")]
)
def test_impossible_sample_is_refused(zero_rated: int, sample: int, field: str) -> None:
    with pytest.raises(Refusal) as refused:
        by_percentage(
            Decimal(600),
            zero_rated_of_sample=Decimal(zero_rated),
            sample_income=Decimal(sample),
            standard_percent=Decimal(20),
        )
    assert refused.value.field == field


@pytest.mark.parametrize("parts", [[], [0, 0], [5, -1]])
def test_deal_of_nothing_cannot_be_shared(parts: list[int]) -> None:
    with pytest.raises(Refusal, match="prices"):
        by_selling_prices([Decimal(part) for part in parts], Decimal(10))
