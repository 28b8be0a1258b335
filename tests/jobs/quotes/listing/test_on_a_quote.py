"""The office notes on a quote when to ask again, and that its customer declined by telephone."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.quotes.customer.decisions import why_closed
from jobs.quotes.customer.models import Decision
from jobs.quotes.drafts.services import next_revision
from jobs.quotes.listing.declined import (
    NOT_SAID,
    CannotDecline,
    ReasonTold,
    reasons_told_since,
    record_decline,
)
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Revision
from tests.jobs.offers import make_offer

pytestmark = pytest.mark.django_db


@pytest.fixture
def quote(offer):
    keep_standing(offer.quote)
    return offer.quote


def test_a_button_sets_the_day_and_another_drops_it(quote, office, logged_in):
    client = logged_in(office)
    address = reverse("quote_follow_up", args=[quote.number])
    assert client.post(address, {"in_days": "7"}).status_code == 302
    quote.refresh_from_db()
    day = timezone.localdate() + timedelta(days=7)
    assert quote.follow_up_on == day
    page = client.get(reverse("quote", args=[quote.number])).content.decode()
    assert f"Follow up on {day:%-d %B %Y}" in page
    client.post(reverse("quote_followed_up", args=[quote.number]))
    quote.refresh_from_db()
    assert quote.follow_up_on is None


def test_a_day_with_a_note_is_kept_and_a_day_that_is_past_is_not(quote, office, logged_in):
    client, today = logged_in(office), timezone.localdate()
    address = reverse("quote_follow_up", args=[quote.number])
    past = {"follow_up_on": str(today - timedelta(days=1)), "follow_up_note": "Ask about the ladder"}
    answer = client.post(address, past)
    assert answer.status_code == 422
    assert "Follow up on must be today or later." in answer.content.decode()
    assert "Ask about the ladder" in answer.content.decode()
    client.post(address, past | {"follow_up_on": str(today)})
    quote.refresh_from_db()
    assert (quote.follow_up_on, quote.follow_up_note) == (today, "Ask about the ladder")
    assert "Ask about the ladder" in client.get(reverse("today")).content.decode()


def test_who_declined_by_telephone_and_who_wrote_it_down_is_kept_with_the_reason(
    offer, quote, office, logged_in
):
    client = logged_in(office)
    address = reverse("revision_declined", args=[quote.number, "A"])
    sent = {"told_by": "Odile Pemberwick", "because": "price", "reason": "Her sister knows somebody"}
    assert client.post(address, sent).status_code == 302
    decision = Decision.objects.get(revision=offer)
    assert (decision.kind, decision.recorded_by, decision.name_typed) == (
        "declined",
        office,
        "Odile Pemberwick",
    )
    assert decision.why == "The price: Her sister knows somebody"
    page = client.get(reverse("quote", args=[quote.number])).content.decode()
    assert "by word of mouth" in page
    assert "Bram Tollkeeper" in page
    offer.refresh_from_db()
    assert "was declined" in why_closed(offer)
    assert client.post(address, sent).status_code == 302
    assert Decision.objects.count() == 1


def test_who_declined_must_be_told(quote, office, logged_in):
    answer = logged_in(office).post(
        reverse("revision_declined", args=[quote.number, "A"]), {"reason": "Dear"}
    )
    assert answer.status_code == 422
    assert "Who told you is missing." in answer.content.decode()
    assert "Dear" in answer.content.decode()


def test_a_lapsed_offer_may_still_be_declined_and_a_withdrawn_one_not(offer, quote, office, logged_in):
    client = logged_in(office)
    sent = {"told_by": "Odile Pemberwick", "because": "", "reason": ""}
    for state, declined in (("withdrawn", 0), ("lapsed", 1)):
        Revision.objects.filter(pk=offer.pk).update(state=state)
        client.post(reverse("revision_declined", args=[quote.number, "A"]), sent)
        assert Decision.objects.count() == declined


def test_a_surveyor_neither_follows_up_nor_declines(quote, surveyor, logged_in):
    client = logged_in(surveyor)
    for address in (
        reverse("quote_follow_up", args=[quote.number]),
        reverse("quote_followed_up", args=[quote.number]),
        reverse("revision_declined", args=[quote.number, "A"]),
    ):
        assert client.post(address, {"in_days": "7"}).status_code == 403


def test_reasons_are_counted_over_a_time_the_commonest_first(survey, firm, office):
    now = timezone.now()
    for because, days_ago in (
        ("price", 1),
        ("price", 300),
        ("price", 500),
        ("", 2),
        ("plans", 2),
        ("plans", 3),
    ):
        offer = make_offer(survey, office)
        Decision.objects.create(
            revision=offer,
            kind="declined",
            because=because,
            total=1,
            decided_at=now - timedelta(days=days_ago),
        )
    Decision.objects.create(revision=make_offer(survey, office), kind="accepted", total=1, decided_at=now)
    assert reasons_told_since(now - timedelta(days=365)) == [
        ReasonTold("The plans for the loft changed", 2),
        ReasonTold("The price", 2),
        ReasonTold(NOT_SAID, 1),
    ]


def test_an_offer_that_a_newer_one_followed_is_not_declined_any_more(offer, edition, office):
    following = next_revision(offer.quote, by=office)
    offer.state = Revision.State.LAPSED
    offer.save()
    following.state = Revision.State.ISSUED
    for name in ("issued", "issued_at", "issued_by", "valid_until", "total", "paper_sha256"):
        setattr(following, name, getattr(offer, name))
    following.save()
    offer.quote.follow_up_on = timezone.localdate()
    offer.quote.save()
    with pytest.raises(CannotDecline, match="was issued after"):
        record_decline(offer, told_by="O. P.", because="", reason="", by=office)
    offer.quote.refresh_from_db()
    assert offer.quote.follow_up_on == timezone.localdate()
    following.state = Revision.State.WITHDRAWN
    following.save()
    assert record_decline(offer, told_by="O. P.", because="", reason="", by=office).revision == offer
