from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.contracts.kind import ContractKind, HowAgreed, contract_rights
from estimating.refusals import Refusal

PRICE = Decimal("1200.00")


@pytest.mark.parametrize(
    ("how", "kind", "by_law"),
    [  # Consumer Contracts Regulations 2013 reg 5; trading standards guidance on quotations decided later
        (HowAgreed.DURING_VISIT, ContractKind.OFF_PREMISES, True),
        (HowAgreed.AFTER_VISIT, ContractKind.ON_PREMISES, False),
        (HowAgreed.WITHOUT_MEETING, ContractKind.DISTANCE, True),
        (HowAgreed.AT_THE_FIRM, ContractKind.ON_PREMISES, False),
    ],
)
def test_where_and_when_yes_was_said_gives_the_kind(how: HowAgreed, kind: ContractKind, by_law: bool) -> None:
    rights = contract_rights(how, price=PRICE)
    assert (rights.kind, rights.cancellable_by_law, rights.full_list) == (kind, by_law, by_law)
    assert rights.cancellable_here
    assert rights.given_anyway is not by_law


@pytest.mark.parametrize("how", HowAgreed)
def test_owner_may_keep_to_the_law_but_never_go_below_it(how: HowAgreed) -> None:
    rights = contract_rights(how, price=PRICE, right_given_anyway=False)
    assert rights.cancellable_here is rights.cancellable_by_law


@pytest.mark.parametrize("how", HowAgreed)
def test_business_has_no_consumer_right(how: HowAgreed) -> None:
    rights = contract_rights(how, price=PRICE, consumer=False)
    assert rights.kind is ContractKind.BUSINESS
    assert not rights.cancellable_here


def test_small_job_agreed_at_home_is_below_the_rules_and_gets_the_right_all_the_same() -> None:
    rights = contract_rights(HowAgreed.DURING_VISIT, price=Decimal("42.00"))
    assert rights.given_anyway
    assert "not more than £42.00" in rights.why


def test_price_below_nothing_is_refused() -> None:
    with pytest.raises(Refusal, match="price"):
        contract_rights(HowAgreed.DURING_VISIT, price=Decimal(-1))
