"""What is owed for a cancelled contract is found on the link, whatever is offered since."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.urls import reverse

from jobs.quotes.customer.links import make_link
from jobs.quotes.drafts.services import next_revision
from jobs.quotes.models import Revision
from jobs.quotes.rights.cancelling import cancel_contract, settle_cancellation
from jobs.quotes.rights.models import Cancellation
from tests.jobs.offers import NOT_A_PAPER, make_offer
from tests.jobs.quotes.rights.conftest import NOBODY, accept, address

pytestmark = pytest.mark.django_db


def settlement_of(revision: Revision, letter: str = "A") -> str:
    return reverse("customer_settlement", args=[revision.quote.number, letter])


@pytest.fixture
def cancelled(offer, phone) -> Cancellation:
    return cancel_contract(accept(offer), name_typed="Odile Pemberwick", evidence=NOBODY)


@pytest.fixture
def newer(cancelled, edition, office) -> Revision:
    """Return revision B of the quote, on offer after the contract of revision A was cancelled."""
    first = cancelled.decision.revision
    revision = next_revision(first.quote, by=office)
    revision.issued, revision.total, revision.paper_sha256 = first.issued, first.total, NOT_A_PAPER
    revision.valid_until, revision.issued_at = first.valid_until, first.issued_at
    revision.state = Revision.State.ISSUED
    revision.save()
    return revision


def test_the_new_revision_leads_to_what_is_owed_for_the_cancelled_one(newer, cancelled, office, client):
    client.get(reverse("customer_exchange", args=[make_link(newer, by=office)]))
    shown = client.get(address("quote", newer)).content.decode()
    assert "revision B" in shown
    assert "The contract of revision A was cancelled on" in shown
    assert settlement_of(newer) in shown
    before = client.get(settlement_of(newer)).content.decode()
    assert "Whatever you have paid comes back by" in before
    settle_cancellation(cancelled, share_done=Decimal(0), paid=Decimal("312.50"), by=office)
    after = client.get(settlement_of(newer)).content.decode()
    assert "revision A · cancelled" in after
    assert "£312.50, by" in after
    assert address("quote", newer) in after


def test_the_settlement_has_a_page_of_its_own_before_anything_newer_is_offered(cancelled, offer, phone):
    assert "What is owed" in phone.get(settlement_of(offer)).content.decode()
    shown = phone.get(address("quote", offer)).content.decode()
    assert 'id="settlement"' in shown
    assert "The contract of revision A was cancelled on" not in shown


def test_the_link_of_another_quote_opens_no_settlement(newer, survey, office, client):
    other = make_offer(survey, office)
    client.get(reverse("customer_exchange", args=[make_link(other, by=office)]))
    assert client.get(settlement_of(newer)).status_code == 404
    assert client.get(settlement_of(other)).status_code == 404


def test_a_revision_that_was_not_cancelled_has_no_settlement(newer, office, client):
    client.get(reverse("customer_exchange", args=[make_link(newer, by=office)]))
    assert client.get(settlement_of(newer, "B")).status_code == 404
    assert client.get(settlement_of(newer)).status_code == 200


def test_a_new_link_lasts_as_long_as_the_one_it_replaces(newer, office):
    """A contract keeps its link open past a year; the link to what is offered after it ends no sooner."""
    kept_open = newer.quote.links.get().expires_at
    make_link(newer, by=office)
    assert newer.quote.links.get(revoked_at=None).expires_at == kept_open
