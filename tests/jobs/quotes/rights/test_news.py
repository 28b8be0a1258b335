"""News and offers: agreed to by a tick of its own, never needed, and taken back when they say so."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.quotes.customer.models import Decision
from tests.jobs.quotes.rights.conftest import address

pytestmark = pytest.mark.django_db
SENT = {"priced": "1", "letter": "A", "name_typed": "Odile Pemberwick", "scope": "on", "cancel": "on"}


def test_the_tick_is_off_and_not_needed(offer, phone):
    shown = phone.get(address("accept", offer))
    assert not shown.context["form"]["news"].value()
    assert phone.post(address("accept", offer), SENT).status_code == 302
    customer = offer.quote.property.customer
    customer.refresh_from_db()
    assert (customer.wants_news, customer.news_words, customer.news_agreed_at) == (False, "", None)


def test_what_was_agreed_is_kept_with_its_words_and_can_be_taken_back(offer, phone, logged_in, office):
    phone.post(address("accept", offer), SENT | {"news": "on"})
    customer = offer.quote.property.customer
    customer.refresh_from_db()
    decision = Decision.objects.get()
    assert customer.wants_news
    assert customer.news_agreed_at >= decision.decided_at
    assert (
        customer.news_words == "You may send me news and offers by e-mail. I can take this back at any time."
    )
    assert customer.news_words not in decision.statements
    desk = logged_in(office)
    page = reverse("customer", args=[customer.pk])
    assert customer.news_words in desk.get(page).content.decode()
    desk.post(reverse("customer_news_end", args=[customer.pk]))
    customer.refresh_from_db()
    assert not customer.wants_news
    assert customer.news_words
    assert "taken back on" in desk.get(page).content.decode()
