"""Customers and properties are found by the beginnings of their words, from the moment they are written."""

from __future__ import annotations

from importlib import import_module

import pytest
from django.apps import apps

from jobs.customers.finding import find_by_own_words, find_customers, find_properties
from jobs.customers.models import Customer, Enquiry, Property
from jobs.customers.services import change_customer, change_property, take_enquiry
from jobs.customers.word_models import KnownWord

pytestmark = pytest.mark.django_db
MIGRATION = import_module("jobs.migrations.0024_find_everything_by_its_words")


@pytest.fixture
def taken(office) -> Property:
    """Return the property of an enquiry just taken from somebody new."""
    customer = Customer(name="Llŷr O'Neill", phone="+441614960137", email="llyr.oneill@example.org")
    place = Property(address="14 Larkfield Rise", town="Wexcombe", postcode="WX4 7LR")
    return take_enquiry(Enquiry(), building=place, customer=customer, by=office).property


@pytest.mark.parametrize(
    "typed",
    [
        "llyr", "neill", "14 lark", "wexc", "wx47", "WX4 7LR", "0161 496", "960137",
        "llyr.oneill@example.or",
        "llyr larkfield",
    ],
)  # fmt: skip
def test_a_customer_is_found_by_their_own_words_and_by_their_property(taken, typed):
    assert list(find_customers(typed)) == [taken.customer]


@pytest.mark.parametrize("typed", ["", "l", "%%", "yr", "field", "wx5", "llyr brannigan"])
def test_what_begins_no_word_finds_nobody(taken, typed):
    assert list(find_customers(typed)) == []


@pytest.mark.parametrize(
    ("typed", "themselves", "property_too"),
    [
        ("llyr", True, True),
        ("larkfield", False, True),
        ("example.org", True, False),
        ("llyr lark", False, True),
    ],
)
def test_a_street_is_a_word_of_the_property_and_an_address_of_mail_one_of_the_customer(
    taken, typed, themselves, property_too
):
    assert list(find_by_own_words(typed)) == [taken.customer] * themselves
    assert list(find_properties(typed)) == [taken] * property_too


def test_a_landlord_of_two_houses_is_found_once_and_each_house_by_its_own_street(taken):
    other = Property(customer=taken.customer, address="3 Mill Terrace", town="Wexcombe", postcode="WX1 2AB")
    change_property(other)
    assert list(find_customers("llyr")) == [taken.customer]
    assert list(find_properties("mill")) == [other]
    assert list(find_properties("llyr mill")) == [other]
    assert set(find_properties("llyr")) == {taken, other}


def test_whoever_changes_is_found_by_what_stands_there_now(taken):
    customer = taken.customer
    customer.name, customer.email = "Hestia Brannigan", ""
    change_customer(customer)
    taken.address = "9 Forge Hill"
    change_property(taken)
    for typed in ("llyr", "larkfield"):
        assert not find_customers(typed)
        assert not find_properties(typed)
    assert list(find_properties("hestia forge")) == [taken]


def test_customers_kept_before_there_were_words_are_found_after_the_migration(taken):
    kept = set(KnownWord.objects.values_list("word", "property", "customer"))
    KnownWord.objects.all().delete()
    MIGRATION.know_who_is_there(apps, None)
    assert set(KnownWord.objects.values_list("word", "property", "customer")) == kept
