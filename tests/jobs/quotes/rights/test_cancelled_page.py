"""The customer's page of a contract that was called off shows what was accepted, and asks for nothing."""

from __future__ import annotations

import re

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from estimating.choices import Part
from jobs.quotes.customer.decisions import accept_revision
from jobs.quotes.customer.links import make_link
from jobs.quotes.frozen import price_with
from jobs.quotes.models import Revision
from jobs.quotes.picking import Picking
from jobs.quotes.rights.cancelling import cancel_contract
from tests.jobs.quotes.rights.conftest import NOBODY, address
from tests.jobs.quotes.test_picking import NAMES, worked
from tests.jobs.quotes.test_picking import offer as choice

pytestmark = pytest.mark.django_db
__all__ = ["choice", "chooser", "worked"]


@pytest.fixture
def chooser(client: Client, choice: Revision, office: User) -> Client:
    """Return the browser of a customer who has alternatives to pick from."""
    client.get(reverse("customer_exchange", args=[make_link(choice, by=office)]))
    return client


def accepted_and_cancelled(revision: Revision, *taken: Part, alternative: int = 0) -> Revision:
    decision = accept_revision(
        revision,
        name_typed="Odile Pemberwick",
        statements=["Read."],
        taken_parts=frozenset(taken),
        alternative=alternative,
        evidence=NOBODY,
    )
    cancel_contract(decision, name_typed="Odile Pemberwick", evidence=NOBODY)
    return Revision.objects.get(pk=revision.pk)


def test_a_cancelled_contract_shows_the_options_that_were_taken(offer, phone):
    cancelled = accepted_and_cancelled(offer, Part.LADDER)
    page = phone.get(address("quote", offer), {"priced": "1", "taken": ["light"]}).content.decode()
    assert cancelled.state == Revision.State.CANCELLED
    total = price_with(cancelled, {Part.LADDER}).totals.gross
    assert f'price__total">£{total:,.2f}' in page
    found = dict(re.findall(r"<li>(.*?), £[\d,.]+: (taken|left)</li>", page))
    assert sorted(found.values()) == ["left", "taken"]
    assert next(was for name, was in found.items() if "ladder" in name.lower()) == "taken"


def test_a_cancelled_contract_shows_the_alternative_that_was_picked(choice, chooser):
    cancelled = accepted_and_cancelled(choice, Part.LIGHT, alternative=1)
    now = Picking(cancelled).now
    assert (now.alternative, now.taken) == (1, {Part.LIGHT})
    page = chooser.get(address("quote", choice)).content.decode()
    assert f"{NAMES[1]}, <strong>accepted</strong>: £{now.price.totals.gross:,.2f}" in page


def test_nothing_is_asked_for_a_cancelled_contract(offer, phone):
    assert "How you pay" in phone.get(address("quote", offer)).content.decode()
    accepted_and_cancelled(offer, Part.LADDER)
    page = phone.get(address("quote", offer)).content.decode()
    assert "How you pay" not in page
    assert "What is owed" in page
