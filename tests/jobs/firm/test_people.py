"""Who may do what, at once after it changes, and never nobody."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from jobs.firm.people import ROLES
from jobs.firm.services import LastOwner, add_person, change_person

pytestmark = pytest.mark.django_db


def change(person, **changes):
    as_now = {
        "username": person.username, "full_name": person.get_full_name(), "password": "", "may_log_in": True,
        "role": person.groups.get().name,
    }  # fmt: skip
    change_person(person, **{**as_now, **changes})


def test_the_last_owner_stays_an_owner_who_may_log_in(owner):
    for loss in ({"role": "office"}, {"may_log_in": False}):
        with pytest.raises(LastOwner):
            change(owner, **loss)
    add_person(username="second", full_name="Nia Brook", role="owner", password="another long one")
    change(owner, role="office")
    assert owner.groups.get().name == "office"


def test_a_person_made_crew_loses_sight_of_prices_at_once(office, owner, offer, logged_in):
    client, page = logged_in(office), reverse("quote", args=[offer.quote.number])
    assert client.get(page).status_code == 200
    change(office, role="crew")
    assert client.get(page).status_code == 403


def test_a_person_shut_out_is_out_at_once(office, owner, logged_in):
    client = logged_in(office)
    change(office, may_log_in=False)
    assert client.get(reverse("quotes")).status_code == 302


def test_a_person_needs_a_password_that_is_hard_to_guess(owner, logged_in):
    client = logged_in(owner)
    sent = {"username": "newcomer", "full_name": "New Comer", "role": "crew"}
    for password in ("", "short", "newcomer12"):
        assert client.post(reverse("person_new"), {**sent, "password": password}).status_code == 422
    assert client.post(reverse("person_new"), {**sent, "password": "a ladder of oak"}).status_code == 302


def pages(offer, job):
    number, edition = offer.quote.number, offer.edition_id
    return {
        "today": (), "search": (), "people": (), "person_new": (), "firm": (), "enquiries": (), "surveys": (),
        "quotes": (), "quote": (number,), "revision": (number, "A"), "price_books": (), "edition_new": (),
        "price_book": (edition,), "edition_pricing": (edition,), "orders": (), "jobs": (),
        "job": (job.number,), "job_sheet": (job.number,),
    }  # fmt: skip


OWNER_ONLY = {"people", "person_new", "firm", "edition_new", "edition_pricing"}
COSTS = {"price_books", "price_book", "orders"}
REFUSED = {
    "owner": set(),
    "office": OWNER_ONLY,
    "surveyor": OWNER_ONLY | COSTS,
    "crew": OWNER_ONLY | COSTS | {"quotes", "quote", "revision", "enquiries"},
}


@pytest.mark.parametrize("role", ROLES)
def test_each_role_opens_its_own_pages_and_sees_its_own_money(role, job, request, logged_in):
    someone = logged_in(request.getfixturevalue(role))
    for name, arguments in pages(job.revision, job).items():
        address = reverse(name, args=arguments)
        assert Client().get(address).url.startswith("/log-in/"), name
        answer = someone.get(address)
        assert (answer.status_code == 403) == (name in REFUSED[role]), (name, answer.status_code)
        words = answer.content.decode().lower()
        if role == "crew":
            assert "£" not in words, name
        if role == "surveyor":
            assert "margin " not in words, name
            assert "cost £" not in words, name


ACTS = {
    "quote_new": ("owner", "office"),
    "revision_choices": ("owner", "office"),
    "revision_issue": ("owner", "office"),
    "revision_reprice": ("owner", "office"),
    "revision_discard": ("owner", "office"),
    "revision_withdraw": ("owner", "office"),
    "revision_new": ("owner", "office"),
    "link_new": ("owner", "office"),
    "link_end": ("owner", "office"),
    "edition_copy": ("owner",),
    "edition_close": ("owner",),
}


@pytest.mark.parametrize("act", ACTS)
def test_each_act_is_done_by_post_and_by_those_who_may(act, offer, request, logged_in):
    arguments = {
        "quote_new": [offer.quote.survey.number], "revision_new": [offer.quote.number],
        "link_new": [offer.quote.number], "link_end": [offer.quote.number],
        "edition_copy": [offer.edition_id], "edition_close": [offer.edition_id],
    }.get(act, [offer.quote.number, "A"])  # fmt: skip
    address = reverse(act, args=arguments)
    for role in reversed(ROLES):
        client = logged_in(request.getfixturevalue(role))
        if role in ACTS[act]:
            assert client.get(address).status_code == 405
            empty_form = 422 if act == "edition_copy" else 302  # whoever may is told what is missing
            assert client.post(address).status_code == empty_form or act == "link_new"
        else:
            assert client.post(address).status_code == 403
