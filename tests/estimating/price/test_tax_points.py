from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.nations import Nation
from estimating.price.tax_points import balance_tax_point, balance_vat_rate, deposit_tax_point
from estimating.price.vat import CONFIRM, VatRate
from estimating.ways_to_price import SupplyMode, VatClass

COMPLETED = date(2027, 3, 30)


def insulation_balance(invoiced: date | None, *, rate_of_completion: bool = False) -> VatRate:
    return balance_vat_rate(
        VatClass.ENERGY_SAVING,
        nation=Nation.ENGLAND,
        mode=SupplyMode.SUPPLY_AND_INSTALL_RESIDENTIAL,
        completed=COMPLETED,
        invoiced=invoiced,
        rate_of_completion=rate_of_completion,
    )


@pytest.mark.parametrize(
    ("days_after", "moves"), [(-5, True), (0, True), (1, True), (14, True), (15, False), (60, False)]
)
def test_invoice_moves_the_tax_point_up_to_the_fourteenth_day(days_after: int, moves: bool) -> None:
    invoiced = COMPLETED + timedelta(days_after)
    assert balance_tax_point(completed=COMPLETED, invoiced=invoiced).on == (invoiced if moves else COMPLETED)


def test_deposit_is_taxed_when_received_or_invoiced_whichever_is_first() -> None:
    received = date(2027, 3, 20)
    assert deposit_tax_point(received=received).on == received
    assert deposit_tax_point(received=received, invoiced=date(2027, 3, 10)).on == date(2027, 3, 10)
    assert deposit_tax_point(received=received, invoiced=date(2027, 3, 25)).on == received


def test_rate_says_which_day_and_rule_gave_it() -> None:
    by_invoice = insulation_balance(date(2027, 4, 8))
    by_choice = insulation_balance(date(2027, 4, 8), rate_of_completion=True)
    assert by_invoice.percent == 5
    assert by_invoice.reason.startswith("Rate of 8 April 2027: the VAT invoice came within 14 days")
    assert by_choice.percent == 0
    assert "s.88" in by_choice.reason
    assert by_invoice.reason.endswith(CONFIRM)
    assert by_choice.reason.endswith(CONFIRM)


def test_unregistered_firm_has_no_rate_to_choose() -> None:
    rate = balance_vat_rate(
        VatClass.ENERGY_SAVING,
        nation=Nation.WALES,
        mode=SupplyMode.SUPPLY_AND_INSTALL_RESIDENTIAL,
        completed=COMPLETED,
        invoiced=date(2027, 4, 8),
        registered=False,
    )
    assert rate.percent == 0
    assert "not registered" in rate.reason


@given(completed=st.dates(date(2022, 4, 1), date(2030, 1, 1)), days=st.none() | st.integers(-60, 60))
def test_tax_point_is_the_completion_or_the_invoice_and_never_later_than_two_weeks(
    completed: date, days: int | None
) -> None:
    invoiced = None if days is None else completed + timedelta(days)
    point = balance_tax_point(completed=completed, invoiced=invoiced)
    assert point.on in (completed, invoiced)
    assert point.on <= completed + timedelta(14)
    assert point.why
