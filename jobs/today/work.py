"""What waits of accepted work: orders to send, jobs to book, to order for and to hand over."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

from django.contrib.auth.models import User
from django.db.models import Exists, F, OuterRef, Q
from django.urls import reverse

from jobs.orders.models import MaterialsOrder
from jobs.today.groups import READ, Group, Waiting, day_of, group_of
from jobs.works.models import Job

STARTS_WITHIN = timedelta(days=7)


def orders_to_send() -> list[Group]:
    """Unsent orders, once their day is known: those of an acceptance first wait for the job to be booked."""
    planned = Q(job__state__in=(Job.State.BOOKED, Job.State.UNDER_WAY))
    wanted = Q(job__state=Job.State.ACCEPTED, wanted_on__isnull=False)
    found = MaterialsOrder.objects.filter(planned | wanted, state=MaterialsOrder.State.DRAFT)
    rows = found.select_related("job__revision__quote__property").order_by(
        F("wanted_on").asc(nulls_first=True), "pk"
    )[:READ]
    items = (
        Waiting(
            what=f"{row.number}, {row.supplier}",
            where=str(row.job.revision.quote.property),
            when="wanted",
            day=row.wanted_on,
            address=reverse("order", args=[row.number]),
            state=row.state,
        )
        for row in rows
    )
    return [group_of("Send the order", items, "orders")]


def jobs_to_move(person: User, today: date) -> list[Group]:
    """Whoever books jobs sees what keeps them from beginning; the crew sees the jobs it is on."""
    sent = MaterialsOrder.objects.filter(job=OuterRef("pk")).exclude(state=MaterialsOrder.State.DRAFT)
    state = Job.State
    found = Job.objects.exclude(state__in=(state.HANDED_OVER, state.CLOSED, state.CALLED_OFF)).annotate(
        has_sent=Exists(sent)
    )
    books = person.has_perm("jobs.book_job")
    if not books:
        found = found.filter(crew=person, state__in=(state.BOOKED, state.UNDER_WAY))
    ordered = found.defer("revision__issued", "revision__choices").order_by(
        F("starts_on").asc(nulls_first=True), "pk"
    )
    rows = list(ordered.select_related("revision__quote__property__customer")[:READ])
    if not books:
        return [group_of("Your jobs", (_job(row, "from", row.starts_on) for row in rows), "jobs")]
    soon = today + STARTS_WITHIN

    def those(claim: Callable[[Job], bool]) -> list[Job]:
        return [row for row in rows if claim(row)]

    def begins_unordered(row: Job) -> bool:
        return (
            row.state == state.BOOKED
            and not row.has_sent
            and row.starts_on is not None
            and row.starts_on <= soon
        )

    to_book = those(lambda row: row.state == state.ACCEPTED)
    unordered = those(begins_unordered)
    complete = those(lambda row: row.state == state.COMPLETE)
    return [
        group_of("Book the job", (_job(row, "accepted", day_of(row.made_at)) for row in to_book), "jobs"),
        group_of("Order for it", (_job(row, "starts", row.starts_on) for row in unordered), "jobs"),
        group_of("Hand over", (_job(row, "complete", day_of(row.completed_at)) for row in complete), "jobs"),
    ]


def _job(row: Job, when: str, day: date | None) -> Waiting:
    return Waiting(
        what=f"{row.number}, {row.revision.quote.property.customer}",
        where=str(row.revision.quote.property),
        when=when,
        day=day,
        address=reverse("job", args=[row.number]),
        state=row.state,
    )
