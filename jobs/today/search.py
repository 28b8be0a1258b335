"""Find a name, a postcode or a number, in every room that this person may enter."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from django.contrib.auth.models import User
from django.db.models import Q, QuerySet
from django.urls import reverse

from jobs.customers.finding import find_by_own_words, find_properties
from jobs.customers.models import Property
from jobs.customers.words import folded, terms_of
from jobs.orders.models import MaterialsOrder
from jobs.quotes.listing.finding import find_quotes
from jobs.quotes.models import Quote
from jobs.surveys.models import Survey
from jobs.works.models import Job
from jobs.works.views import CREW_SEES

LEAST_LETTERS = 2
SHOWN = 8
PLACES = 200
"""So many properties, the newest, are looked into for what belongs to them: who wants more types more."""
READ = 100
PART_OF_NUMBER = re.compile(r"[A-Za-z]?-?\d[\d-]*")


@dataclass(frozen=True, slots=True)
class Found:
    """One thing found, and where it is; a quote also tells its price, to answer a caller at once."""

    what: str
    where: str
    address: str
    quote: Quote | None = None


@dataclass(frozen=True, slots=True)
class Findings:
    """What was found in one room; one more than is shown tells that there are more."""

    title: str
    items: tuple[Found, ...]

    @property
    def shown(self) -> tuple[Found, ...]:
        return self.items[:SHOWN]

    @property
    def has_more(self) -> bool:
        return len(self.items) > SHOWN


@dataclass(frozen=True, slots=True)
class Asked:
    """What somebody looks for: the words as typed, and the properties that they mean."""

    words: str
    person: User
    places: list[int] = field(default_factory=list)

    @property
    def number(self) -> Q | None:
        """What a number has to hold, where the words may be a part of one, such as J-2026-0147."""
        return Q(number__contains=self.words.upper()) if PART_OF_NUMBER.fullmatch(self.words) else None

    def belongs(self, path: str) -> Q | None:
        return Q(**{f"{path}__in": self.places}) if self.places else None


def find(words: str, person: User) -> list[Findings]:
    """Return what the words mean, room by room: names and places by the beginnings of their words."""
    words = words.strip()
    if len(words) < LEAST_LETTERS:
        return []
    newest = find_properties(words).order_by("-pk").values_list("pk", flat=True)
    asked = Asked(words, person, list(newest[:PLACES]))
    rooms = (
        ("view_customer", "Customers", _customers),
        ("view_property", "Properties", _properties),
        ("view_survey", "Surveys", _surveys),
        ("view_quote", "Quotes", _quotes),
        ("view_materialsorder", "Materials orders", _orders),
        ("view_job", "Jobs", _jobs),
    )
    found = [
        Findings(title, tuple(search(asked)))
        for permission, title, search in rooms
        if person.has_perm(f"jobs.{permission}")
    ]
    return [findings for findings in found if findings.items]


def _few(rows: QuerySet, *conditions: Q | None) -> QuerySet:
    """Return some rows that meet any of the conditions: each is asked alone, so that an index answers it."""
    found: set[int] = set()
    for condition in conditions:
        if condition is not None:
            found.update(rows.order_by().filter(condition).values_list("pk", flat=True)[:READ])
    return rows.filter(pk__in=found)[: SHOWN + 1] if found else rows.none()


def _customers(asked: Asked) -> Iterable[Found]:
    rows = find_by_own_words(asked.words)[: SHOWN + 1]
    return (Found(row.name, row.phone or row.email, reverse("customer", args=[row.pk])) for row in rows)


def _properties(asked: Asked) -> Iterable[Found]:
    newest = asked.places[: SHOWN + 1]
    rows = Property.objects.filter(pk__in=newest).select_related("customer")
    return (
        Found(", ".join(row.address_lines), row.customer.name, reverse("customer", args=[row.customer_id]))
        for row in rows
    )


def _surveys(asked: Asked) -> Iterable[Found]:
    rows = Survey.objects.defer("answers").select_related("property")
    found = _few(rows, asked.belongs("property"), asked.number)
    return (Found(row.number, str(row.property), reverse("survey", args=[row.number])) for row in found)


def _quotes(asked: Asked) -> Iterable[Found]:
    """A quote once, as its list finds it: by the beginnings of words, however many quotes there are."""
    if not terms_of(asked.words):
        return ()
    rows = find_quotes(asked.words, Quote.objects.select_related("property").order_by("-pk"))[: SHOWN + 1]
    return (
        Found(f"{row.number}{row.letter}", str(row.property), reverse("quote", args=[row.number]), row)
        for row in rows
    )


def _orders(asked: Asked) -> Iterable[Found]:
    rows = MaterialsOrder.objects.select_related("job__revision__quote__property")
    found = _few(
        rows.defer("job__revision__issued", "job__revision__choices"),
        asked.belongs("job__revision__quote__property"),
        asked.number,
        _of_suppliers(asked.words),
    )
    return (
        Found(
            f"{row.number}, {row.supplier}",
            str(row.job.revision.quote.property),
            reverse("order", args=[row.number]),
        )
        for row in found
    )


def _of_suppliers(words: str) -> Q | None:
    """Return the orders to suppliers whose name holds the words: suppliers are few, and orders are many."""
    every = MaterialsOrder.objects.order_by().values_list("supplier", flat=True).distinct()
    named = [supplier for supplier in every if folded(words) in folded(supplier)]
    return Q(supplier__in=named) if named else None


def _jobs(asked: Asked) -> Iterable[Found]:
    """Whoever sees no quotes finds only jobs that are booked, as in the list of jobs."""
    rows = Job.objects.select_related("revision__quote__property")
    if not asked.person.has_perm("jobs.view_quote"):
        rows = rows.filter(state__in=CREW_SEES)
    found = _few(
        rows.defer("revision__issued", "revision__choices"),
        asked.belongs("revision__quote__property"),
        asked.number,
    )
    return (
        Found(row.number, str(row.revision.quote.property), reverse("job", args=[row.number]))
        for row in found
    )
