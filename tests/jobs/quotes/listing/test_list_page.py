"""The list of quotes: a row for each, whose turn it is, found as one types, and as quick with many."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.quotes.customer.decisions import Evidence, ask_question, decline_revision
from jobs.quotes.listing.finding import keep_words
from jobs.quotes.listing.following import set_follow_up
from jobs.quotes.listing.pages import PAGE
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Quote
from tests.jobs.offers import make_offer

pytestmark = pytest.mark.django_db
NOBODY = Evidence(link=None, address=None, browser="")


@pytest.fixture
def offers(survey, firm, office):
    made = [make_offer(survey, office) for _ in range(3)]
    for each in made:
        keep_standing(each.quote)
        keep_words([each.quote])
    return made


def many(survey, office, count: int) -> list[Quote]:
    start = timezone.now() - timedelta(days=400)
    rows = (
        Quote(
            number=f"Q-2025-{number:04}", property=survey.property, survey=survey, made_by=office, letter="A",
            state="issued", turn="customer", turn_because="decide",
            turn_since=start + timedelta(days=number // 3),  # some moments are the same
        )
        for number in range(count)
    )  # fmt: skip
    quotes = Quote.objects.bulk_create(rows)
    keep_words(Quote.objects.select_related("property__customer"))
    return quotes


def numbers(page: str) -> list[str]:
    return re.findall(r'href="/quotes/(Q-[0-9-]+)/"', page)


def get(client, address: str = "", **headers) -> str:
    return client.get(f"{reverse('quotes')}{address}", headers=headers).content.decode()


def test_each_quote_has_one_row_with_whose_turn_it_is_and_since_when(offers, office, logged_in):
    ask_question(offers[0].quote, "Why?")
    page = get(logged_in(office))
    assert numbers(page) == [each.quote.number for each in reversed(offers)]
    today = timezone.localdate()
    assert f"<strong>Office’s turn</strong> since {today:%-d %b %Y}: answer a question" in page
    assert page.count("<strong>Customer’s turn</strong>") == 2
    assert f"£{offers[0].total:,.2f}" in page


def test_the_tabs_part_the_quotes_by_whose_turn_it_is_now(offers, office, logged_in):
    asked, followed, declined = offers
    ask_question(asked.quote, "Why?")
    set_follow_up(followed.quote, on=timezone.localdate(), note="The ladder")
    decline_revision(declined, name_typed="O. P.", reason="", because="price", evidence=NOBODY)
    client = logged_in(office)
    # Since the beginning of today, so before the question of just now.
    assert numbers(get(client, "?turn=office")) == [followed.quote.number, asked.quote.number]
    assert numbers(get(client, "?turn=customer")) == []
    assert numbers(get(client, "?turn=nobody")) == numbers(get(client, "?state=declined"))
    assert numbers(get(client, "?state=issued")) == [followed.quote.number, asked.quote.number]
    page = get(client)
    assert 'Office’s turn <span class="tabs__count">2</span>' in page
    assert "The price" in page[page.index("why quotes were declined") :]


def test_as_it_is_typed_only_the_rows_are_sent_and_the_address_stays_one_of_a_whole_page(
    offers, office, logged_in
):
    client = logged_in(office)
    page = get(client, "?q=wx4")
    part = get(client, "?q=wx4", **{"HX-Request": "true"})
    assert part.lstrip().startswith('<div id="found"')
    assert part.strip() in page
    assert "<html" in page
    assert "<html" in get(client, "?q=wx4", **{"HX-Request": "true", "HX-History-Restore-Request": "true"})
    answer = client.get(reverse("quotes"), {"q": "wx4"})
    assert "HX-Request" in answer["Vary"]


def test_nothing_found_in_a_tab_leads_to_all_quotes(offers, office, logged_in):
    page = get(logged_in(office), "?state=declined&q=wx4")
    assert numbers(page) == []
    assert f'href="{reverse("quotes")}?q=wx4"' in page


def test_what_was_typed_is_shown_as_text(offers, office, logged_in):
    page = get(logged_in(office), "?q=%22%3E%3Cscript%3Ex")
    assert "<script>x" not in page


@pytest.mark.parametrize("address", ["?", "?turn=customer&", "?state=issued&", "?q=larkfield&"])
def test_the_pages_hold_every_quote_once_forwards_and_back(survey, office, logged_in, address):
    made = many(survey, office, 2 * PAGE + 7)
    client = logged_in(office)
    pages = [get(client, address)]
    while following := re.search(r'rel="next" href="([^"]+)"', pages[-1]):
        pages.append(get(client, following[1].replace("&amp;", "&")))
    seen = [number for page in pages for number in numbers(page)]
    assert sorted(seen) == sorted(each.number for each in made)
    assert len(pages) == 3
    back = pages[-1]
    for page in reversed(pages[:-1]):
        back = get(client, re.search(r'rel="prev" href="([^"]+)"', back)[1].replace("&amp;", "&"))
        assert numbers(back) == numbers(page)
    assert 'rel="prev"' not in back


@pytest.mark.parametrize(
    "place", ["after=x", "before=9999999999999999999999", "after=2026-13-45_3", "after=2026-11-25_3"]
)
@pytest.mark.parametrize("turn", ["", "turn=customer&"])
def test_a_place_that_cannot_be_read_opens_the_first_page(survey, office, logged_in, place, turn):
    many(survey, office, 3)
    assert len(numbers(get(logged_in(office), f"?{turn}{place}"))) == 3


@pytest.mark.parametrize(
    "address", ["", "?turn=office", "?turn=customer", "?state=issued", "?q=wx4 larkfield"]
)
def test_the_database_is_asked_at_most_ten_times_however_many_quotes_there_are(
    survey, office, logged_in, django_assert_max_num_queries, address
):
    many(survey, office, 120)
    Quote.objects.filter(pk__in=Quote.objects.all()[:50]).update(office_from=timezone.now())
    client = logged_in(office)
    get(client)  # the first page of a day also writes that the session goes on
    with django_assert_max_num_queries(10):
        assert len(numbers(get(client, address))) == PAGE


def test_whoever_sees_no_quotes_does_not_see_the_list(offers, crew, surveyor, logged_in):
    assert logged_in(crew).get(reverse("quotes")).status_code == 403
    assert logged_in(surveyor).get(reverse("quotes")).status_code == 200
