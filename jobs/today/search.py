"""Find a name, a postcode or a number, in every room that this person may enter."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db.models import F, Q, Value
from django.db.models.functions import Replace
from django.urls import reverse

from jobs.customers.models import Customer, Property
from jobs.orders.models import MaterialsOrder
from jobs.quotes.listing.finding import find_quotes
from jobs.quotes.listing.words import terms_of
from jobs.quotes.models import Quote
from jobs.surveys.models import Survey
from jobs.works.models import Job
from jobs.works.views import CREW_SEES

LEAST_LETTERS = 2
SHOWN = 8


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


def find(words: str, person: User) -> list[Findings]:
    """Return what the words occur in, room by room."""
    words = words.strip()
    if len(words) < LEAST_LETTERS:
        return []
    rooms = (
        ("view_customer", "Customers", _customers),
        ("view_property", "Properties", _properties),
        ("view_survey", "Surveys", _surveys),
        ("view_quote", "Quotes", _quotes),
        ("view_materialsorder", "Materials orders", _orders),
        ("view_job", "Jobs", _jobs),
    )
    found = [
        Findings(title, tuple(search(words, person)))
        for permission, title, search in rooms
        if person.has_perm(f"jobs.{permission}")
    ]
    return [findings for findings in found if findings.items]


def _place(words: str, path: str) -> Q:
    """Match the words to a property on this path, or its customer; a postcode also without its space."""
    together = words.replace(" ", "")
    return (
        Q(**{f"{path}address__icontains": words})
        | Q(**{f"{path}town__icontains": words})
        | Q(packed__icontains=together)
        | Q(**{f"{path}customer__name__icontains": words})
    )


def _packed(path: str) -> Replace:
    return Replace(F(f"{path}postcode"), Value(" "), Value(""))


def _customers(words: str, person: User) -> Iterable[Found]:
    digits = words.replace(" ", "")
    found = Customer.objects.annotate(packed=Replace("phone", Value(" "), Value(""))).filter(
        Q(name__icontains=words) | Q(email__icontains=words) | Q(packed__icontains=digits)
    )
    return (
        Found(row.name, row.phone or row.email, reverse("customer", args=[row.pk]))
        for row in found[: SHOWN + 1]
    )


def _properties(words: str, person: User) -> Iterable[Found]:
    found = Property.objects.annotate(packed=_packed("")).filter(_place(words, "")).select_related("customer")
    return (
        Found(", ".join(row.address_lines), row.customer.name, reverse("customer", args=[row.customer_id]))
        for row in found[: SHOWN + 1]
    )


def _surveys(words: str, person: User) -> Iterable[Found]:
    place = "property__"
    found = Survey.objects.annotate(packed=_packed(place)).filter(
        _place(words, place) | Q(number__icontains=words)
    )
    rows = found.defer("answers").select_related("property")[: SHOWN + 1]
    return (Found(row.number, str(row.property), reverse("survey", args=[row.number])) for row in rows)


def _quotes(words: str, person: User) -> Iterable[Found]:
    """A quote once, as its list finds it: by the beginnings of words, however many quotes there are."""
    if not terms_of(words):
        return ()
    rows = find_quotes(words, Quote.objects.select_related("property").order_by("-pk"))[: SHOWN + 1]
    return (
        Found(f"{row.number}{row.letter}", str(row.property), reverse("quote", args=[row.number]), row)
        for row in rows
    )


def _orders(words: str, person: User) -> Iterable[Found]:
    place = "job__revision__quote__property__"
    found = MaterialsOrder.objects.annotate(packed=_packed(place)).filter(
        _place(words, place) | Q(number__icontains=words) | Q(supplier__icontains=words)
    )
    rows = found.defer("job__revision__issued").select_related("job__revision__quote__property")[: SHOWN + 1]
    return (
        Found(
            f"{row.number}, {row.supplier}",
            str(row.job.revision.quote.property),
            reverse("order", args=[row.number]),
        )
        for row in rows
    )


def _jobs(words: str, person: User) -> Iterable[Found]:
    """Whoever sees no quotes finds only jobs that are booked, as in the list of jobs."""
    place = "revision__quote__property__"
    found = Job.objects.annotate(packed=_packed(place)).filter(
        _place(words, place) | Q(number__icontains=words)
    )
    if not person.has_perm("jobs.view_quote"):
        found = found.filter(state__in=CREW_SEES)
    rows = found.defer("revision__issued").select_related("revision__quote__property")[: SHOWN + 1]
    return (
        Found(row.number, str(row.revision.quote.property), reverse("job", args=[row.number])) for row in rows
    )
