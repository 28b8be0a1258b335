"""Find quotes by the beginnings of their words, and keep those words."""

from __future__ import annotations

from collections.abc import Iterable

from django.db import transaction
from django.db.models import Q, QuerySet

from jobs.customers.finding import FENCE
from jobs.customers.models import Customer, Property
from jobs.customers.words import terms_of
from jobs.quotes.listing.models import QuoteWord
from jobs.quotes.listing.words import number_without_letter, words_of_quote
from jobs.quotes.models import Quote

AT_ONCE = 1000


def find_quotes(typed: str, among: QuerySet[Quote]) -> QuerySet[Quote]:
    """Return the quotes in which every term typed begins some word, or is a number with its letter."""
    for term in terms_of(typed):
        meant, number = Q(word__begins=term), number_without_letter(term)
        if number:
            meant |= Q(word=number)
        found = QuoteWord.objects.filter(meant).values("quote")[:FENCE]
        among = among.filter(pk__in=found)
    return among


@transaction.atomic
def keep_words(quotes: Iterable[Quote]) -> None:
    """Write the words of quotes anew; whatever changes a name, an address or a number ends with this."""
    quotes = list(quotes)
    QuoteWord.objects.filter(quote__in=quotes).delete()
    rows = (QuoteWord(quote=quote, word=word) for quote in quotes for word in sorted(words_of_quote(quote)))
    QuoteWord.objects.bulk_create(rows, batch_size=AT_ONCE)


def keep_words_of_customer(customer: Customer) -> None:
    """Write the words of all quotes of a customer anew."""
    keep_words(_quotes().filter(property__customer=customer))


def keep_words_of_property(place: Property) -> None:
    """Write the words of all quotes for a property anew."""
    keep_words(_quotes().filter(property=place))


def _quotes() -> QuerySet[Quote]:
    return Quote.objects.select_related("property__customer")
