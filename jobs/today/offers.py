"""What waits about quotes: questions, mail, drafts, offers that lapse, what is owed, follow-ups."""

from __future__ import annotations

from datetime import date, timedelta

from django.contrib.auth.models import User
from django.db.models import Exists, F, OuterRef, Q
from django.urls import reverse
from django.utils import timezone

from jobs.mail.models import OutgoingMail
from jobs.mail.sending import mail_not_gone
from jobs.quotes.approval import APPROVE
from jobs.quotes.customer.models import CustomerQuestion
from jobs.quotes.models import Quote, Revision
from jobs.today.groups import READ, Group, Waiting, day_of, group_of
from jobs.today.visits import stops_that_hold

LAPSES_WITHIN = timedelta(days=5)
WAITS = (Revision.State.DRAFT, Revision.State.ISSUED, Revision.State.CANCELLED)
"""The states in which a revision may wait for anybody: an index finds them among all that is settled."""


def questions_to_answer() -> list[Group]:
    found = CustomerQuestion.objects.filter(answered_at=None)
    rows = found.select_related("quote__property__customer").order_by("asked_at")[:READ]
    items = (
        Waiting(
            what=row.words if len(row.words) <= 90 else f"{row.words[:89]}…",
            where=f"{row.quote.property.customer}, {row.quote.number}",
            when="asked",
            day=day_of(row.asked_at),
            address=reverse("quote", args=[row.quote.number]),
            state="waiting",
        )
        for row in rows
    )
    return [group_of("Answer", items, "quotes")]


def mail_to_see_to() -> list[Group]:
    """Mail that failed for good, or that should have gone long ago: the site may have no mail server."""
    rows = mail_not_gone(timezone.now()).defer("text").order_by("made_at", "pk")[:READ]
    return [group_of("Mail that did not go", map(_message, rows), "outbox")]


def _message(row: OutgoingMail) -> Waiting:
    return Waiting(
        what=row.subject,
        where=row.recipient,
        when="since",
        day=day_of(row.made_at),
        address=reverse("mail", args=[row.pk]),
        state=row.state,
    )


def revisions_to_move(person: User, today: date) -> list[Group]:
    """Drafts, offers that lapse, and what is owed; a draft below the least margin waits for the owner."""
    lapsing = Q(state=Revision.State.ISSUED, valid_until__lte=today + LAPSES_WITHIN)
    held = Exists(
        stops_that_hold().filter(survey=OuterRef("quote__survey"))
    )  # waits for its stop, not for issue
    ready = Q(state=Revision.State.DRAFT) & ~held
    unsettled = Q(state=Revision.State.CANCELLED, decision__cancellation__settled_at=None)
    found = Revision.objects.filter(ready | lapsing | unsettled, state__in=WAITS).defer("issued", "choices")
    found = found.annotate(cancelled_at=F("decision__cancellation__said_at"))
    rows = list(found.select_related("quote__property__customer").order_by("changed_at")[:READ])
    asked = [row for row in rows if row.waits_for_owner]
    drafts = [row for row in rows if row.is_draft and not row.waits_for_owner]
    cancelled = [row for row in rows if row.state == Revision.State.CANCELLED]
    offers = sorted(
        (row for row in rows if row.state == Revision.State.ISSUED), key=lambda row: row.valid_until or today
    )
    return [
        group_of(
            "Say what is owed",
            (_revision(row, "cancelled", day_of(row.cancelled_at), at=_rights_of(row)) for row in cancelled),
            "quotes",
        ),
        group_of(
            "Approve the price" if person.has_perm(APPROVE) else "Waiting for the owner",
            (_revision(row, "since", day_of(row.owner_asked_at)) for row in asked),
            "quotes",
        ),
        group_of(
            "Issue the draft", (_revision(row, "begun", day_of(row.made_at)) for row in drafts), "quotes"
        ),
        group_of(
            "Ask before it lapses", (_revision(row, "until", row.valid_until) for row in offers), "quotes"
        ),
    ]


def _rights_of(row: Revision) -> str:
    return reverse("revision_rights", args=[row.quote.number, row.letter])


def _revision(row: Revision, when: str, day: date | None, at: str = "") -> Waiting:
    """Lead to the quote, unless what waits is done on another page."""
    return Waiting(
        what=f"{row.quote.number}, revision {row.letter}",
        where=f"{row.quote.property.customer}, {row.quote.property}",
        when=when,
        day=day,
        address=at or reverse("quote", args=[row.quote.number]),
        state=row.state,
    )


def quotes_to_follow_up(today: date) -> list[Group]:
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
