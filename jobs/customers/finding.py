"""Find customers by what is known on the telephone: a name, a postcode, a street, a number."""

from __future__ import annotations

from django.db.models import Q, QuerySet

from jobs.customers.models import Customer
from jobs.customers.phones import kept_phone
from jobs.customers.postcodes import normal_postcode

LEAST_DIGITS = 5


def find_customers(words: str) -> QuerySet[Customer]:
    """Return the customers that the words may mean; every word must be found somewhere."""
    found = Customer.objects.prefetch_related("properties")
    asked = words.strip()
    if not asked:
        return found.none()
    digits = "".join(sign for sign in asked if sign.isdigit())
    exact = Q(properties__postcode=normal_postcode(asked)) | Q(phone=kept_phone(asked))
    if len(digits) >= LEAST_DIGITS and not any(sign.isalpha() for sign in asked):
        exact |= Q(phone__contains=digits.lstrip("0"))
    each_word = Q()
    for word in asked.split():
        each_word &= (
            Q(name__icontains=word)
            | Q(email__icontains=word)
            | Q(properties__address__icontains=word)
            | Q(properties__town__icontains=word)
            | Q(properties__postcode__istartswith=word)
        )
    return found.filter(exact | each_word).distinct()
