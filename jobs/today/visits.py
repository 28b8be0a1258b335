"""What waits before a quote: visits, surveys, values that tablets sent, stops."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.db.models import Exists, F, OuterRef, Q, QuerySet, Subquery
from django.urls import reverse

from jobs.customers.models import Enquiry
from jobs.quotes.models import Quote
from jobs.surveys.models import Finding, Survey
from jobs.surveys.tablet.models import KeptAside
from jobs.today.groups import READ, Group, Waiting, day_of, group_of


def visits_to_make(person: User) -> list[Group]:
    """Whoever changes enquiries books the visits; a surveyor sees the visits that are theirs."""
    found = Enquiry.objects.filter(state__in=(Enquiry.State.NEW, Enquiry.State.VISIT_BOOKED))
    if not person.has_perm("jobs.change_enquiry"):
        found = found.filter(surveyor=person)
    rows = list(
        found.select_related("property__customer").order_by(
            F("visit_at").asc(nulls_first=True), "received_at"
        )[:READ]
    )
    new = [row for row in rows if row.state == Enquiry.State.NEW]
    booked = [row for row in rows if row.state == Enquiry.State.VISIT_BOOKED]
    return [
        group_of("Book a visit", (_enquiry(row, "since", row.received_at) for row in new), "enquiries"),
        group_of("Visit", (_enquiry(row, "on", row.visit_at) for row in booked), "enquiries"),
    ]


def _enquiry(row: Enquiry, when: str, at: datetime | None) -> Waiting:
    return Waiting(
        what=row.property.customer.name,
        where=str(row.property),
        when=when,
        day=day_of(at),
        address=reverse("enquiry", args=[row.pk]),
        state=row.state,
    )


def surveys_to_finish(person: User) -> list[Group]:
    """A survey waits while it is open, and then until somebody prices it."""
    quoted = Exists(Quote.objects.filter(survey=OuterRef("pk")))
    found = Survey.objects.filter(Q(state=Survey.State.OPEN) | ~quoted)
    prices = person.has_perm("jobs.add_quote")
    if not prices:
        found = found.filter(surveyor=person, state=Survey.State.OPEN)
    rows = list(found.select_related("property").order_by("visited_on", "pk")[:READ])
    still_open = [row for row in rows if row.state == Survey.State.OPEN]
    complete = [row for row in rows if row.state == Survey.State.COMPLETE]
    return [
        group_of("Finish the survey", map(_survey, still_open), "surveys"),
        group_of("Price the survey", map(_survey, complete), "surveys"),
    ]


def _survey(row: Survey) -> Waiting:
    return Waiting(
        what=row.number,
        where=str(row.property),
        when="measured",
        day=row.visited_on,
        address=reverse("survey", args=[row.number]),
        state=row.state,
    )


def values_to_choose(person: User) -> list[Group]:
    """The office chooses between values that tablets sent; a surveyor sees those of their own surveys."""
    values = KeptAside.objects.filter(settled_at=None)
    oldest = values.filter(survey=OuterRef("pk")).order_by("at").values("at")[:1]
    found = Survey.objects.filter(pk__in=values.values("survey")).annotate(kept_since=Subquery(oldest))
    if not person.has_perm("jobs.add_quote"):
        found = found.filter(surveyor=person)
    rows = found.select_related("property").order_by("kept_since", "pk")[:READ]
    items = (
        Waiting(
            what=row.number,
            where=str(row.property),
            when="since",
            day=day_of(row.kept_since),
            address=reverse("survey_aside", args=[row.number]),
            state=row.state,
        )
        for row in rows
    )
    return [group_of("Choose between values", items, "surveys")]


def stops_that_hold() -> QuerySet[Finding]:
    """The stops that hold work."""
    return Finding.objects.filter(severity="stop", seen=Finding.Seen.YES, clearance=None)


def stops_to_clear() -> list[Group]:
    rows = stops_that_hold().select_related("survey__property").order_by("survey__visited_on", "pk")[:READ]
    items = (
        Waiting(
            what=row.words or row.hazard,
            where=str(row.survey.property),
            when="found",
            day=row.survey.visited_on,
            address=reverse("finding_clear", args=[row.survey.number, row.pk]),
            state="stop",
        )
        for row in rows
    )
    return [group_of("Have a stop cleared", items, "surveys")]
