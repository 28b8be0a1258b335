"""What a revision changed is the customer's concern while it is on offer, and says whether VAT is in it."""

from __future__ import annotations

import copy
from decimal import Decimal

import pytest

from estimating.choices import Part
from estimating.estimate import estimate
from estimating.price_terms import Discount
from jobs.quotes.customer.links import make_link
from jobs.quotes.models import Revision
from jobs.quotes.rights.cancelling import cancel_contract
from jobs.templatetags.shown import pounds
from tests.estimating import lofts
from tests.jobs.offers import make_offer
from tests.jobs.quotes.rights.conftest import NOBODY, accept, address

pytestmark = pytest.mark.django_db
CHANGED = {
    "since": "A",
    "differences": [{"subject": "Price, everything included", "before": "£2,500.00", "after": "£2,400.00"}],
}


@pytest.fixture
def newer(offer) -> Revision:
    """Return an offer that says what changed since the one before it."""
    offer.issued["changed"] = copy.deepcopy(CHANGED)
    offer.save()
    return offer


def test_what_changed_is_said_only_while_the_offer_is_open(newer, phone):
    page = phone.get(address("quote", newer)).content.decode()
    assert "What changed since revision A" in page
    assert "Amounts here are with VAT" in page
    decision = accept(newer)
    assert "What changed since" not in phone.get(address("quote", newer)).content.decode()
    cancel_contract(decision, name_typed="Odile Pemberwick", evidence=NOBODY)
    assert "What changed since" not in phone.get(address("quote", newer)).content.decode()


def test_a_discount_says_beside_its_amount_that_it_is_without_vat(firm, survey, office, client):
    choices = lofts.choices(
        parts=frozenset({Part.INSULATION}),
        discounts=(Discount(reason="Neighbours of our last job", amount=Decimal(50)),),
    )
    worked = estimate(lofts.trussed_loft(), lofts.price_book(), choices)
    offer = make_offer(survey, office, worked=worked)
    client.get(f"/q/{make_link(offer, by=office)}/")
    page = client.get(address("quote", offer)).content.decode()
    off = page[page.index("Taken off already") :]
    off = off[: off.index("</section>")]
    assert worked.price.discounts
    for each in worked.price.discounts:
        assert f"{pounds(each.net)} without VAT" in off
