"""The office reads whether the customer opened the link, also those that a new link replaced."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from jobs.quotes.customer.links import make_link

pytestmark = pytest.mark.django_db


def opened(token: str) -> None:
    Client().get(reverse("customer_exchange", args=[token]))


def test_a_new_link_does_not_make_the_openings_of_earlier_ones_unsaid(offer, office, logged_in):
    page = reverse("quote", args=[offer.quote.number])
    desk = logged_in(office)
    first = make_link(offer, by=office)
    assert "The customer has not opened the link yet." in desk.get(page).content.decode()
    for _ in range(2):
        opened(first)
    second = make_link(offer, by=office)
    shown = desk.get(page).content.decode()
    assert "has not opened the link yet" not in shown
    assert "The customer has not opened the new link yet." in shown
    assert "opened an earlier link 2 times" in shown
    assert shown.count("an earlier link · 127.0.0.1") == 2
    opened(second)
    shown = desk.get(page).content.decode()
    assert "The customer opened the link 1 time," in shown
    assert "opened an earlier link 2 times" in shown
