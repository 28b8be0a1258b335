from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.contracts.owed import payable_for_part, settlement
from estimating.refusals import Refusals

pounds = st.integers(0, 5_000_000).map(lambda pence: Decimal(pence) / 100)
shares = st.integers(0, 1000).map(lambda thousandths: Decimal(thousandths) / 1000)


@given(price=pounds, share=shares, paid=pounds)
def test_what_was_paid_covers_what_is_owed_and_what_goes_back(
    price: Decimal, share: Decimal, paid: Decimal
) -> None:
    payable = payable_for_part(price, share, information_given=True, early_start_requested=True)
    settled = settlement(payable, paid=paid, told_on=date(2026, 12, 1))
    assert 0 <= payable.value <= price
    assert settled.paid + settled.still_to_pay == payable.value + settled.to_refund
    assert 0 in (settled.to_refund, settled.still_to_pay)
    assert settled.refund_by == date(2026, 12, 15)


@pytest.mark.parametrize(("informed", "requested"), [(False, True), (True, False), (False, False)])
def test_without_information_or_request_nothing_is_owed_and_all_goes_back(
    informed: bool, requested: bool
) -> None:
    payable = payable_for_part(
        Decimal(1200), Decimal(1), information_given=informed, early_start_requested=requested
    )
    settled = settlement(payable, paid=Decimal("300.00"), told_on=date(2026, 12, 1))
    assert (payable.value, settled.to_refund, settled.still_to_pay) == (0, 300, 0)
    assert payable.working.formula.startswith("nothing is owed")
    assert ("early" in payable.working.formula) is informed  # who was not told owes nothing for that alone


def test_impossible_share_and_price_are_refused_at_once() -> None:
    with pytest.raises(Refusals) as refused:
        payable_for_part(Decimal(-1), Decimal("1.1"), information_given=True, early_start_requested=True)
    assert [each.field for each in refused.value.each] == ["price_with_vat", "fraction_supplied"]
