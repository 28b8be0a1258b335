"""Write down that a customer declined by telephone, and tell why offers were declined."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import Count
from django.utils import timezone

from jobs.quotes.customer.models import REASONS, Decision
from jobs.quotes.listing.following import drop_follow_up
from jobs.quotes.models import Revision

MAY_DECLINE = (Revision.State.ISSUED, Revision.State.LAPSED)
"""Who rings after an offer lapsed still says why it was not taken."""
NOT_SAID = "No reason was given"


class CannotDecline(Exception):
    """The revision is not on offer; the message tells the office why."""


@transaction.atomic
def record_decline(revision: Revision, *, told_by: str, because: str, reason: str, by: User) -> Decision:
    """Write down that a customer declined by word of mouth: who told whom, and why."""
    offer = Revision.objects.select_for_update().get(pk=revision.pk)
    if offer.state not in MAY_DECLINE:
        raise CannotDecline(f"{offer} is {offer.state}: only what is or was on offer can be declined.")
    after = offer.quote.revisions.filter(pk__gt=offer.pk, issued_at__isnull=False)
    newer = after.exclude(state=Revision.State.WITHDRAWN).order_by("-pk").first()
    if newer:
        raise CannotDecline(f"{newer} was issued after {offer}: say of that one what became of it.")
    decision = Decision.objects.create(
        revision=offer,
        kind=Decision.Kind.DECLINED,
        name_typed=told_by,
        because=because,
        reason=reason,
        recorded_by=by,
        total=offer.total,
        paper_sha256=offer.paper_sha256,
        rights_sha256=offer.rights_sha256,
        how_agreed=offer.how_agreed,
        decided_at=timezone.now(),
    )
    offer.state = Revision.State.DECLINED
    offer.save(update_fields=["state", "changed_at"])
    drop_follow_up(offer.quote)
    return decision


@dataclass(frozen=True, slots=True)
class ReasonTold:
    """One reason for declining, and how often it was given."""

    words: str
    times: int


def reasons_told_since(moment: datetime) -> list[ReasonTold]:
    """Return why offers were declined since a moment, the commonest reason first."""
    told = Decision.objects.filter(kind=Decision.Kind.DECLINED, decided_at__gte=moment)
    counted = told.order_by().values_list("because").annotate(times=Count("pk"))
    words = dict(REASONS)
    found = [ReasonTold(words.get(because, NOT_SAID), times) for because, times in counted]
    return sorted(found, key=lambda each: (-each.times, each.words))
