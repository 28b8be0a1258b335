"""What the office sees of a customer's rights, and what it writes down."""

from __future__ import annotations

from datetime import timedelta
from html import unescape

import pytest
from django.urls import reverse
from django.utils import timezone

from estimating.contracts.kind import HowAgreed
from jobs.orders.models import MaterialsOrder
from jobs.orders.services import OrderRefused, send_order
from jobs.quotes.rights.cancelling import cancel_contract
from jobs.quotes.rights.models import Cancellation
from tests.jobs.quotes.rights.conftest import NOBODY, accept, address

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk(logged_in, office):
    return logged_in(office)


def page(name: str, revision) -> str:
    return reverse(name, args=[revision.quote.number, revision.letter])


def test_the_record_of_an_acceptance_is_plain_to_read(offer, phone, desk):
    sent = {
        "priced": "1", "letter": "A", "name_typed": "Odile Pemberwick", "scope": "on", "cancel": "on",
        "early_start": "on",
    }  # fmt: skip
    phone.post(address("accept", offer), sent, headers={"User-Agent": "A phone"})
    shown = desk.get(reverse("quote", args=[offer.quote.number])).content.decode()
    decision = offer.decision
    for words in (
        "Odile Pemberwick",
        f"{timezone.localtime(decision.decided_at):%H:%M:%S %Z}",
        *decision.statements,
        "Please start within the days in which I may cancel.",
        decision.paper_sha256,
        "127.0.0.1, A phone",
        "without any meeting: by post, telephone, e-mail or link",
        "the one made on",
    ):
        assert words in shown, words


def test_both_last_days_stand_in_the_offices_record(offer, desk):
    decision = accept(offer, days_ago=5)
    made = timezone.localdate() - timedelta(days=5)
    shown = desk.get(page("revision_rights", offer)).content.decode()
    assert f"{made + timedelta(days=14):%-d %B %Y}" in shown
    assert "not known yet" in shown
    assert "No early start was asked for." in shown
    came = timezone.localdate() - timedelta(days=1)
    desk.post(page("goods_came", offer), {"last_goods_on": came.isoformat()})
    decision.refresh_from_db()
    assert decision.last_goods_on == came
    shown = desk.get(page("revision_rights", offer)).content.decode()
    for last in (made + timedelta(days=14), came + timedelta(days=14)):
        assert f"{last:%-d %B %Y}" in shown
    ahead = {"last_goods_on": (timezone.localdate() + timedelta(days=1)).isoformat()}
    assert desk.post(page("goods_came", offer), ahead).status_code == 422


def test_a_letter_from_before_the_contract_cancels_nothing(offer, desk):
    accept(offer)
    early = (timezone.localdate() - timedelta(days=1)).isoformat()
    letter = {"name_typed": "Odile Pemberwick", "said_on": early, "reason": "By letter."}
    answer = desk.post(page("cancellation_write_down", offer), letter, follow=True)
    assert "so nobody cancelled it before" in answer.content.decode()
    assert not Cancellation.objects.exists()


def test_the_office_writes_a_letter_down_and_settles_it(offer, desk):
    accept(offer)
    today = timezone.localdate()
    letter = {"name_typed": "Odile Pemberwick", "said_on": today.isoformat(), "reason": "By letter: we move."}
    assert desk.post(page("cancellation_write_down", offer), letter).status_code == 302
    said = Cancellation.objects.get()
    assert (said.link, said.browser) == (None, "written down by Bram Tollkeeper")
    assert said.words.startswith("Sent or said on ")
    unread = desk.post(page("cancellation_settle", offer), {"done_percent": "half", "paid": "100"})
    assert unread.status_code == 422
    assert "half" in unread.content.decode()
    desk.post(page("cancellation_settle", offer), {"done_percent": "0", "paid": "100"})
    said.refresh_from_db()
    assert (said.settlement["to_refund"], said.settled_by.username) == ("100.00", "bram")
    shown = desk.get(page("revision_rights", offer)).content.decode()
    assert f"{today + timedelta(days=14):%A %-d %B %Y}" in shown


def test_a_cancellation_waits_on_the_first_page_until_it_is_settled(offer, desk):
    said = cancel_contract(accept(offer), name_typed="Odile", evidence=NOBODY)
    shown = desk.get("/").content.decode()
    assert "Say what is owed" in shown
    assert f'href="{page("revision_rights", offer)}"' in shown
    offer.quote.refresh_from_db()
    assert (offer.quote.turn, offer.quote.turn_because) == ("office", "settle")
    desk.post(page("cancellation_settle", offer), {"done_percent": "0", "paid": "0"})
    said.refresh_from_db()
    assert "Say what is owed" not in desk.get("/").content.decode()


def test_cancelling_throws_unsent_orders_away_and_names_the_sent_ones(offer, desk, office):
    decision = accept(offer)
    job = decision.revision.job
    unsent, sent = job.orders.all()
    MaterialsOrder.objects.filter(pk=sent.pk).update(state="sent", paper_sha256="0" * 64)
    cancel_contract(decision, name_typed="Odile", evidence=NOBODY)
    assert list(job.orders.all()) == [sent]
    shown = desk.get(reverse("job", args=[job.number])).content.decode()
    assert "Called off" in shown
    assert f"Cancel with {sent.supplier}" in shown
    assert unsent.number not in shown
    with pytest.raises(OrderRefused, match="no longer there"):
        send_order(unsent, by=office)


def test_the_crew_is_told_that_a_job_is_called_off_and_sees_no_price(offer, logged_in, crew):
    decision = accept(offer)
    cancel_contract(decision, name_typed="Odile", evidence=NOBODY)
    shown = logged_in(crew).get(reverse("job", args=[decision.revision.job.number])).content.decode()
    assert "Do no more work here." in shown
    assert "£" not in shown
    assert logged_in(crew).get(page("revision_rights", offer)).status_code == 403


def test_the_job_says_until_when_the_customer_may_cancel(offer, desk):
    job = accept(offer).revision.job
    shown = desk.get(reverse("job", args=[job.number])).content.decode()
    assert "asked for no early start" in shown


def test_how_it_is_agreed_is_asked_when_it_is_issued(draft, desk):
    shown = unescape(desk.get(reverse("quote", args=[draft.quote.number])).content.decode())
    first = shown.index("Without any meeting")
    assert all(first < shown.index(each.value[1:]) for each in HowAgreed if each.name != "WITHOUT_MEETING")
    desk.post(page("revision_issue", draft), {"how_agreed": "DURING_VISIT"})
    draft.refresh_from_db()
    assert (draft.how_agreed, draft.issued["rights"]["kind"]) == ("DURING_VISIT", "off_premises")
    assert len(draft.rights_sha256) == 64
    answer = desk.get(page("revision_rights_paper", draft))
    assert answer.content.startswith(b"%PDF")


def test_each_opening_of_the_link_is_shown(offer, phone, desk):
    shown = desk.get(reverse("quote", args=[offer.quote.number])).content.decode()
    assert "opened the link 1 time" in shown
    assert "127.0.0.1" in shown


def test_the_owner_writes_the_words_of_the_rights(owner, firm, logged_in):
    book = logged_in(owner)
    words = {
        "how_to_cancel": "Ring us.", "goods_back": "We fetch them.", "complaints": "Write to us.",
        "guarantees": "None.", "redress": "None.",
    }  # fmt: skip
    assert book.post(reverse("firm_rights"), words).status_code == 302
    firm.refresh_from_db()
    assert (firm.how_to_cancel, firm.right_to_cancel_anyway) == ("Ring us.", False)
    empty = book.post(reverse("firm_rights"), words | {"complaints": ""})
    assert empty.status_code == 422
