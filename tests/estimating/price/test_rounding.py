from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.price.rounding import (
    LineRounding,
    UnitRounding,
    exact_vat,
    round_line_vat,
    round_unit_vat,
    to_step,
    vat_from_gross,
    vat_of_lines,
    vat_of_rates,
)
from estimating.refusals import Refusal
from estimating.ways_to_price import VatRounding

pence = st.integers(-5_000_000, 5_000_000).map(lambda amount: Decimal(amount) / 100)
rates = st.sampled_from([Decimal(0), Decimal(5), Decimal("17.5"), Decimal(20)])


@pytest.mark.parametrize(
    ("method", "pence_in", "pence_out"),
    [
        (LineRounding.DOWN_TO_TENTH_PENNY, "86.79", "86.7"),
        (LineRounding.NEAREST_PENNY, "86.49", "86"),
        (LineRounding.NEAREST_PENNY, "86.50", "87"),
        (LineRounding.NEAREST_HALF_PENNY, "86.76", "87"),
        (LineRounding.NEAREST_HALF_PENNY, "86.74", "86.5"),
        (LineRounding.NEAREST_HALF_PENNY, "86.25", "86.5"),
        (LineRounding.NEAREST_HALF_PENNY, "86.24", "86"),
    ],
)
def test_line_vat_is_rounded_to_its_step(method: LineRounding, pence_in: str, pence_out: str) -> None:
    assert round_line_vat(Decimal(pence_in) / 100, method) * 100 == Decimal(pence_out)


@pytest.mark.parametrize(
    ("method", "gbp_in", "gbp_out"),
    [
        (UnitRounding.FOUR_PLACES_THEN_THREE, "0.00244", "0.002"),
        (UnitRounding.FOUR_PLACES_THEN_THREE, "0.0025", "0.003"),
        (UnitRounding.NEAREST_HALF_PENNY_NEVER_NIL, "0.0001", "0.005"),
        (UnitRounding.NEAREST_HALF_PENNY_NEVER_NIL, "0.0124", "0.010"),
        (UnitRounding.NEAREST_PENNY_NEVER_NIL, "0.0024", "0.01"),
        (UnitRounding.NEAREST_PENNY_NEVER_NIL, "-0.0024", "-0.01"),
        (UnitRounding.NEAREST_PENNY_NEVER_NIL, "0", "0"),
    ],
)
def test_unit_vat_is_never_rounded_to_nil(method: UnitRounding, gbp_in: str, gbp_out: str) -> None:
    assert round_unit_vat(Decimal(gbp_in), method) == Decimal(gbp_out)


def test_total_cut_to_the_penny_loses_less_than_a_penny_over_all_rates() -> None:
    # 0.0095 + 0.0095 of exact VAT is 0.019: cutting each rate alone would charge nothing.
    vat = vat_of_rates(
        {Decimal(5): [Decimal("0.19")], Decimal(19): [Decimal("0.05")]}, VatRounding.INVOICE_ROUNDED_DOWN
    )
    assert sum(vat.values()) == Decimal("0.01")


@given(nets=st.dictionaries(rates, st.lists(pence, max_size=6), max_size=4))
def test_invoice_rounded_down_is_the_exact_vat_cut_to_the_penny(nets: dict[Decimal, list[Decimal]]) -> None:
    exact = {rate: exact_vat(sum(lines, Decimal(0)), rate) for rate, lines in nets.items()}
    found = vat_of_rates(nets, VatRounding.INVOICE_ROUNDED_DOWN)
    short_by = abs(sum(exact.values(), Decimal(0))) - abs(sum(found.values(), Decimal(0)))
    assert 0 <= short_by < Decimal("0.01")
    assert all(abs(found[rate] - exact[rate]) < Decimal("0.01") for rate in nets)


@given(nets=st.lists(pence, max_size=12), rate=rates)
def test_subtotal_method_is_within_half_a_penny_of_exact(nets: list[Decimal], rate: Decimal) -> None:
    found = vat_of_lines(nets, rate, VatRounding.RATE_SUBTOTAL_HALF_UP)
    assert abs(found - exact_vat(sum(nets, Decimal(0)), rate)) <= Decimal("0.005")


@given(nets=st.lists(pence, max_size=12), rate=rates, method=st.sampled_from(VatRounding))
def test_credit_undoes_its_charge_exactly(nets: list[Decimal], rate: Decimal, method: VatRounding) -> None:
    assert vat_of_lines([-net for net in nets], rate, method) == -vat_of_lines(nets, rate, method)


@given(gross=pence, rate=rates)
def test_price_with_vat_comes_apart_and_together_again(gross: Decimal, rate: Decimal) -> None:
    apart = vat_from_gross(gross, rate)
    assert apart.net + apart.vat == gross
    assert abs(exact_vat(apart.net, rate) - apart.vat) <= Decimal("0.01")


def test_rate_below_nothing_is_refused() -> None:
    with pytest.raises(Refusal, match="rate_percent"):
        vat_from_gross(Decimal(100), Decimal(-1))


def test_step_of_nothing_is_refused() -> None:
    with pytest.raises(Refusal, match="step"):
        to_step(Decimal(1), Decimal(0))


def test_rounding_down_is_for_business_customers_only() -> None:
    assert VatRounding.INVOICE_ROUNDED_DOWN.business_customers_only
    assert not VatRounding.RATE_SUBTOTAL_HALF_UP.business_customers_only
    assert not VatRounding.LINE_TO_THE_PENNY.business_customers_only
