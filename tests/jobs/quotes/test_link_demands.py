"""What a link must withstand: scanners that open everything, guesses, forged forms, pages left open."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from django.db import connection
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from jobs.firm.throttle import LINKS_FROM_AN_ADDRESS
from jobs.quotes.customer.decisions import MOST_QUESTIONS
from jobs.quotes.customer.links import make_link, open_link
from jobs.quotes.customer.models import CustomerLink, CustomerQuestion, Decision, LinkOpening
from jobs.quotes.models import Revision
from jobs.quotes.rights.models import Cancellation
from jobs.quotes.services import end_links
from tests.jobs.offers import make_offer
from tests.jobs.quotes.rights.conftest import accept, address

pytestmark = pytest.mark.django_db
PAGES = ("quote", "accept", "decline", "early_start", "cancel")
SENT = {"priced": "1", "letter": "A", "name_typed": "Odile Pemberwick", "scope": "on", "cancel": "on"}


def every_row(*, but: tuple[str, ...]) -> dict[str, list[str]]:
    with connection.cursor() as cursor:
        found = {}
        for table in connection.introspection.table_names():
            if table not in but:
                cursor.execute(f'SELECT * FROM "{table}"')  # noqa: S608 - the names are the database's own
                found[table] = sorted(str(row) for row in cursor.fetchall())
        return found


@pytest.mark.parametrize("accepted", [False, True], ids=["on offer", "accepted"])
def test_a_mail_scanner_that_opens_every_link_leaves_an_opening_and_nothing_else(offer, office, accepted):
    if accepted:
        accept(offer)
    link = reverse("customer_exchange", args=[make_link(offer, by=office)])
    before = every_row(but=(LinkOpening._meta.db_table,))
    scanner = Client()
    scanner.head(link)
    page = scanner.get(link, follow=True).content.decode()
    addresses = set(re.findall(r'(?:href|action|formaction)="(/your-quote/[^"#]*)', page))
    assert len(addresses) >= 4
    for each in addresses | {address(name, offer) for name in PAGES}:
        scanner.get(each, {"name_typed": "A scanner", "scope": "on", "cancel": "on"})
        scanner.head(each)
    assert every_row(but=(LinkOpening._meta.db_table,)) == before
    assert LinkOpening.objects.count() == 2


def test_a_paper_that_is_damaged_is_said_and_no_failure(offer, phone):
    answer = phone.get(address("paper", offer))
    assert answer.status_code == 503
    assert "we will send it to you" in answer.content.decode()


def test_every_page_of_a_link_is_neither_kept_nor_listed(offer, phone):
    def hidden(answer) -> bool:
        return "no-store" in answer["Cache-Control"] and answer["X-Robots-Tag"] == "noindex, nofollow"

    assert all(hidden(phone.get(address(name, offer))) for name in PAGES)
    assert hidden(phone.post(address("ask", offer), {"words": "When?"}))
    accept(offer)
    assert all(hidden(phone.get(address(name, offer))) for name in PAGES)
    assert hidden(Client().get(address("quote", offer)))


def test_guessing_by_cookie_must_wait_as_guessing_by_link(offer, phone, office):
    guesser = Client()
    for place in range(LINKS_FROM_AN_ADDRESS):
        guesser.cookies["quote_link"] = f"guess-{place}"
        assert guesser.get(address("quote", offer)).status_code == 404
    guesser.cookies["quote_link"] = make_link(offer, by=office)
    assert guesser.get(address("quote", offer)).status_code == 429


def test_a_visitor_without_a_cookie_is_no_guess(offer, office):
    for _ in range(LINKS_FROM_AN_ADDRESS + 1):
        assert Client().get(address("quote", offer)).status_code == 404
    opened = Client().get(reverse("customer_exchange", args=[make_link(offer, by=office)]))
    assert opened.status_code == 302


def test_an_old_cookie_or_link_is_no_guess_and_keeps_nobody_from_the_new_one(offer, phone, office):
    old = make_link(offer, by=office)
    new = make_link(offer, by=office)
    for _ in range(LINKS_FROM_AN_ADDRESS + 1):
        assert phone.get(address("quote", offer)).status_code == 404
        assert Client().get(reverse("customer_exchange", args=[old])).status_code == 404
    assert phone.get(reverse("customer_exchange", args=[new])).status_code == 302
    assert phone.get(address("quote", offer)).status_code == 200


def test_a_form_from_another_site_decides_nothing(offer, office):
    forged = Client(enforce_csrf_checks=True)
    forged.get(reverse("customer_exchange", args=[make_link(offer, by=office)]))
    for name in ("accept", "decline", "ask", "early_start", "cancel"):
        assert forged.post(address(name, offer), SENT).status_code == 403
    assert not Decision.objects.exists()
    assert not CustomerQuestion.objects.exists()


def test_a_cookie_opens_its_own_quote_and_no_other(offer, phone, survey, office):
    other = make_offer(survey, office)
    phone.cookies["quote_link"]["path"] = "/"
    for name in PAGES:
        assert phone.get(address(name, other)).status_code == 404
        assert phone.post(address(name, other), SENT).status_code in (404, 405)
    assert not Decision.objects.exists()


def test_a_link_lasts_as_long_as_its_contract_may_be_cancelled(offer, office):
    token = make_link(offer, by=office)
    accept(offer)
    link = CustomerLink.objects.get()
    assert link.expires_at > timezone.now() + timedelta(days=14 + 365)
    assert open_link(token) == link


def test_a_double_tap_on_accept_is_answered_like_the_first(offer, phone):
    first = phone.post(address("accept", offer), SENT)
    again = phone.post(address("accept", offer), SENT)
    assert (first.status_code, first.url) == (again.status_code, again.url) == (302, address("quote", offer))
    assert Decision.objects.count() == 1


def test_somebody_else_is_told_that_it_was_accepted(offer, phone):
    phone.post(address("accept", offer), SENT)
    other = phone.post(address("accept", offer), SENT | {"name_typed": "Ivo"})
    assert other.status_code == 409
    assert "already accepted" in other.content.decode()


def test_a_page_left_open_over_an_expiry_says_that_it_has_lapsed(offer, phone):
    assert phone.get(address("accept", offer)).status_code == 200
    Revision.objects.update(valid_until=timezone.localdate() - timedelta(days=1))
    late = phone.post(address("accept", offer), SENT)
    assert late.status_code == 409
    assert "has lapsed" in late.content.decode()
    assert not Decision.objects.exists()


def test_a_page_left_open_over_a_cancellation_does_not_accept_again(offer, phone):
    accept(offer)
    phone.post(address("cancel", offer), {"name_typed": "Odile Pemberwick"})
    assert Cancellation.objects.exists()
    again = phone.post(address("accept", offer), SENT)
    assert again.status_code == 409
    assert "was cancelled" in again.content.decode()


def test_a_flood_of_questions_is_stopped_with_words(offer, phone):
    for place in range(MOST_QUESTIONS):
        phone.post(address("ask", offer), {"words": f"Question {place}?"})
    answer = phone.post(address("ask", offer), {"words": "One more?"})
    assert answer.status_code == 429
    assert "Please ring us." in answer.content.decode()
    assert CustomerQuestion.objects.count() == MOST_QUESTIONS


def test_the_link_of_a_contract_lasts_as_long_when_it_is_made_anew_after_its_end(offer, phone, office):
    accept(offer)
    before = CustomerLink.objects.get(revoked_at=None).expires_at
    end_links(offer.quote)
    offer.refresh_from_db()
    make_link(offer, by=office)
    assert CustomerLink.objects.get(revoked_at=None).expires_at >= before
