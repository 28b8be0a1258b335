"""Copies by mail: one to each side, with the papers, for whatever the customer did on the link."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.utils import timezone

from jobs.documents.models import Paper
from jobs.documents.papers import keep_paper
from jobs.mail.models import OutgoingMail
from jobs.mail.services import LINK_PLACE, LinkInText, Recipient, queue_mail
from jobs.quotes.customer.decisions import ask_question, decline_revision
from jobs.quotes.customer.links import make_link, token_digest
from jobs.quotes.customer.models import CustomerLink
from jobs.quotes.rights.cancelling import cancel_contract, settle_cancellation
from tests.jobs.quotes.rights.conftest import NOBODY, accept, address

pytestmark = pytest.mark.django_db
FIRM, ODILE = "office@example.com", "odile@example.org"


@pytest.fixture
def reachable(offer):
    """Return the offer, its papers kept and its customer's e-mail known."""
    for field, kind in (("paper_sha256", Paper.Kind.QUOTE), ("rights_sha256", Paper.Kind.RIGHTS)):
        pdf = f"%PDF-1.7 an invented {field}".encode()
        setattr(offer, field, keep_paper(pdf, kind=kind, title=field).sha256)
    offer.save()
    customer = offer.quote.property.customer
    customer.email = ODILE
    customer.save()
    return offer


def sent_to(address: str) -> OutgoingMail:
    return OutgoingMail.objects.get(to_address=address)


def test_an_acceptance_goes_to_both_sides_with_both_papers(reachable):
    decision = accept(reachable, early_start=True)
    for recipient in (FIRM, ODILE):
        mail = sent_to(recipient)
        assert [each["sha256"] for each in mail.attachments] == [
            reachable.paper_sha256,
            reachable.rights_sha256,
        ]
        for words in (
            *decision.statements,
            "Accepted by: Odile Pemberwick",
            f"£{decision.total:,.2f}",
            reachable.paper_sha256,
            decision.early_start.words,
            f"{timezone.localdate() + timedelta(days=14):%-d %B %Y}",
            "Goods are still to come.",
        ):
            assert words in mail.text, words
        assert mail.state == OutgoingMail.State.WAITING


def test_a_customer_without_an_address_leaves_the_firms_copy_alone(offer):
    accept(offer)
    assert OutgoingMail.objects.get().to_address == FIRM


def test_an_acceptance_stands_though_no_copy_can_be_written(offer, caplog):
    customer = offer.quote.property.customer
    customer.email = "no address at all"
    customer.save()
    assert accept(offer).pk
    assert OutgoingMail.objects.get().to_address == FIRM
    assert "no copy" in caplog.text


def test_cancelling_and_what_is_owed_go_to_both_sides(reachable, office):
    decision = accept(reachable)
    OutgoingMail.objects.all().delete()
    said = cancel_contract(decision, name_typed="Odile Pemberwick", evidence=NOBODY)
    cancel_contract(decision, name_typed="Odile Pemberwick", evidence=NOBODY)
    assert "comes back by" in sent_to(ODILE).text
    assert said.words in sent_to(FIRM).text
    OutgoingMail.objects.all().delete()
    for _ in range(2):
        settle_cancellation(said, share_done=0, paid=100, by=office)
    assert "£100.00 comes back by" in sent_to(ODILE).text


def test_a_question_and_a_decline_reach_the_firm(reachable):
    ask_question(reachable.quote, "May we keep the old ladder?")
    ask_question(reachable.quote, "May we keep the old ladder?")
    assert "May we keep the old ladder?" in sent_to(FIRM).text
    OutgoingMail.objects.all().delete()
    decline_revision(reachable, name_typed="Odile", reason="Too dear.", evidence=NOBODY)
    assert "Too dear." in sent_to(FIRM).text


def test_a_later_early_start_is_mailed_too(reachable, phone):
    accept(reachable)
    OutgoingMail.objects.all().delete()
    phone.post(address("early_start", reachable), {"name_typed": "Odile", "early_start": "on"})
    assert "Please start within" in sent_to(ODILE).text
    assert "Please start within" in sent_to(FIRM).text


def test_a_customer_without_an_address_of_record_gets_the_copy_where_the_link_went(reachable, office):
    customer = reachable.quote.property.customer
    customer.email = ""
    customer.save()
    token = make_link(reachable, by=office)
    link = LinkInText(CustomerLink.objects.get(digest=token_digest(token)), "seed")
    to = Recipient("Odile Pemberwick", "elsewhere@example.org")
    queue_mail(to=to, subject="Your quote", text=LINK_PLACE, about=reachable, link=link)
    accept(reachable)
    assert "was accepted" in OutgoingMail.objects.get(once__endswith="customer").text
    assert OutgoingMail.objects.get(once__endswith="customer").to_address == "elsewhere@example.org"
    assert "no e-mail address" not in sent_to(FIRM).text


def test_the_firm_is_told_when_there_is_nowhere_to_send_the_customers_copy(reachable):
    customer = reachable.quote.property.customer
    customer.email = ""
    customer.save()
    accept(reachable)
    assert OutgoingMail.objects.count() == 1
    assert "give them a copy of this on paper" in sent_to(FIRM).text


def test_control_characters_keep_no_letter_from_going(reachable, phone):
    phone.post(address("ask", reachable), {"words": "When?\x08 And\nhow?"})
    assert "When? And\nhow?" in sent_to(FIRM).text


def test_copies_name_the_house_that_the_quote_was_issued_for(reachable, phone):
    place = reachable.quote.property
    before = place.address
    place.address = "9 Elsewhere Street"
    place.save()
    accept(reachable)
    assert before in sent_to(ODILE).text
    assert "Elsewhere" not in sent_to(ODILE).text
    page = phone.get(address("quote", reachable)).content.decode()
    assert f"A raised loft deck for {before}" in page
    assert "Elsewhere" not in page
