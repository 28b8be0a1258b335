"""What waits for whom: every open end of the firm's work, as far as this person may see and do it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.contrib.auth.models import User
from django.db.models import Exists, F, OuterRef, Q, QuerySet, Subquery
from django.urls import reverse
from django.utils import timezone

from jobs.customers.models import Enquiry
from jobs.firm.insurance_models import Insurance
from jobs.firm.models import Firm
from jobs.firm.settings.reminders import reminders
from jobs.mail.models import OutgoingMail
from jobs.mail.sending import mail_not_gone
from jobs.orders.models import MaterialsOrder
from jobs.price_books.checked import old_prices_in_use
from jobs.quotes.models import CustomerQuestion, Quote, Revision
from jobs.surveys.models import Finding, Survey
from jobs.surveys.tablet.models import KeptAside
from jobs.works.models import Job

SHOWN = 8
READ = 60
"""At most so many rows are read of each kind: whoever has more open needs the lists, not this page."""
LAPSES_WITHIN = timedelta(days=5)
STARTS_WITHIN = timedelta(days=7)


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """One thing that waits: what it is, where, since when or by when, and where to do it."""

    what: str
    where: str
    when: str
    day: date | None
    address: str
    state: str


@dataclass(frozen=True, slots=True)
class Group:
    """Things that wait for the same thing to be done; `address` is where all of them are listed."""

    title: str
    items: tuple[Waiting, ...]
    address: str

    @property
    def shown(self) -> tuple[Waiting, ...]:
        return self.items[:SHOWN]

    @property
    def count(self) -> str:
        return f"{READ} or more" if len(self.items) >= READ else str(len(self.items))


def waiting_for(person: User, *, today: date) -> list[Group]:
    """Return what waits for a person, in the order a job is lived; nothing that waits for nobody."""
    may = person.has_perm
    groups: list[Group] = []
    if may("jobs.change_enquiry") or may("jobs.add_survey"):
        groups += _enquiries(person)
    if may("jobs.add_survey"):
        groups += _surveys(person)
    if may("jobs.change_survey"):
        groups += _kept_aside(person)
    if may("jobs.add_clearance"):
        groups += _stops()
    if may("jobs.change_customerquestion"):
        groups += _questions()
    if may("jobs.change_outgoingmail"):
        groups += _mail()
    if may("jobs.issue_quote"):
        groups += _revisions(today)
    if may("jobs.change_quote"):
        groups += _follow_ups(today)
    if may("jobs.change_materialsorder"):
        groups += _orders()
    if may("jobs.report_job"):
        groups += _jobs(person, today)
    if may("jobs.change_edition"):
        groups += _old_prices(today)
    if may("jobs.change_firm"):
        groups += _firm(today)
    return [group for group in groups if group.items]


def _group(title: str, items: Iterable[Waiting], address: str) -> Group:
    return Group(title, tuple(items), reverse(address))


def _enquiries(person: User) -> list[Group]:
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
        _group("Book a visit", (_enquiry(row, "since", row.received_at) for row in new), "enquiries"),
        _group("Visit", (_enquiry(row, "on", row.visit_at) for row in booked), "enquiries"),
    ]


def _enquiry(row: Enquiry, when: str, at: datetime | None) -> Waiting:
    return Waiting(
        what=row.property.customer.name,
        where=str(row.property),
        when=when,
        day=_day(at),
        address=reverse("enquiry", args=[row.pk]),
        state=row.state,
    )


def _surveys(person: User) -> list[Group]:
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
        _group("Finish the survey", map(_survey, still_open), "surveys"),
        _group("Price the survey", map(_survey, complete), "surveys"),
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


def _kept_aside(person: User) -> list[Group]:
    """The office chooses between values that tablets sent; a surveyor sees those of their own surveys."""
    values = KeptAside.objects.filter(survey=OuterRef("pk"), settled_at=None)
    found = Survey.objects.annotate(kept_since=Subquery(values.order_by("at").values("at")[:1]))
    if not person.has_perm("jobs.add_quote"):
        found = found.filter(surveyor=person)
    rows = found.exclude(kept_since=None).select_related("property").order_by("kept_since", "pk")[:READ]
    items = (
        Waiting(
            what=row.number,
            where=str(row.property),
            when="since",
            day=_day(row.kept_since),
            address=reverse("survey_aside", args=[row.number]),
            state=row.state,
        )
        for row in rows
    )
    return [_group("Choose between values", items, "surveys")]


def _holding() -> QuerySet[Finding]:
    """The stops that hold work."""
    return Finding.objects.filter(severity="stop", seen=Finding.Seen.YES, clearance=None)


def _stops() -> list[Group]:
    rows = _holding().select_related("survey__property").order_by("survey__visited_on", "pk")[:READ]
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
    return [_group("Have a stop cleared", items, "surveys")]


def _questions() -> list[Group]:
    found = CustomerQuestion.objects.filter(answered_at=None)
    rows = found.select_related("quote__property__customer").order_by("asked_at")[:READ]
    items = (
        Waiting(
            what=row.words if len(row.words) <= 90 else f"{row.words[:89]}…",
            where=f"{row.quote.property.customer}, {row.quote.number}",
            when="asked",
            day=_day(row.asked_at),
            address=reverse("quote", args=[row.quote.number]),
            state="waiting",
        )
        for row in rows
    )
    return [_group("Answer", items, "quotes")]


def _mail() -> list[Group]:
    """Mail that failed for good, or that should have gone long ago: the site may have no mail server."""
    rows = mail_not_gone(timezone.now()).defer("text").order_by("made_at", "pk")[:READ]
    return [_group("Mail that did not go", map(_message, rows), "outbox")]


def _message(row: OutgoingMail) -> Waiting:
    return Waiting(
        what=row.subject,
        where=row.recipient,
        when="since",
        day=_day(row.made_at),
        address=reverse("mail", args=[row.pk]),
        state=row.state,
    )


def _revisions(today: date) -> list[Group]:
    lapsing = Q(state=Revision.State.ISSUED, valid_until__lte=today + LAPSES_WITHIN)
    held = Exists(_holding().filter(survey=OuterRef("quote__survey")))  # waits for its stop, not for issue
    ready = Q(state=Revision.State.DRAFT) & ~held
    unsettled = Q(state=Revision.State.CANCELLED, decision__cancellation__settled_at=None)
    found = Revision.objects.filter(ready | lapsing | unsettled).defer("issued", "choices")
    found = found.annotate(cancelled_at=F("decision__cancellation__said_at"))
    rows = list(found.select_related("quote__property__customer").order_by("changed_at")[:READ])
    drafts = [row for row in rows if row.is_draft]
    cancelled = [row for row in rows if row.state == Revision.State.CANCELLED]
    offers = sorted(
        (row for row in rows if row.state == Revision.State.ISSUED), key=lambda row: row.valid_until or today
    )
    return [
        _group(
            "Say what is owed",
            (_revision(row, "cancelled", _day(row.cancelled_at)) for row in cancelled),
            "quotes",
        ),
        _group("Issue the draft", (_revision(row, "begun", _day(row.made_at)) for row in drafts), "quotes"),
        _group(
            "Ask before it lapses", (_revision(row, "until", row.valid_until) for row in offers), "quotes"
        ),
    ]


def _revision(row: Revision, when: str, day: date | None) -> Waiting:
    return Waiting(
        what=f"{row.quote.number}, revision {row.letter}",
        where=f"{row.quote.property.customer}, {row.quote.property}",
        when=when,
        day=day,
        address=reverse("quote", args=[row.quote.number]),
        state=row.state,
    )


def _follow_ups(today: date) -> list[Group]:
    """The quotes whose day to ask again has come, with what to ask."""
    found = Quote.objects.filter(follow_up_on__lte=today).select_related("property__customer")
    items = (
        Waiting(
            what=row.follow_up_note or row.number,
            where=f"{row.property.customer}, {row.number}",
            when="on",
            day=row.follow_up_on,
            address=reverse("quote", args=[row.number]),
            state=row.state,
        )
        for row in found.order_by("follow_up_on", "pk")[:READ]
    )
    return [Group("Follow up", tuple(items), f"{reverse('quotes')}?turn=office")]


def _orders() -> list[Group]:
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
    return [_group("Send the order", items, "orders")]


def _jobs(person: User, today: date) -> list[Group]:
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
        return [_group("Your jobs", (_job(row, "from", row.starts_on) for row in rows), "jobs")]
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
        _group("Book the job", (_job(row, "accepted", _day(row.made_at)) for row in to_book), "jobs"),
        _group("Order for it", (_job(row, "starts", row.starts_on) for row in unordered), "jobs"),
        _group("Hand over", (_job(row, "complete", _day(row.completed_at)) for row in complete), "jobs"),
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


def _old_prices(today: date) -> list[Group]:
    """The prices that new quotes are made with, once they are old by the firm's own measure."""
    old = old_prices_in_use(today=today)
    if old is None:
        return []
    waits = Waiting(
        what=old.edition.name,
        where=old.in_words,
        when="oldest",
        day=old.oldest,
        address=reverse("price_book", args=[old.edition.pk]),
        state=old.edition.state,
    )
    return [_group("Check prices", [waits], "price_books")]


def _firm(today: date) -> list[Group]:
    """What the law wants said of the firm and is not, and insurances that run out."""
    firm = Firm.objects.filter(pk=1).first()
    found = reminders(firm, Insurance.objects.all(), today=today) if firm else []
    items = (
        Waiting(
            what=each.words,
            where="the firm's settings",
            when=("ran out" if each.is_over else "until") if each.day else "",
            day=each.day,
            address=reverse(each.page),
            state="waiting",
        )
        for each in found
    )
    return [_group("Mend the firm's particulars", items, "firm")]


def _day(at: datetime | None) -> date | None:
    return timezone.localdate(at) if at else None
