"""A quote is found by the beginning of any of its words, however that is written."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.customers.models import Customer, Property
from jobs.customers.words import folded, terms_of
from jobs.quotes.listing.finding import find_quotes, keep_words
from jobs.quotes.listing.models import QuoteWord
from jobs.quotes.listing.words import words_of_quote
from jobs.quotes.models import Quote
from jobs.surveys.models import Survey

pytestmark = pytest.mark.django_db


@pytest.fixture
def quote(offer) -> Quote:
    Customer.objects.update(name="Llŷr O'Neill-Sørby", phone="+441614960137")
    Property.objects.update(locality="Upper St. Jude's")
    Quote.objects.update(number="Q-2026-0147")
    found = Quote.objects.select_related("property__customer").get()
    keep_words([found])
    return found


def found(typed: str) -> list[Quote]:
    return list(find_quotes(typed, Quote.objects.all()))


@pytest.mark.parametrize(
    "typed",
    [
        "llyr", "LLŶR", "Llŷr", "lly", "o'neill", "O’Neill", "oneill", "neill", "sorby", "Sørby",
        "neill-sorby", "larkfield", "14 lark", "wexc", "st jude", "st. jude's", "WX4 7LR", "wx47lr",
        "wx4 7", "wx4", "WX47", "Q-2026-0147", "q2026", "2026-0147", "0147", "147", "q-20", "0161 496 0137",
        "01614960137", "+44 161 496 0137", "+44161", "44 161 496 0137", "(0161) 496", "496 0137", "960137",
        "llyr wx4", "neill 14 larkfield rise", "Q-2026-0147A", "q-2026-0147a", "2026-0147B", "0147A",
        "0147ab", "Llŷr Q-2026-0147A",
    ],
)  # fmt: skip
def test_a_quote_is_found_by(quote, typed):
    assert found(typed) == [quote]


@pytest.mark.parametrize(
    "typed",
    [
        "yr",
        "arkfield",
        "7lr",
        "wx5",
        "0148",
        "llyr wx5",
        "0161 497",
        "stjude",
        "zzz",
        "0148A",
        "147A",
        "q-2026-014A",
        "0147abc",
    ],
)
def test_what_begins_no_word_finds_nothing(quote, typed):
    assert found(typed) == []


@pytest.mark.parametrize("typed", ["llyr_", "ll%", "%lly", "* llyr"])
def test_signs_are_no_letters_and_stand_for_none(quote, typed):
    assert found(typed) == [quote]


@pytest.mark.parametrize("typed", ["", " ", "l", "1", "'", "%", "- -"])
def test_less_than_two_letters_keep_the_list_as_it_is(quote, typed):
    assert terms_of(typed) == []
    assert found(typed) == [quote]


def test_words_follow_the_customer_and_the_property(quote, office, logged_in):
    client = logged_in(office)
    customer, place = quote.property.customer, quote.property
    client.post(
        reverse("customer_change", args=[customer.pk]),
        {"name": "Zora Thornwell", "kind": "household", "phone": "020 7946 0418"},
    )
    assert (found("zora"), found("79460418"), found("llyr")) == ([quote], [quote], [])
    client.post(
        reverse("property_change", args=[place.pk]),
        {"address": "3 Kelp Row", "town": "Wexcombe", "postcode": "wx19 1aa", "nation": place.nation},
    )
    assert (found("wx191"), found("kelp"), found("larkfield")) == ([quote], [quote], [])


def test_the_words_of_a_new_quote_are_kept_with_it(draft):
    kept = set(QuoteWord.objects.filter(quote=draft.quote).values_list("word", flat=True))
    assert kept == words_of_quote(draft.quote)
    assert "pemberwick" in kept


def test_words_of_any_script_and_length_are_kept(survey, office):
    Customer.objects.update(name="Юлия " + "x" * 100)
    quote = Quote.objects.create(number="Q-1", property=survey.property, survey=survey, made_by=office)
    quote = Quote.objects.select_related("property__customer").get(pk=quote.pk)
    keep_words([quote])
    assert found("юлия") == found("x" * 60) == [quote]


def test_folding_leaves_plain_letters():
    assert folded("ÀÉÎÕÜŴŶ Straße Łódź Þór") == "aeiouwy strasse lodz thor"


@pytest.mark.django_db
def test_a_beginning_is_looked_up_in_the_index(quote, survey: Survey):
    plan = QuoteWord.objects.filter(word__begins="pem").values("quote").explain()
    assert "quotes_by_word" in plan or "Seq Scan" in plan  # PostgreSQL reads a small table whole
