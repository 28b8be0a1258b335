"""Keep on each quote what the list shows of it: whose turn it is, and which revision stands for it."""

from __future__ import annotations

from datetime import date, datetime, time
from typing import Any

from django.db import transaction
from django.db.models import Max, Min, Q
from django.db.models.functions import Coalesce
from django.utils import timezone

from jobs.mail.models import OutgoingMail
from jobs.quotes.customer.models import Decision
from jobs.quotes.listing.turns import Because, Facts, Standing, Turn, TurnNow, standing, turn_now
from jobs.quotes.models import Quote, Revision
from jobs.quotes.rights.models import Cancellation
from jobs.works.models import Job

STANDS = (Revision.State.ISSUED, Revision.State.ACCEPTED)
STOPPED = (OutgoingMail.State.FAILED, OutgoingMail.State.ANSWER_LOST)
KEPT = (
    "state", "letter", "total", "valid_until", "turn", "turn_since", "turn_because", "office_from",
)  # fmt: skip


@transaction.atomic
def keep_standing(quote: Quote) -> None:
    """Work out anew what the list shows of a quote; every service that moves one ends with this.

    The quote's row is locked before anything is read, so that of two services that end at once the second
    sees what the first did. Whoever locks revisions as well locks them before.
    """
    locked = Quote.objects.select_for_update(no_key=True).get(pk=quote.pk)
    kept = standing_of(locked)
    for name, value in kept.items():
        setattr(locked, name, value)
    locked.save(update_fields=KEPT)


def standing_of(quote: Quote) -> dict[str, Any]:
    """Return what the list must show of a quote, from its revisions and all that happened to them."""
    revisions = list(quote.revisions.defer("issued", "choices", "introduction").order_by("pk"))
    if not revisions:
        return {name: getattr(quote, name) for name in KEPT}
    stands = next((each for each in revisions if each.state in STANDS), revisions[-1])
    decision = Decision.objects.filter(revision=stands).first()
    found = standing(_facts(quote, revisions[-1], stands, decision), made_at=quote.made_at)
    return {
        "state": stands.state,
        "letter": stands.letter,
        "total": decision.total if decision else stands.total,
        "valid_until": stands.valid_until,
        "turn": found.turn.value,
        "turn_since": found.since,
        "turn_because": found.because.value,
        "office_from": found.office_from,
    }


def _facts(quote: Quote, latest: Revision, stands: Revision, decision: Decision | None) -> Facts:
    is_accepted = stands.state == Revision.State.ACCEPTED
    is_settled = stands.state not in (Revision.State.DRAFT, Revision.State.ISSUED)
    job = Job.objects.filter(revision=stands).first() if is_accepted else None
    asked = quote.questions.aggregate(
        oldest=Min("asked_at", filter=Q(answered_at=None)), answered=Max("answered_at")
    )
    stopped = OutgoingMail.objects.filter(about__quote=quote, state__in=STOPPED)
    unsettled = Cancellation.objects.filter(decision=decision, settled_at=None).first() if decision else None
    is_to_book = job is not None and job.state == Job.State.ACCEPTED
    settled_at = decision.decided_at if decision else stands.changed_at
    is_begun = latest.is_draft and not is_accepted
    return Facts(
        begun_at=latest.made_at if is_begun else None,
        owner_asked_at=latest.owner_asked_at if is_begun and latest.waits_for_owner else None,
        offered_at=stands.issued_at,
        settled_at=settled_at if is_settled else None,
        asked_at=asked["oldest"],
        answered_at=asked["answered"],
        mail_stopped_at=stopped.aggregate(first=Min(Coalesce("stopped_at", "made_at")))["first"],
        to_book_since=settled_at if is_to_book else None,
        to_settle_since=unsettled.said_at if unsettled else None,
        job_is_booked=job is not None and not is_to_book,
        follow_up_at=beginning_of(quote.follow_up_on) if quote.follow_up_on else None,
    )


def turn_of(quote: Quote, *, now: datetime) -> TurnNow:
    """Say whose turn it is on a quote now, from what was kept and the calendar."""
    kept = Standing(
        turn=Turn(quote.turn),
        since=quote.turn_since,
        because=Because(quote.turn_because),
        office_from=quote.office_from,
    )
    return turn_now(kept, now=now)


def beginning_of(day: date) -> datetime:
    """Return the first moment of a day here."""
    return timezone.make_aware(datetime.combine(day, time.min))
