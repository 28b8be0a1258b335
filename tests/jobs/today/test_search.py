from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.customers.finding import keep_words_of_customers
from jobs.customers.models import Customer, Property
from jobs.orders.models import MaterialsOrder
from jobs.today.search import SHOWN, find
from jobs.works.models import Job

pytestmark = pytest.mark.django_db
EVERY_ROOM = {"Properties", "Surveys", "Quotes", "Materials orders", "Jobs"}


@pytest.fixture
def book(job) -> Job:
    MaterialsOrder.objects.create(number="M-2026-0042", job=job, supplier="Kelmore Timber Yard")
    return job


def rooms(words: str, person) -> set[str]:
    return {findings.title for findings in find(words, person)}


@pytest.mark.parametrize("words", ["Pemberwick", "pemberWICK", "larkfield", "WX4 7LR", "wx47lr", " wx4 "])
def test_a_name_a_street_or_a_postcode_leads_to_all_that_belongs_to_it(book, office, words):
    assert rooms(words, office) >= EVERY_ROOM


@pytest.mark.parametrize(
    ("number", "room"),
    [
        ("M-2026-0042", "Materials orders"),
        ("kelmore", "Materials orders"),
        ("Q-20", "Quotes"),
        ("J-20", "Jobs"),
    ],
)
def test_a_number_or_a_supplier_leads_to_its_room_alone(book, office, number, room):
    assert rooms(number, office) == {room}


def test_a_quote_is_found_by_its_number_as_printed(book, office):
    quote = book.revision.quote
    for printed in (f"{quote.number}{quote.letter}", f"{quote.number}b".lower(), f"{quote.number[-4:]}A"):
        (findings,) = find(printed, office)
        assert (findings.title, findings.shown[0].quote) == ("Quotes", quote)


@pytest.mark.parametrize("words", ["", " ", "W", "nobody of this name"])
def test_too_little_or_nothing_finds_nothing(book, office, words):
    assert find(words, office) == []


def test_a_phone_number_is_found_without_its_spaces(office):
    keep_words_of_customers([Customer.objects.create(name="Wilf Tarrant", phone="020 7946 0418")])
    assert rooms("79460418", office) == {"Customers"}


def test_a_percent_sign_is_a_letter_like_any_other(book, office):
    assert find("%%", office) == []


def test_nobody_finds_what_their_role_may_not_see(book, surveyor, crew):
    assert rooms("WX4", surveyor) == {"Properties", "Surveys", "Quotes", "Jobs"}
    assert rooms("WX4", crew) == {"Surveys"}
    Job.objects.filter(pk=book.pk).update(state=Job.State.BOOKED)
    assert rooms("WX4", crew) == {"Surveys", "Jobs"}


def test_a_long_list_is_cut_short_and_says_so(office):
    someone = Customer.objects.create(name="A landlord")
    Property.objects.bulk_create(
        Property(customer=someone, address=f"{number} Long Row", town="Wexcombe", postcode="WX1 1AA")
        for number in range(SHOWN + 3)
    )
    keep_words_of_customers([someone])
    (findings,) = find("Long Row", office)
    assert (len(findings.shown), findings.has_more) == (SHOWN, True)


def test_as_it_is_typed_only_the_results_are_sent(book, office, logged_in):
    client = logged_in(office)
    page = client.get(reverse("search"), {"q": "wx4"}).content.decode()
    part = client.get(reverse("search"), {"q": "wx4"}, headers={"HX-Request": "true"}).content.decode()
    assert "<html" in page
    assert part.lstrip().startswith('<div id="found">')
    assert part.strip() in page


def test_what_was_typed_is_shown_as_text(office, logged_in):
    words = logged_in(office).get(reverse("search"), {"q": "<script>x"}).content.decode()
    assert "<script>x" not in words
    assert "&lt;script&gt;x" in words


def test_search_asks_for_a_log_in(client):
    assert client.get(reverse("search")).url.startswith("/log-in/")


def test_a_caller_is_told_from_the_results_what_it_costs_and_until_when(offer, office, logged_in):
    page = logged_in(office).get(reverse("search"), {"q": offer.quote.number}).content.decode()
    assert f"£{offer.total:,.2f}" in page
    assert f"holds until {offer.valid_until:%-d %b %Y}" in page
