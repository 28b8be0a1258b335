"""Find customers and properties by the beginnings of their words, and keep those words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from django.db import transaction
from django.db.models import QuerySet

from jobs.customers.models import Customer, Property
from jobs.customers.word_models import KnownWord
from jobs.customers.words import terms_of, words_of_customer, words_of_place

AT_ONCE = 1000
FENCE = 10_000_000
"""More words than there are. Behind a limit PostgreSQL looks the words up by themselves; without one it may
walk through all rows from the newest on, guessing that one that matches comes soon."""


def find_customers(typed: str) -> QuerySet[Customer]:
    """Return the customers that the words may mean: each begins a word of theirs, or of a property."""
    return _found(Customer.objects.prefetch_related("properties"), typed, "customer", KnownWord.objects.all())


def find_by_own_words(typed: str) -> QuerySet[Customer]:
    """Return the customers who are themselves meant, whatever is known of their properties."""
    return _found(Customer.objects.all(), typed, "customer", KnownWord.objects.filter(property=None))


def find_properties(typed: str) -> QuerySet[Property]:
    """Return the properties that the words may mean, by their own words and their customers'."""
    return _found(Property.objects.all(), typed, "property", KnownWord.objects.exclude(property=None))


def _found(among: QuerySet, typed: str, kind: str, words: QuerySet[KnownWord]) -> QuerySet:
    terms = terms_of(typed)
    for term in terms:
        among = among.filter(pk__in=words.filter(word__begins=term).values(kind)[:FENCE])
    return among if terms else among.none()


@transaction.atomic
def keep_words_of_customers(customers: Iterable[Customer]) -> None:
    """Write the words of customers and of all their properties anew; whatever changes them ends with this."""
    customers = list(customers)
    KnownWord.objects.filter(customer__in=customers).delete()
    KnownWord.objects.bulk_create(
        (row for customer in customers for row in _rows(customer)), batch_size=AT_ONCE
    )


def _rows(customer: Customer) -> Iterator[KnownWord]:
    for word in sorted(words_of_customer(customer)):
        yield KnownWord(customer=customer, word=word)
    for place in customer.properties.all():
        place.customer = customer
        for word in sorted(words_of_place(place)):
            yield KnownWord(customer=customer, property=place, word=word)
