"""Whose turn it is: one rule over what is known of a quote, without rows, clock or requests.

The calendar changes whose turn it is while nobody does anything: a follow-up comes due. So the rule gives
the turn as it stands and `office_from`, the moment from which it is the office's in any case; whoever reads
compares that with the clock, and nothing needs to run at midnight.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class Turn(StrEnum):
    """Who must act next."""

    OFFICE = "office"
    CUSTOMER = "customer"
    NOBODY = "nobody"


class Because(StrEnum):
    """Why it is their turn, or nobody's."""

    DRAFT = "draft"
    APPROVE = "approve"
    QUESTION = "question"
    MAIL = "mail"
    BOOK = "book"
    SETTLE = "settle"
    FOLLOW_UP = "follow up"
    DECIDE = "decide"
    BOOKED = "booked"
    SETTLED = "settled"


IN_WORDS = {
    Because.DRAFT: "issue the draft",
    Because.APPROVE: "have the owner approve it",
    Because.QUESTION: "answer a question",
    Because.MAIL: "see to mail that did not go",
    Because.BOOK: "book the job",
    Because.SETTLE: "say what is owed",
    Because.FOLLOW_UP: "follow up",
    Because.DECIDE: "decide",
    Because.BOOKED: "the job is booked",
    Because.SETTLED: "nothing is open",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What the rule asks of a quote. A moment is None while what it names has not happened.

    `owner_asked_at` is since when the draft waits for the owner's approval as it stands; `settled_at` is
    when the revision that stands for the quote was accepted, declined, withdrawn or lapsed; `asked_at` is
    the oldest question that nobody answered, `answered_at` the last answer; `mail_stopped_at` is since when
    a message about the quote no longer goes by itself; `to_settle_since` is when the customer cancelled,
    while nobody has said what was paid.
    """

    begun_at: datetime | None = None
    owner_asked_at: datetime | None = None
    offered_at: datetime | None = None
    settled_at: datetime | None = None
    asked_at: datetime | None = None
    answered_at: datetime | None = None
    mail_stopped_at: datetime | None = None
    to_book_since: datetime | None = None
    to_settle_since: datetime | None = None
    job_is_booked: bool = False
    follow_up_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Whose turn it is until the calendar says otherwise, since when and why, and from when the office's."""

    turn: Turn
    since: datetime
    because: Because
    office_from: datetime | None


@dataclass(frozen=True, slots=True)
class TurnNow:
    """Whose turn it is at one moment."""

    turn: Turn
    since: datetime
    because: Because

    @property
    def in_words(self) -> str:
        return IN_WORDS[self.because]


def standing(facts: Facts, *, made_at: datetime) -> Standing:
    """Say who must act next on a quote made at a moment; of several duties the one that waits longest counts.

    A draft waits for the office even while an earlier revision is on offer. A mail that did not go counts
    only while the offer is open or was accepted: nobody needs a letter about what is settled otherwise.
    """
    open_offer = facts.offered_at if facts.settled_at is None else None
    contract = facts.to_book_since is not None or facts.to_settle_since is not None or facts.job_is_booked
    matters = open_offer is not None or contract
    duties = {
        Because.DRAFT: facts.begun_at if facts.owner_asked_at is None else None,
        Because.APPROVE: facts.owner_asked_at,
        Because.QUESTION: facts.asked_at,
        Because.MAIL: facts.mail_stopped_at if matters else None,
        Because.BOOK: facts.to_book_since,
        Because.SETTLE: facts.to_settle_since,
    }
    waiting = sorted((since, because) for because, since in duties.items() if since is not None)
    calls = [moment for moment in (facts.follow_up_at, *(since for since, _ in waiting)) if moment]
    office_from = min(calls, default=None)
    if waiting:
        turn, (since, because) = Turn.OFFICE, waiting[0]
    elif open_offer is not None:
        turn, because = Turn.CUSTOMER, Because.DECIDE
        since = max(open_offer, facts.answered_at or open_offer)
    else:
        turn, because = Turn.NOBODY, Because.BOOKED if facts.job_is_booked else Because.SETTLED
        since = facts.settled_at or made_at
    return Standing(turn=turn, since=since, because=because, office_from=office_from)


def turn_now(kept: Standing, *, now: datetime) -> TurnNow:
    """Say whose turn it is now: what was kept, unless a follow-up has come due before it."""
    due = kept.office_from is not None and kept.office_from <= now
    if due and (kept.turn != Turn.OFFICE or kept.office_from < kept.since):
        return TurnNow(Turn.OFFICE, kept.office_from, Because.FOLLOW_UP)
    return TurnNow(kept.turn, kept.since, kept.because)
