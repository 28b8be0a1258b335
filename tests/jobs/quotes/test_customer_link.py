"""The customer's link: what it opens, to whom, and what one decision leaves behind."""

from __future__ import annotations

from datetime import timedelta
from itertools import permutations

import pytest
from django.db import connection
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from estimating.choices import Part
from jobs.firm.throttle import LINKS_FROM_AN_ADDRESS
from jobs.quotes.customer.links import TOKEN_BYTES, token_digest
from jobs.quotes.customer.models import CustomerLink, CustomerQuestion, Decision, LinkOpening
from jobs.quotes.drafts.services import draft_quote, next_revision
from jobs.quotes.frozen import optional_parts, price_with
from jobs.quotes.models import Revision
from jobs.quotes.services import end_links, issue_revision, withdraw_revision
from jobs.works.models import Job

pytestmark = pytest.mark.django_db


def address(name: str, revision: Revision) -> str:
    return reverse(f"customer_{name}", args=[revision.quote.number])


def words(answer) -> str:
    token = str(answer.context["csrf_token"]) if answer.context else ""
    return answer.content.decode().replace(token, "")


def test_the_token_is_long_and_kept_nowhere(draft, token):
    assert TOKEN_BYTES * 8 >= 128
    assert CustomerLink.objects.get().digest == token_digest(token)
    with connection.cursor() as cursor:
        for table in connection.introspection.table_names():
            cursor.execute(f'SELECT * FROM "{table}"')  # noqa: S608 - the names are the database's own
            assert not any(token in str(row) for row in cursor.fetchall()), table


def test_opening_leaves_the_token_in_a_cookie_for_this_quote_alone(draft, token, client):
    answer = client.get(reverse("customer_exchange", args=[token]), secure=True)
    cookie = answer.cookies["quote_link"]
    assert answer.url == address("quote", draft)
    assert (cookie["path"], cookie["samesite"], cookie["httponly"]) == (answer.url, "Lax", True)
    assert cookie["secure"]
    assert LinkOpening.objects.count() == 1


def test_what_a_link_shows_is_neither_kept_nor_listed(draft, customer, token):
    for page in (
        reverse("customer_exchange", args=[token]),
        address("quote", draft),
        address("paper", draft),
    ):
        answer = customer.get(page)
        assert "no-store" in answer["Cache-Control"]
        assert "noindex" in answer["X-Robots-Tag"]


def test_every_link_that_does_not_open_gets_the_same_page(draft, token, customer, office):
    unknown = Client().get(reverse("customer_exchange", args=["A" * 32]))
    pages = [unknown, Client().get(address("quote", draft))]
    other = draft_quote(draft.quote.survey, by=office)
    issue_revision(other, by=office)
    stolen = Client()
    stolen.cookies["quote_link"] = token
    pages.append(stolen.get(address("quote", other)))
    CustomerLink.objects.update(expires_at=timezone.now() - timedelta(seconds=1))
    pages += [Client().get(reverse("customer_exchange", args=[token])), customer.get(address("quote", draft))]
    CustomerLink.objects.update(expires_at=timezone.now() + timedelta(days=1))
    end_links(draft.quote)
    pages += [
        Client().get(reverse("customer_exchange", args=[token])),
        customer.get(address("accept", draft)),
    ]
    assert {page.status_code for page in pages} == {404}
    assert len({words(page) for page in pages}) == 1


def test_guessing_links_must_wait_and_does_not_lock_out_the_office(draft, token, client, office):
    for place in range(LINKS_FROM_AN_ADDRESS):
        assert client.get(reverse("customer_exchange", args=[f"guess-{place}"])).status_code == 404
    assert client.get(reverse("customer_exchange", args=[token])).status_code == 429
    logged_in = client.post(
        reverse("log_in"), {"username": office.username, "password": "a long invented one"}
    )
    assert logged_in.status_code == 302


def test_looking_changes_nothing(draft, customer):
    before = Revision.objects.values().get(pk=draft.pk)
    for name in ("quote", "accept", "decline", "paper"):
        assert customer.get(address(name, draft)).status_code == 200
    assert customer.get(address("ask", draft)).status_code == 405
    assert Revision.objects.values().get(pk=draft.pk) == before
    assert not Decision.objects.exists()


def test_options_cost_the_same_in_any_order(draft, token):
    options = sorted(optional_parts(draft))
    totals = {price_with(draft, taken).totals.gross for taken in permutations(options)}
    assert len(options) > 2
    assert len(totals) == 1


def test_the_live_price_is_that_of_the_whole_page(draft, customer):
    asked = {"priced": "1", "taken": [Part.LADDER.value]}
    partial = customer.get(address("quote", draft), asked, headers={"HX-Request": "true"})
    whole = customer.get(address("quote", draft), asked)
    due = f"£{price_with(draft, {Part.LADDER}).totals.gross:,.2f}"
    assert "<html" not in partial.content.decode()
    for page in (partial, whole, customer.get(address("accept", draft), asked)):
        assert due in page.content.decode()


def test_acceptance_keeps_its_evidence_and_makes_one_job(draft, customer, accepting):
    sent = accepting(Part.LADDER.value, early_start="on")
    answer = customer.post(address("accept", draft), sent, headers={"User-Agent": "A phone"})
    assert answer.status_code == 302
    decision = Decision.objects.get()
    assert decision.kind == Decision.Kind.ACCEPTED
    assert (decision.name_typed, decision.taken_parts) == ("Odile Pemberwick", ["ladder"])
    assert decision.total == price_with(draft, {Part.LADDER}).totals.gross
    assert decision.paper_sha256 == draft.paper_sha256
    assert (decision.address, decision.browser) == ("127.0.0.1", "A phone")
    assert decision.statements == [
        "I have read what will be done, what will not be done and what could change the price.",
        "I know that I may cancel within 14 days after accepting, and how. I was given the form for it and "
        "the information about this contract.",
    ]
    again = customer.post(address("accept", draft), accepting())
    assert (again.status_code, Decision.objects.count(), Job.objects.count()) == (409, 1, 1)
    assert "already accepted" in again.content.decode()


def test_an_acceptance_without_name_or_tick_comes_back_with_everything(draft, customer, accepting):
    sent = accepting(Part.LADDER.value, name_typed="", early_start="on")
    del sent["scope"]
    answer = customer.post(address("accept", draft), sent)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "Type your full name to accept." in page
    assert "Please tick this to accept" in page
    assert f"Accept and agree to pay £{price_with(draft, {Part.LADDER}).totals.gross:,.2f}" in page
    assert '<input type="hidden" name="taken" value="ladder">' in page
    form = answer.context["form"]
    assert (form["cancel"].value(), form["early_start"].value()) == (True, True)
    assert not Decision.objects.exists()


def test_an_option_that_is_not_offered_is_refused(draft, customer, accepting):
    answer = customer.post(address("accept", draft), accepting("swimming pool"))
    assert answer.status_code == 422
    assert "This quote has no option “swimming pool”." in answer.content.decode()


def test_a_page_left_open_over_a_newer_revision_decides_nothing(draft, customer, accepting, office):
    following = next_revision(draft.quote, by=office)
    renewed = issue_revision(following, by=office)
    customer.get(reverse("customer_exchange", args=[renewed]))
    for act in ("accept", "decline"):
        answer = customer.post(address(act, draft), accepting())
        assert answer.status_code == 409
        assert "newer revision" in answer.content.decode()
    assert not Decision.objects.exists()
    assert "revision B" in customer.get(address("quote", draft)).content.decode()


def test_what_lapsed_or_was_withdrawn_is_not_accepted(draft, customer, accepting):
    Revision.objects.update(valid_until=timezone.localdate() - timedelta(days=1))
    late = customer.post(address("accept", draft), accepting())
    assert (late.status_code, "has lapsed" in late.content.decode()) == (409, True)
    Revision.objects.update(valid_until=timezone.localdate())
    withdraw_revision(draft)
    gone = customer.post(address("accept", draft), accepting())
    assert (gone.status_code, "have withdrawn this quote" in gone.content.decode()) == (409, True)
    assert not Decision.objects.exists()


def test_declining_keeps_the_reason_and_closes_the_offer(draft, customer, accepting):
    customer.post(address("decline", draft), accepting(reason="Too dear."))
    assert (Decision.objects.get().kind, Decision.objects.get().reason) == ("declined", "Too dear.")
    assert not Job.objects.exists()
    assert customer.get(address("accept", draft)).status_code == 409


def test_a_question_reaches_the_office(draft, customer):
    customer.post(address("ask", draft), {"words": "May we keep the old ladder?"})
    assert CustomerQuestion.objects.get().words == "May we keep the old ladder?"
    assert customer.post(address("ask", draft), {"words": ""}).status_code == 422
