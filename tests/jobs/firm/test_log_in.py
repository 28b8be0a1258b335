"""The way in: throttled by name and by address, never to another site, out by POST alone."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.firm.models import LogInAttempt
from jobs.firm.throttle import FAILURES_FOR_A_NAME, FAILURES_FROM_AN_ADDRESS

pytestmark = pytest.mark.django_db
RIGHT = "a long invented one"


def try_in(client, name="bram", password=RIGHT, **more):
    return client.post(reverse("log_in"), {"username": name, "password": password, **more})


def test_a_wrong_password_says_nothing_of_which_was_wrong(office, client):
    wrong, unknown = try_in(client, password="guess"), try_in(client, name="nobody", password="guess")
    assert (wrong.status_code, unknown.status_code) == (422, 422)
    assert wrong.context["form"].errors == unknown.context["form"].errors


def test_guessing_for_one_name_must_wait_and_may_go_on_later(office, client):
    for _ in range(FAILURES_FOR_A_NAME):
        try_in(client, name=" BRAM", password="guess")
    assert try_in(client).status_code == 429
    LogInAttempt.objects.update(at=timezone.now() - timedelta(minutes=16))
    assert try_in(client).status_code == 302


def test_guessing_from_one_address_must_wait(office, client):
    for place in range(FAILURES_FROM_AN_ADDRESS):
        try_in(client, name=f"name {place}", password="guess")
    assert try_in(client).status_code == 429


@pytest.mark.parametrize("there", ["https://example.com/", "//example.com", "javascript:alert(1)", ""])
def test_logging_in_never_leads_to_another_site(there, office, client):
    assert try_in(client, next=there).url == "/"


def test_logging_in_leads_back_to_the_page_asked_for(office, client):
    assert try_in(client, next="/quotes/").url == "/quotes/"


def test_logging_out_is_done_by_post_alone(office, logged_in):
    client = logged_in(office)
    assert client.get(reverse("log_out")).status_code == 405
    assert client.get(reverse("quotes")).status_code == 200
    client.post(reverse("log_out"))
    assert client.get(reverse("quotes")).status_code == 302
