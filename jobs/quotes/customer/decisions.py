"""What a customer decides on the link: one clear outcome for each revision, with the evidence kept."""

from __future__ import annotations

from collections.abc import Iterable

from django.db import transaction
from django.utils import timezone

from estimating.choices import Part
from jobs.customers.services import agree_to_news
from jobs.firm.numbers import next_number
from jobs.orders.on_acceptance import order_on_acceptance
from jobs.quotes.customer.evidence import Evidence
from jobs.quotes.customer.links import keep_open_for_contract
from jobs.quotes.customer.models import CustomerQuestion, Decision
from jobs.quotes.drafts.services import locked_revisions
from jobs.quotes.frozen import FrozenOffer, frozen_alternatives
from jobs.quotes.listing.following import drop_follow_up
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Quote, Revision
from jobs.quotes.rights import copies
from jobs.quotes.rights.early_start import keep_early_start
from jobs.quotes.rights.told import rights_of
from jobs.store.services import take_for_job
from jobs.works.models import Job

MOST_QUESTIONS = 20
"""So many of one quote may wait: whoever has a link must not fill the firm's post with it."""
NEWER = "There is a newer revision of this quote. Please read it before you decide."


class NotOpen(Exception):
    """The offer cannot be decided now; the message tells the customer why and what to do."""


@transaction.atomic
def accept_revision(  # noqa: PLR0913 - all that an acceptance is made of
    revision: Revision,
    *,
    name_typed: str,
    statements: Iterable[str],
    taken_parts: frozenset[Part],
    evidence: Evidence,
    alternative: int = 0,
    early_start: bool = False,
    news: bool = False,
) -> Decision:
    """Accept an alternative with the options taken, make its job and orders, take its boards from the store.

    The revision's row is locked first: of two people pressing at once, one accepts and the other is told so.
    The wish to start early and the wish for news are kept apart from the acceptance.
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
    job = Job.objects.create(number=next_number("J"), revision=offer)
    take_for_job(job)
    order_on_acceptance(job)
    if early_start and rights_of(offer).cancellable:
        keep_early_start(decision, name_typed=name_typed, evidence=evidence)
    if news:
        agree_to_news(offer.quote.property.customer, words=rights_of(offer).news_statement)
    keep_open_for_contract(offer.quote)
    copies.mail_acceptance(decision)
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
    decision = _decide(offer, decision, evidence)
    copies.mail_declined(decision)
    return decision


@transaction.atomic
def ask_question(quote: Quote, words: str) -> CustomerQuestion:
    """Keep a question for the office, and tell the firm; the same one sent twice is one question."""
    locked_revisions(quote)  # before the quote, as every service that moves one
    waiting = quote.questions.filter(answered_at=None)
    asked = waiting.filter(words=words).first()
    if asked:
        return asked
    if waiting.count() >= MOST_QUESTIONS:
        raise NotOpen("We have many questions of yours already. Please ring us.")
    question = CustomerQuestion.objects.create(quote=quote, words=words)
    copies.mail_question(question)
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
        state.CANCELLED: "This contract was cancelled. Ask us if you would like the work after all.",
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
    decision.paper_sha256, decision.rights_sha256 = offer.paper_sha256, offer.rights_sha256
    decision.how_agreed = offer.how_agreed
    decision.decided_at = timezone.now()
    decision.link, decision.address = evidence.link, evidence.address
    decision.browser = evidence.browser[:400]
    decision.save()
    offer.state = Revision.State(decision.kind)
    offer.save(update_fields=["state", "changed_at"])
    drop_follow_up(offer.quote)
    return decision
