"""What an edition lacks is found when it is closed, with the page that mends it; old prices are told."""

from __future__ import annotations

import re
from datetime import date, timedelta
from html import unescape

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.demo.price_book import demo_price_book
from jobs.price_books.as_price_book import fill_edition
from jobs.price_books.checked import old_prices, old_prices_in_use
from jobs.price_books.closing import lacks_of, notes_of
from jobs.price_books.models import Edition

pytestmark = pytest.mark.django_db
DATED = date(2026, 11, 1)


@pytest.fixture
def open_edition(firm) -> Edition:
    edition = Edition.objects.create(name="Winter", dated=DATED, hourly_cost=1)
    fill_edition(edition, demo_price_book(firm=firm.name, dated=timezone.localdate()))
    return edition


def spoil(edition: Edition) -> None:
    edition.products.filter(role__in=("insulation roll", "ladder")).delete()
    edition.products.filter(code="SCR-PEDESTAL").delete()
    edition.labour_rates.filter(task="saw boards").delete()
    edition.condition_rates.filter(condition="crawling height").delete()
    board = edition.products.get(code="BRD-2400-22")
    del board.dimensions["thickness_mm"]
    board.save()
    edition.charges.filter(code="WASTE").update(amount=0)
    edition.hourly_cost = 0
    edition.save()


def test_all_that_is_lacking_is_listed_with_the_page_that_mends_it(open_edition, owner, logged_in):
    spoil(open_edition)
    lacks = {lack.words: lack.address for lack in lacks_of(open_edition)}
    board = open_edition.products.get(code="BRD-2400-22")
    waste = open_edition.charges.get(code="WASTE")
    here = f"/price-books/{open_edition.pk}/"
    new = f"{here}products/new/"
    assert lacks == {
        "Products needs at least one product for insulation roll": f"{new}?role=insulation+roll",
        "Products needs a screw for each pedestal": f"{here}products/new/?role=screw&fixes=pedestal",
        'Labour rates needs a rate for "saw boards"': f"{here}labour/new/?task=saw+boards",
        'Condition rates needs a rate for "crawling height"': f"{here}condition/new/"
        "?condition=crawling+height",
        f"{board.description}: thickness, mm is missing": f"{here}products/{board.pk}/#id_thickness_mm",
        f"{waste.description}: amount must be more than 0 pounds": f"{here}charge/{waste.pk}/#id_amount",
        "Hourly cost must be more than 0 pounds": f"{here}pricing/#id_hourly_cost",
    }
    client = logged_in(owner)
    page = client.get(reverse("edition_closing", args=[open_edition.pk]))
    shown = page.content.decode()
    for words, address in lacks.items():
        assert words in unescape(shown)
        mending = client.get(address).content.decode()
        box = address.partition("#")[2]
        assert not box or f'id="{box}"' in mending
    assert reverse("edition_close", args=[open_edition.pk]) not in shown
    begun = client.get(lacks["Products needs a screw for each pedestal"]).content.decode()
    assert '<option value="pedestal" selected>' in begun
    begun = client.get(lacks['Labour rates needs a rate for "saw boards"']).content.decode()
    assert '<option value="saw boards" selected>' in begun


def test_an_edition_that_lacks_something_stays_open_and_its_list_is_shown(open_edition, owner, logged_in):
    open_edition.charges.filter(code="WASTE").update(amount=0)
    answer = logged_in(owner).post(reverse("edition_close", args=[open_edition.pk]))
    assert answer.url == reverse("edition_closing", args=[open_edition.pk])
    open_edition.refresh_from_db()
    assert open_edition.is_open


def test_what_is_not_sold_is_told_and_holds_nothing_up(open_edition, owner, logged_in):
    open_edition.products.filter(role__in=("ladder", "batten")).delete()
    open_edition.products.filter(code="LIGHT-LED").update(weight_kg=0)
    notes = [note.words for note in notes_of(open_edition)]
    assert "No product for ladder: quotes cannot offer one." in notes
    assert "Decks stand on pedestals only: there is no batten." in notes
    assert any(words.startswith("Sealed light with pull switch: no weight") for words in notes)
    client = logged_in(owner)
    shown = client.get(reverse("edition_closing", args=[open_edition.pk])).content.decode()
    assert all(words in unescape(shown) for words in notes)
    assert "Nothing is missing that a loft may need" in shown
    assert client.post(reverse("edition_close", args=[open_edition.pk])).url == reverse(
        "price_book", args=[open_edition.pk]
    )
    open_edition.refresh_from_db()
    assert not open_edition.is_open


def test_a_closed_edition_has_no_closing_page(edition, owner, logged_in):
    answer = logged_in(owner).get(reverse("edition_closing", args=[edition.pk]))
    assert answer.url == reverse("price_book", args=[edition.pk])


@pytest.mark.parametrize(("days_ago", "is_old"), [(0, False), (90, False), (91, True)])
def test_prices_are_old_once_the_firms_days_have_passed(open_edition, days_ago, is_old):
    today = timezone.localdate()
    checked = today - timedelta(days=days_ago)
    open_edition.products.filter(code="WOOL-100").update(checked_on=checked)
    old = old_prices(open_edition, today=today)
    assert (old is not None) == is_old
    if old:
        assert (old.count, old.never, old.oldest) == (1, 0, checked)
        assert re.match(r"1 price was last checked more than 90 days ago, the oldest on ", old.in_words)


def test_the_firm_says_after_how_many_days_prices_are_old(open_edition, firm):
    today = timezone.localdate()
    open_edition.products.update(checked_on=today - timedelta(days=40))
    assert old_prices(open_edition, today=today) is None
    firm.prices_checked_days = 30
    firm.save()
    old = old_prices(open_edition, today=today)
    assert old is not None
    assert old.count == open_edition.products.count()


def test_a_price_that_was_never_checked_is_old(open_edition):
    open_edition.products.filter(code="WOOL-100").update(checked_on=None)
    old = old_prices(open_edition, today=timezone.localdate())
    assert old is not None
    assert old.in_words == "1 has no date of a check."


def test_old_prices_are_told_on_today_and_on_the_edition(edition, owner, surveyor, logged_in):
    today = timezone.localdate()
    edition.products.update(checked_on=today)
    assert old_prices_in_use(today=today) is None
    client = logged_in(owner)
    assert "Check prices" not in client.get(reverse("today")).content.decode()
    edition.products.filter(code="WOOL-100").update(checked_on=today - timedelta(days=200))
    for page in (reverse("today"), reverse("price_book", args=[edition.pk])):
        assert "1 price was last checked more than 90 days ago" in client.get(page).content.decode()
    assert "Check prices" not in logged_in(surveyor).get(reverse("today")).content.decode()


def test_a_rounding_for_business_customers_only_is_noted_before_it_is_closed(edition):
    Edition.objects.update(vat_rounding="invoice_rounded_down")
    edition.refresh_from_db()
    assert any("no household is quoted" in note.words for note in notes_of(edition))
    Edition.objects.update(vat_registered=False)
    edition.refresh_from_db()
    assert not any("no household is quoted" in note.words for note in notes_of(edition))


@pytest.mark.parametrize("registered", [True, False])
def test_a_firm_that_charges_no_vat_is_told_to_carry_it_in_its_costs(edition, registered):
    edition.vat_registered = registered
    told = any("so every cost here must have the VAT in it" in note.words for note in notes_of(edition))
    assert told is not registered
