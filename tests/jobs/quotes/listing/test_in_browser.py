"""The list of quotes in a real browser: found while one types, and without a script; whole at every width."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from jobs.customers.models import Customer, Property
from jobs.quotes.customer.decisions import ask_question
from jobs.quotes.listing.following import set_follow_up
from jobs.surveys.services import open_survey
from tests.browser.looking import faults
from tests.browser.walking import log_in
from tests.jobs.offers import make_offer

pytestmark = [
    pytest.mark.requires_chromium,
    pytest.mark.django_db(transaction=True),
    pytest.mark.any_database,
]


@pytest.fixture
def quotes(firm, survey, surveyor, office) -> list[str]:
    """Two quotes of two customers, one of them with a long name and much to be told."""
    someone = Customer.objects.create(name="Llŷr Gwynfryn-Âllt and Hestia Brannigan of the Old Coach House")
    place = Property.objects.create(
        customer=someone, address="Fenwick Lodge, Upper Orchard Way", town="Little Marden", postcode="LM7 3EN"
    )
    second = make_offer(open_survey(place, by=surveyor, visited_on=survey.visited_on), office)
    set_follow_up(second.quote, on=second.valid_until, note="Ask whether the ladder is wanted after all")
    ask_question(second.quote, "May it carry a wardrobe?")
    return [make_offer(survey, office).quote.number, second.quote.number]


def rows(page: Page) -> list[str]:
    shown = page.locator("#found .register__item").all_inner_texts()
    return [re.search(r"Q-[0-9-]+", each)[0] for each in shown]


def test_quotes_are_found_while_one_types_and_the_page_can_be_left_and_come_back_to(quotes, office, new_page):
    page = new_page()
    log_in(page, office.username)
    page.goto("/quotes/")
    box = page.get_by_label("Find by name, address, postcode, telephone or number")
    box.press_sequentially("llyr lm73")
    expect(page.locator("#found .register__item")).to_have_count(1)
    assert rows(page) == [quotes[1]]
    expect(page).to_have_url(re.compile(r"\?q=llyr(\+|%20)lm73$"))
    page.locator("#found .register__link").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Fenwick Lodge")
    page.go_back()
    expect(page.get_by_role("heading", level=1)).to_have_text("Quotes")
    expect(box).to_have_value("llyr lm73")
    assert rows(page) == [quotes[1]]


def test_quotes_are_found_without_a_script(quotes, office, new_page):
    page = new_page(java_script_enabled=False)
    log_in(page, office.username)
    page.goto("/quotes/?turn=customer")
    page.get_by_label("Find by name, address, postcode, telephone or number").fill("wx4")
    page.get_by_role("button", name="Find").click()
    assert rows(page) == [quotes[0]]
    assert "turn=customer" in page.url


def test_every_screen_is_whole_and_can_be_read_by_everyone(quotes, office, new_page, subtests):
    page = new_page()
    log_in(page, office.username)
    quote = f"/quotes/{quotes[1]}/"
    for address in ("/quotes/", f"{quote}follow-up/", f"{quote}A/declined/", f"{quote}A/copy/"):
        page.goto(address)
        with subtests.test(screen=address):
            assert list(faults(page)) == []
