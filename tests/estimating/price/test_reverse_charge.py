from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.price.reverse_charge import reverse_charge, reverse_charge_totals
from estimating.price.totals import PricedAmount
from estimating.price.vat import CONFIRM

ALL = {
    "supplier_registered": True,
    "customer_registered": True,
    "reported_in_cis": True,
    "end_user_notice": False,
    "rate_percent": Decimal(5),
}


def test_reverse_charge_reaches_insulation_once_it_carries_five_per_cent() -> None:
    assert reverse_charge(**ALL).applies
    assert not reverse_charge(**{**ALL, "rate_percent": Decimal(0)}).applies


@pytest.mark.parametrize(
    ("name", "value", "word"),
    [
        ("supplier_registered", False, "firm"),
        ("customer_registered", False, "customer is not registered"),
        ("reported_in_cis", False, "scheme"),
        ("end_user_notice", True, "end user"),
        ("rate_percent", Decimal(0), "no VAT"),
    ],
)
def test_each_hindrance_by_itself_keeps_the_usual_rules_and_says_so(
    name: str, value: bool | Decimal, word: str
) -> None:
    found = reverse_charge(**{**ALL, name: value})
    assert not found.applies
    assert word in found.why
    assert found.why.endswith(CONFIRM)


def test_wording_carries_the_vat_of_all_rates() -> None:
    lines = [PricedAmount(Decimal("1000.00"), Decimal(20)), PricedAmount(Decimal("100.00"), Decimal(5))]
    found = reverse_charge_totals(lines)
    assert (found.amount_due, found.customer_accounts_for) == (1100, 205)
    assert "£205.00" in found.wording
