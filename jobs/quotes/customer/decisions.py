"""What a customer decides on the link: one clear outcome for each revision, with the evidence kept."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.db import transaction
from django.utils import timezone

from estimating.choices import Part
from jobs.firm.numbers import next_number
from jobs.quotes.frozen import FrozenOffer, frozen_alternatives
from jobs.quotes.listing.following import drop_follow_up
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import CustomerLink, CustomerQuestion, Decision, Quote, Revision
from jobs.store.services import take_for_job
from jobs.works.models import Job

NEWER = "There is a newer revision of this quote. Please read it before you decide."


class NotOpen(Exception):
    """The offer cannot be decided now; the message tells the customer why and what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """How a decision reached us."""

    link: CustomerLink | None
    address: str | None
    browser: str


@transaction.atomic
def accept_revision(  # noqa: PLR0913 - all that an acceptance is made of
    revision: Revision,
    *,
    name_typed: str,
    statements: Iterable[str],
    taken_parts: frozenset[Part],
    evidence: Evidence,
    alternative: int = 0,
) -> Decision:
    """Accept one alternative with the options taken, make its job, and take its boards out of the store.

    The revision's row is locked first: of two people pressing at once, one accepts and the other is told so.
    """
    offer = _open_offer(revision)
    if not 0 <= alternative < len(frozen_alternatives(offer)):
        raise NotOpen("This quote has no such alternative. Please read it again.")
    frozen = FrozenOffer(offer, alternative)
    unknown = taken_parts - frozen.optional_parts
    if unknown:
        raise NotOpen(f"This quote has no option called {', '.join(sorted(unknown))}.")
    apart = frozen.why_not(taken_parts)
    if apart:
        raise NotOpen(" ".join(apart))
    decision = _decide(
        offer,
        Decision(
            kind=Decision.Kind.ACCEPTED,
            name_typed=name_typed,
            statements=list(statements),
            taken_parts=sorted(taken_parts),
            alternative=alternative,
            total=frozen.price_with(taken_parts).totals.gross,
        ),
        evidence,
    )
    take_for_job(Job.objects.create(number=next_number("J"), revision=offer))
    keep_standing(offer.quote)  # the job waits to be booked
    return decision


@transaction.atomic
def decline_revision(
    revision: Revision, *, name_typed: str, reason: str, evidence: Evidence, because: str = ""
) -> Decision:
    """Decline an offer, with the reason if one was given: one of the list, and words."""
    offer = _open_offer(revision)
    decision = Decision(
        kind=Decision.Kind.DECLINED,
        name_typed=name_typed,
        because=because,
        reason=reason,
        total=offer.total,
    )
    return _decide(offer, decision, evidence)


@transaction.atomic
def ask_question(quote: Quote, words: str) -> CustomerQuestion:
    """Keep a question for the office."""
    question = CustomerQuestion.objects.create(quote=quote, words=words)
    keep_standing(quote)
    return question


def why_closed(revision: Revision) -> str:
    """Say why a revision cannot be decided today; empty when it can."""
    state = Revision.State
    past = revision.valid_until is not None and revision.valid_until < timezone.localdate()
    if revision.state == state.LAPSED or (revision.state == state.ISSUED and past):
        return "This quote has lapsed. Ask us, and we will gladly price it again."
    return {
        state.ISSUED: "",
        state.ACCEPTED: "This quote was already accepted. Nothing more is needed.",
        state.DECLINED: "This quote was declined. Ask us if you would like it after all.",
        state.WITHDRAWN: "We have withdrawn this quote. Ask us, and we will tell you why.",
        state.SUPERSEDED: NEWER,
    }.get(revision.state, "This quote is not on offer yet.")


def _open_offer(revision: Revision) -> Revision:
    """Lock a revision and return it if it can be decided today."""
    offer = Revision.objects.select_for_update().get(pk=revision.pk)
    closed = why_closed(offer)
    if closed:
        raise NotOpen(closed)
    return offer


def _decide(offer: Revision, decision: Decision, evidence: Evidence) -> Decision:
    decision.revision = offer
    decision.paper_sha256 = offer.paper_sha256
    decision.decided_at = timezone.now()
    decision.link, decision.address = evidence.link, evidence.address
    decision.browser = evidence.browser[:400]
    decision.save()
    offer.state = Revision.State(decision.kind)
    offer.save(update_fields=["state", "changed_at"])
    drop_follow_up(offer.quote)
    return decision
