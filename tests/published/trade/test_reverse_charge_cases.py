"""The domestic reverse charge and VAT registration against published cases; each row has its source."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from estimating.price.reverse_charge import reverse_charge, reverse_charge_totals
from estimating.price.totals import PricedAmount
from estimating.price.vat_registration import registration_duty
from tests.published.trade.cases import Case, cases_in

CASES = cases_in("reverse_charge.csv")


@pytest.mark.parametrize("case", [c for c in CASES if c.kind == "reverse_charge"], ids=lambda case: case.name)
def test_published_reverse_charge(case: Case) -> None:
    given = case.inputs
    found = reverse_charge(
        supplier_registered=given["supplier_vat_registered"],
        customer_registered=given["customer_vat_registered"],
        reported_in_cis=given["reported_in_CIS"],
        end_user_notice=given["end_user_or_intermediary_notice"],
        rate_percent=Decimal(given["rate"]),
    )
    assert {"applies": found.applies} == case.expected, case.source


@pytest.mark.parametrize(
    "case", [c for c in CASES if c.kind == "reverse_charge_invoice"], ids=lambda case: case.name
)
def test_published_invoice_under_the_reverse_charge(case: Case) -> None:
    found = reverse_charge_totals([PricedAmount(Decimal(case.inputs["net"]), Decimal(case.inputs["rate"]))])
    assert {
        "amount_due": str(found.amount_due),
        "vat_to_be_accounted_by_customer": str(found.customer_accounts_for),
    } == case.expected, case.source


@pytest.mark.parametrize("case", cases_in("vat_registration.csv"), ids=lambda case: case.name)
def test_published_registration(case: Case) -> None:
    found = registration_duty(
        Decimal(case.inputs["rolling_12m"]), date.fromisoformat(case.inputs["month_end"])
    )
    answer = {
        "must_register": found.must_register,
        "notify_by": found.notify_by and found.notify_by.isoformat(),
        "effective": found.effective and found.effective.isoformat(),
    }
    assert {key: answer[key] for key in case.expected} == case.expected, case.source
