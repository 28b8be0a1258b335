from __future__ import annotations

from decimal import Decimal
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.price.totals import PricedAmount, totals
from estimating.refusals import Refusal, Refusals
from estimating.ways_to_price import VatRounding

amounts = st.builds(
    PricedAmount,
    st.integers(-1_000_000, 5_000_000).map(lambda pence: Decimal(pence) / 100),
    st.sampled_from([Decimal(0), Decimal(5), Decimal("17.5"), Decimal(20), Decimal("20.0")]),
)
methods = st.sampled_from(VatRounding)


@given(lines=st.lists(amounts, max_size=15), method=methods)
def test_lines_sum_to_totals_on_paper(lines: list[PricedAmount], method: VatRounding) -> None:
    found = totals(lines, method)
    assert found.net == sum(line.net for line in lines)
    assert found.net == sum(subtotal.net for subtotal in found.vat_by_rate)
    assert found.vat == sum(subtotal.vat for subtotal in found.vat_by_rate)
    assert found.gross == found.net + found.vat
    printed = (found.net, found.vat, found.gross, *(subtotal.vat for subtotal in found.vat_by_rate))
    assert all(amount.as_tuple().exponent == -2 for amount in printed)
    assert all(str(amount) != "-0.00" for amount in printed)


@given(lines=st.lists(amounts, max_size=10), method=methods, shuffle=st.randoms())
def test_lines_taken_in_any_order_end_at_the_same_total(
    lines: list[PricedAmount], method: VatRounding, shuffle: Random
) -> None:
    mixed = list(lines)
    shuffle.shuffle(mixed)
    assert totals(mixed, method) == totals(lines, method)


@given(lines=st.lists(amounts, max_size=10), method=methods)
def test_no_method_strays_more_than_a_penny_a_line(lines: list[PricedAmount], method: VatRounding) -> None:
    exact = sum((line.net * line.rate_percent / 100 for line in lines), Decimal(0))
    assert abs(totals(lines, method).vat - exact) <= Decimal("0.01") * max(len(lines), 1)


def test_rates_are_listed_lowest_first_and_once_each() -> None:
    lines = [PricedAmount(Decimal(1), Decimal(rate)) for rate in ("20", "0", "20.0", "5")]
    found = totals(lines, VatRounding.RATE_SUBTOTAL_HALF_UP)
    assert [subtotal.rate_percent for subtotal in found.vat_by_rate] == [0, 5, 20]


def test_nothing_priced_totals_nothing() -> None:
    found = totals([], VatRounding.RATE_SUBTOTAL_HALF_UP)
    assert (found.net, found.vat, found.gross, found.vat_by_rate) == (0, 0, 0, ())


def test_line_with_a_hidden_fraction_of_a_penny_is_refused() -> None:
    with pytest.raises(Refusal, match="whole pence") as refused:
        totals([PricedAmount(Decimal("1.005"), Decimal(20))], VatRounding.LINE_TO_THE_PENNY)
    assert refused.value.field == "amounts[0].net"


def test_every_impossible_line_is_refused_at_once() -> None:
    wrong = [
        PricedAmount(Decimal("NaN"), Decimal(20)),
        PricedAmount(Decimal("Infinity"), Decimal(20)),
        PricedAmount(Decimal(1), Decimal(-1)),
        PricedAmount(Decimal(1), Decimal(101)),
    ]
    with pytest.raises(Refusals) as refused:
        totals(wrong, VatRounding.RATE_SUBTOTAL_HALF_UP)
    assert [each.field for each in refused.value.each] == [
        "amounts[0].net",
        "amounts[1].net",
        "amounts[2].rate_percent",
        "amounts[3].rate_percent",
    ]


def test_totals_open_to_their_working() -> None:
    lines = [PricedAmount(Decimal("704.88"), Decimal(20)), PricedAmount(Decimal("300.00"), Decimal(0))]
    found = totals(lines, VatRounding.INVOICE_ROUNDED_DOWN)
    shown = {figure.name: figure.value for figure in found.figures}
    assert shown == {
        "net at 0 %": Decimal("300.00"),
        "VAT at 0 %": Decimal("0.00"),
        "net at 20 %": Decimal("704.88"),
        "VAT at 20 %": Decimal("140.97"),
        "net": found.net,
        "VAT": found.vat,
        "total with VAT": found.gross,
    }
    vat_at_20 = next(figure for figure in found.figures if figure.name == "VAT at 20 %")
    assert "the total VAT down to the penny" in [given.value for given in vat_at_20.working.inputs]
