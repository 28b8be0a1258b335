"""The worker's part: take what is due, one message at a time, send it, and keep what became of it."""

from __future__ import annotations

import logging
import secrets
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db import OperationalError, connection, transaction
from django.db.models import F, Q, QuerySet
from django.utils import timezone

from jobs.kept_files import FileDamaged
from jobs.mail.messages import LinkNotOurs, message_of, sender
from jobs.mail.models import OutgoingMail
from jobs.mail.smtp_line import Kind, Outcome, deliver, server_is_set
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Revision

State = OutgoingMail.State
Clock = Callable[[], datetime]
logger = logging.getLogger("eavesbook.mail")

RETRY_AFTER = (
    timedelta(minutes=1),
    timedelta(minutes=5),
    timedelta(minutes=30),
    timedelta(hours=2),
    timedelta(hours=6),
    timedelta(days=1),
    timedelta(days=1),
    timedelta(days=1),
)
"""Grey lists want minutes, a server that is down hours, and a full box a day or two."""
MOST_ATTEMPTS = len(RETRY_AFTER) + 1
LEASE = timedelta(minutes=10)
"""After so long a worker that took a message is thought dead; no talk with a server lasts half of it."""
LATE = timedelta(hours=1)
MAY_HAVE_ARRIVED = "It may have arrived all the same: the answer to a try was lost."
CUT_SHORT = "Sending it was cut short after its text had begun to go."
_LET_GO = {"claimed_by": "", "claimed_at": None, "claimed_until": None}
ON_OFFER = (Revision.State.ISSUED, Revision.State.ACCEPTED)


@dataclass(frozen=True, slots=True)
class _Try:
    """One try of one message, told apart from any other try of it by its claim."""

    mail: OutgoingMail
    claim: str
    clock: Clock

    def begin_text(self) -> bool:
        """Note that the text begins to go and renew the lease, unless another worker has the message now."""
        return bool(self._ours().update(claimed_until=self.clock() + LEASE, handed_over=True))

    def keep(self, outcome: Outcome) -> None:
        """Keep what became of the try; a database that is busy is asked again, for the answer comes once."""
        changes = _changes(self.mail, outcome, self.clock())
        for left in (2, 1, 0):
            try:
                self._ours().update(**changes, handed_over=False, **_LET_GO)
                break
            except OperationalError:
                if not left or connection.in_atomic_block:
                    raise
                connection.close()
                time.sleep(1)
        _keep_standing_of(self.mail)
        figures = {"mail": self.mail.pk, "attempt": self.mail.attempts, "outcome": outcome.kind.value}
        logger.info("mail tried", extra={"figures": figures})

    def withdraw(self, words: str) -> None:
        words = _and(words, MAY_HAVE_ARRIVED) if self.mail.answers_lost else words
        self._ours().update(state=State.WITHDRAWN, last_error=words, **_LET_GO)

    def _ours(self) -> QuerySet[OutgoingMail]:
        return OutgoingMail.objects.filter(pk=self.mail.pk, state=State.SENDING, claimed_by=self.claim)


def send_waiting(*, at_most: int = 20, clock: Clock = timezone.now) -> int:
    """Send what is due and return how many messages were taken; without a mail server everything waits."""
    if not server_is_set():
        return 0
    _set_cut_short_aside(clock())
    for taken in range(at_most):
        found = _take(clock)
        if found is None:
            return taken
        _send(found)
    return at_most


def mail_not_gone(now: datetime) -> QuerySet[OutgoingMail]:
    """Return what somebody must look at: failed, perhaps sent, or still waiting long after it was to go."""
    unfinished = Q(state__in=(State.WAITING, State.SENDING), made_at__lt=now - LATE)
    return OutgoingMail.objects.filter(Q(state__in=(State.FAILED, State.ANSWER_LOST)) | unfinished)


def _set_cut_short_aside(now: datetime) -> None:
    """Leave to the office what a worker that was ended had begun to hand over: it may have arrived."""
    left_behind = OutgoingMail.objects.filter(state=State.SENDING, claimed_until__lt=now, handed_over=True)
    found = list(left_behind.filter(about__isnull=False).select_related("about__quote").only("about__quote"))
    left_behind.update(
        state=State.ANSWER_LOST,
        stopped_at=now,
        last_error=CUT_SHORT,
        answers_lost=F("answers_lost") + 1,
        handed_over=False,
        **_LET_GO,
    )
    for mail in found:
        _keep_standing_of(mail)


def _take(clock: Clock) -> _Try | None:
    """Take the message that is due longest, so that no other worker sends it for as long as the lease."""
    now = clock()
    left_behind = Q(state=State.SENDING, claimed_until__lt=now, handed_over=False)
    due = OutgoingMail.objects.filter(Q(state=State.WAITING, next_try_at__lte=now) | left_behind)
    if not due.exists():  # asked every few seconds: without a transaction, and nothing is locked
        return None
    claim = secrets.token_hex(8)
    with transaction.atomic():
        mail = due.order_by("next_try_at", "pk").select_for_update(skip_locked=True).first()
        if mail is None:
            return None
        taken = OutgoingMail.objects.filter(pk=mail.pk, state=mail.state, claimed_by=mail.claimed_by).update(
            state=State.SENDING,
            claimed_by=claim,
            claimed_at=now,
            claimed_until=now + LEASE,
            attempts=F("attempts") + 1,
        )
    if not taken:
        return None
    mail = OutgoingMail.objects.select_related("link", "about").defer("about__issued").get(pk=mail.pk)
    return _Try(mail, claim, clock)


def _send(one: _Try) -> None:
    mail = one.mail
    ended = _why_not_any_more(mail, one.clock())
    if ended:
        one.withdraw(ended)
        return
    if mail.attempts > MOST_ATTEMPTS:  # each worker that took it was ended before it could say so
        one.keep(Outcome(Kind.TRY_AGAIN, "Sending it was cut short each time."))
        return
    try:
        message = message_of(mail)
    except LinkNotOurs:
        words = "The site's secret key has changed since this was written: mail the quote again."
        one.keep(Outcome(Kind.FAILED, words))
        return
    except FileDamaged as damaged:
        one.keep(Outcome(Kind.TRY_AGAIN, str(damaged)))
        return
    except Exception:  # whatever it is, the next message must still go
        logger.exception("mail failed", extra={"figures": {"mail": mail.pk}})
        one.keep(Outcome(Kind.TRY_AGAIN, "The message could not be written. The log says where."))
        return
    deliver(message, sender=sender(), to=mail.to_address, begin_text=one.begin_text, keep=one.keep)


def _why_not_any_more(mail: OutgoingMail, now: datetime) -> str:
    """Say why a message must not go any longer: its link would open nothing, or nothing to accept."""
    if mail.link is None:
        return ""
    if mail.link.revoked_at or mail.link.expires_at <= now:
        return "The link in it had ended before it went."
    if mail.about is not None and mail.about.state not in ON_OFFER:
        return f"Quote {mail.about} was {mail.about.get_state_display().lower()} before it went."
    return ""


def _changes(mail: OutgoingMail, outcome: Outcome, now: datetime) -> dict[str, object]:
    if outcome.kind is Kind.SENT:
        return {"state": State.SENT, "sent_at": now, "last_error": ""}
    if outcome.kind is Kind.ANSWER_LOST:
        return {
            "state": State.ANSWER_LOST,
            "stopped_at": now,
            "last_error": outcome.words,
            "answers_lost": mail.answers_lost + 1,
        }
    words = outcome.words
    gives_up = outcome.kind is not Kind.FAILED and mail.attempts >= MOST_ATTEMPTS
    if gives_up:
        words = _and(words, f"Given up after {mail.attempts} tries.")
    if outcome.kind is Kind.FAILED or gives_up:
        if mail.answers_lost:
            words = _and(words, MAY_HAVE_ARRIVED)
        return {"state": State.FAILED, "stopped_at": now, "last_error": words}
    return {
        "state": State.WAITING,
        "last_error": words,
        "next_try_at": now + RETRY_AFTER[mail.attempts - 1],
    }


def _keep_standing_of(mail: OutgoingMail) -> None:
    """Tell the quote whose turn it is now; what became of the message is kept already, whatever comes."""
    if mail.about is None:
        return
    try:
        keep_standing(mail.about.quote)
    except OperationalError:
        logger.exception("whose turn it is was not kept", extra={"figures": {"mail": mail.pk}})


def _and(words: str, more: str) -> str:
    """Add a sentence; a server's words may lack their full stop."""
    return f"{words.rstrip('. ')}. {more}"
