"""The express request to begin within the time for cancelling: when accepting, or later until work begins."""

from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from jobs.quotes.customer.evidence import Evidence
from jobs.quotes.customer.models import Decision
from jobs.quotes.models import Revision
from jobs.quotes.rights import copies
from jobs.quotes.rights.models import EarlyStart
from jobs.quotes.rights.period import time_to_cancel
from jobs.quotes.rights.told import rights_of


class TooLate(Exception):
    """Nothing is left to ask for; the message tells the customer why."""


@transaction.atomic
def ask_early_start(decision: Decision, *, name_typed: str, evidence: Evidence) -> EarlyStart:
    """Keep the request, once: asked twice, the first stands."""
    offer = Revision.objects.select_for_update().get(pk=decision.revision_id)
    asked = EarlyStart.objects.filter(decision=decision).first()
    if asked:
        return asked
    closed = why_no_early_start(Decision.objects.select_related("revision__job").get(revision=offer))
    if closed:
        raise TooLate(closed)
    asked = keep_early_start(decision, name_typed=name_typed, evidence=evidence)
    copies.mail_early_start(asked)
    return asked


def keep_early_start(decision: Decision, *, name_typed: str, evidence: Evidence) -> EarlyStart:
    """Keep the request within the caller's transaction, in the words that were shown."""
    return EarlyStart.objects.create(
        decision=decision,
        name_typed=name_typed,
        words=rights_of(decision.revision).early_start_statement,
        said_at=timezone.now(),
        link=evidence.link,
        address=evidence.address,
        browser=evidence.browser[:400],
    )


def why_no_early_start(decision: Decision) -> str:
    """Say why an early start cannot be asked for; empty when it can."""
    time = time_to_cancel(decision)
    if decision.revision.state != Revision.State.ACCEPTED or time is None or not time.is_running:
        return "There is nothing to ask for: the days in which you may cancel are not running."
    if decision.revision.job.started_at:
        return "Work has begun already."
    return ""
