"""What a customer is told of their rights, by the kind of contract and what the firm gives."""

from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.contracts.kind import ContractKind, HowAgreed
from estimating.published.contract_information import INFORMATION
from jobs.documents.rights import rights_context
from jobs.quotes.rights.told import rights_of, was_told
from tests.jobs.quotes.rights.conftest import address

pytestmark = pytest.mark.django_db
# Consumer Contracts Regulations 2013 (SI 2013/3134) reg 5, 10, 13, 29 and Schedules 2 and 3.


@pytest.mark.parametrize(
    ("how_agreed", "kind", "by_law"),
    [
        (HowAgreed.WITHOUT_MEETING, ContractKind.DISTANCE, True),
        (HowAgreed.DURING_VISIT, ContractKind.OFF_PREMISES, True),
        (HowAgreed.AFTER_VISIT, ContractKind.ON_PREMISES, False),
        (HowAgreed.AT_THE_FIRM, ContractKind.ON_PREMISES, False),
    ],
)
def test_every_home_customer_may_cancel_unless_the_firm_says_otherwise(told, how_agreed, kind, by_law):
    rights = rights_of(told(how_agreed))
    assert (rights.kind, rights.by_law, rights.cancellable) == (kind, by_law, True)
    strict = rights_of(told(how_agreed, right_to_cancel_anyway=False))
    assert strict.cancellable is by_law


def test_nobody_told_means_no_meeting_which_gives_the_right(offer):
    assert rights_of(offer).kind is ContractKind.DISTANCE
    assert rights_of(offer).cancellable


def test_a_business_is_told_nothing_of_it(offer, told):
    customer = offer.quote.property.customer
    customer.kind = "business"
    customer.save()
    rights = rights_of(told())
    assert (rights.kind, rights.cancellable, rights.information) == (ContractKind.BUSINESS, False, ())
    assert rights.statements == [rights.scope_statement]


def test_the_form_of_the_law_carries_the_firm_and_its_licence(offer, firm):
    rights = rights_of(offer)
    assert rights.form[0] == "To Quillfeather Lofts, 2 Sawpit Lane, Ambleford, office@example.com:"
    assert "Contains public sector information licensed under the Open Government Licence v3.0" in (
        rights.acknowledgement
    )
    assert not any("{" in words for words in (*rights.form, *rights.instructions, *rights.effects))


@pytest.mark.parametrize(
    ("registered", "words"),
    [(True, "with every tax in it"), (False, "no VAT is added: we are not registered for it")],
)
def test_the_price_is_told_with_its_tax_and_without_one_that_is_not_charged(offer, told, registered, words):
    offer.edition.vat_registered = registered
    offer.edition.save()
    [price] = [each.told for each in rights_of(told()).information if each.item == "f"]
    assert words in price


def test_the_period_is_told_both_ways(offer):
    period = [words for words in rights_of(offer).instructions if "will expire after 14 days" in words]
    assert len(period) == 2
    assert "conclusion of the contract" in period[0]
    assert "possession of the last good" in period[1]


def test_every_item_of_the_list_that_applies_is_told_in_words(offer):
    given = {each.item: each.told for each in rights_of(offer).information}
    assert set(given) == {each.item for each in INFORMATION if each.usual}
    assert all(given.values())
    assert f"£{offer.total:,.2f}" in given["f"]


def test_the_owner_writes_the_words(told):
    rights = rights_of(told(how_to_cancel="Ring Isolde.", complaints="Write to Isolde."))
    given = {each.item: each.told for each in rights.information}
    assert rights.how_to_cancel == "Ring Isolde."
    assert "Ring Isolde." in given["l"]
    assert given["k"] == "Write to Isolde."


def test_what_was_told_does_not_change_with_the_firms_settings(offer, firm):
    before = rights_context(offer)
    firm.how_to_cancel, firm.right_to_cancel_anyway, firm.address = "Otherwise.", False, "Elsewhere"
    firm.save()
    assert rights_context(offer) == before


def test_a_quote_issued_before_rights_were_kept_can_still_be_read(offer):
    del offer.issued["rights"]
    offer.save()
    assert not was_told(offer)
    rights = rights_of(offer)
    assert rights.cancellable
    assert "Quillfeather Lofts" in rights.form[0]


def test_the_page_shows_form_list_and_instructions_before_anything_is_accepted(offer, phone):
    page = phone.get(address("quote", offer)).content.decode()
    for words in (
        "You have the right to cancel this contract within 14 days without giving any reason.",
        "Model cancellation form",
        "Open Government Licence",
        "Right to cancel: conditions, time limit, procedure",
    ):
        assert words in page, words


def test_a_contract_without_the_right_says_so_where_it_is_accepted(told, phone):
    offer = told(HowAgreed.AFTER_VISIT, right_to_cancel_anyway=False)
    page = phone.get(address("accept", offer)).content.decode()
    assert "no right to change my mind: the quotation was left or sent" in page
    assert 'name="early_start"' not in page
    assert "Model cancellation form" not in phone.get(address("quote", offer)).content.decode()


def test_a_price_of_42_pounds_is_too_small_for_the_rules_of_a_visit(told, offer):
    # reg 7(4) and 27(3): not more than £42
    offer.total = Decimal("42.00")
    assert not rights_of(told(HowAgreed.DURING_VISIT)).by_law
    offer.total = Decimal("42.01")
    assert rights_of(told(HowAgreed.DURING_VISIT)).by_law
