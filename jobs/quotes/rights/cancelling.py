"""Cancel an accepted contract: one outcome, the work called off, and what each side then owes."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import QuerySet
from django.utils import timezone

from estimating.contracts.cancelling import refund_due_by
from estimating.contracts.owed import payable_for_part, settlement
from estimating.days import day_in_words
from jobs.orders.on_acceptance import drop_unsent_orders
from jobs.quotes.customer.evidence import Evidence
from jobs.quotes.customer.models import Decision
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Quote, Revision
from jobs.quotes.rights import copies
from jobs.quotes.rights.early_start import TooLate
from jobs.quotes.rights.models import Cancellation
from jobs.quotes.rights.period import time_to_cancel
from jobs.quotes.rights.told import rights_of, was_told
from jobs.store.services import give_back
from jobs.works.services import call_off_job, may_become

CANCELS = "I cancel the contract made by accepting quote {revision}."
WRITTEN_DOWN = "Sent or said on {}, and written down by the firm afterwards."


@transaction.atomic
def cancel_contract(
    decision: Decision, *, name_typed: str, reason: str = "", evidence: Evidence, said_on: date | None = None
) -> Cancellation:
    """Keep that the customer cancelled, call the job and its unsent orders off; told twice, the first stands.

    `said_on` is the day of a letter or call that the office writes down later: what counts is when it was
    sent.
    """
    offer = Revision.objects.select_for_update().get(pk=decision.revision_id)
    decision = Decision.objects.select_related("revision__job", "revision__quote__property__customer").get(
        revision=offer
    )
    said = Cancellation.objects.filter(decision=decision).first()
    if said:
        return said
    made_on = timezone.localdate(decision.decided_at)
    if said_on is not None and said_on < made_on:
        raise TooLate(f"The contract was made on {day_in_words(made_on)}, so nobody cancelled it before.")
    closed = why_not_cancel(decision, on=said_on)
    time = time_to_cancel(decision, today=said_on)
    if closed or time is None:
        raise TooLate(closed)
    job = decision.revision.job
    said = Cancellation.objects.create(
        decision=decision,
        name_typed=name_typed,
        words=WRITTEN_DOWN.format(day_in_words(said_on)) if said_on else CANCELS.format(revision=offer),
        reason=reason,
        said_at=timezone.now(),
        period=time.as_kept(),
        work_had_begun=job.started_at is not None,
        link=evidence.link,
        address=evidence.address,
        browser=evidence.browser[:400],
    )
    if job.started_at is None:
        _settle(said, share_done=Decimal(0), paid=None)
        give_back(job)
    offer.state = Revision.State.CANCELLED
    offer.save(update_fields=["state", "changed_at"])
    if may_become(job, job.State.CALLED_OFF):
        call_off_job(job)
    drop_unsent_orders(job)
    copies.mail_cancellation(said)
    keep_standing(offer.quote)
    return said


def why_not_cancel(decision: Decision, *, on: date | None = None) -> str:
    """Say why a contract cannot be cancelled in the customer's right; empty when it can."""
    if decision.revision.state == Revision.State.CANCELLED:
        return "This contract was cancelled already."
    if decision.revision.state != Revision.State.ACCEPTED:
        return "There is no contract to cancel: this quote was not accepted."
    time = time_to_cancel(decision, today=on)
    if time is None:
        return f"This contract gives no right to cancel: {rights_of(decision.revision).why}."
    if not time.is_running:
        return f"The last day to cancel was {time.last_day_in_words}. Ask us if something is wrong."
    return ""


@transaction.atomic
def settle_cancellation(said: Cancellation, *, share_done: Decimal, paid: Decimal, by: User) -> Cancellation:
    """Work out what is owed from the share done and what was paid, and tell both sides."""
    locked = Cancellation.objects.select_for_update(of=("self",)).get(pk=said.pk)
    before = locked.settlement
    _settle(locked, share_done=share_done, paid=paid, by=by)
    if locked.settlement != before:
        copies.mail_settlement(locked)
    keep_standing(locked.decision.revision.quote)
    return locked


def _settle(said: Cancellation, *, share_done: Decimal, paid: Decimal | None, by: User | None = None) -> None:
    decision = said.decision
    payable = payable_for_part(
        decision.total,
        share_done,
        information_given=was_told(decision.revision),
        early_start_requested=hasattr(decision, "early_start"),
    )
    terms, told_on = rights_of(decision.revision).terms, timezone.localdate(said.said_at)
    said.share_done, said.paid = share_done, paid
    said.settlement = {
        "payable": str(payable.value),
        "how": payable.working.formula,
        "source": payable.working.source,
        "refund_by": refund_due_by(told_on, terms=terms).isoformat(),
    }
    if paid is not None:
        both = settlement(payable, paid=paid, told_on=told_on, terms=terms)
        said.settlement |= {"to_refund": str(both.to_refund), "still_to_pay": str(both.still_to_pay)}
        said.settled_by, said.settled_at = by, timezone.now()
    said.save()


def cancellations_of(quote: Quote) -> QuerySet[Cancellation]:
    """Return the cancelled contracts of a quote, the latest first."""
    found = Cancellation.objects.filter(decision__revision__quote=quote).select_related("decision__revision")
    return found.order_by("-said_at")


def settlement_shown(said: Cancellation) -> dict[str, Any]:
    """Return what is owed as amounts and days, as far as it is known."""
    kept = said.settlement
    amounts = {name: Decimal(kept[name]) for name in ("payable", "to_refund", "still_to_pay") if name in kept}
    by = {"refund_by": date.fromisoformat(kept["refund_by"])} if "refund_by" in kept else {}
    return {**amounts, **by, "how": kept.get("how", ""), "source": kept.get("source", "")}
