"""The owner's approval of an offer below the firm's least margin, until the draft is changed again."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from estimating.estimate import Estimate
from estimating.price.floor import BelowFloor, below_floor
from jobs.quotes.drafts.services import locked_draft
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Revision

APPROVE = "jobs.approve_quote"
ASK_THE_OWNER = "The owner has to approve it, or issue it."
IS_ASKED = "The owner is asked, and finds it on their first page."


@dataclass(frozen=True, slots=True)
class Approval:
    """That an offer is below the floor, and whether the owner approved it as it stands."""

    below: BelowFloor
    stands: bool
    lapsed: bool

    @property
    def in_words(self) -> str:
        """Say how much below, and that an approval given was for something else."""
        again = " It was approved before it was changed, and needs approval again." if self.lapsed else ""
        return f"{self.below.in_words}{again}"


def approval_of(revision: Revision, worked: Iterable[Estimate]) -> Approval | None:
    """Return what the owner has to approve of a draft, if anything; the worst of its alternatives counts."""
    found = [below for each in worked if (below := _below(each)) is not None]
    if not found:
        return None
    worst = min(found, key=lambda below: below.margin.value)
    approved_margin = revision.approved_margin_percent
    stands = (
        revision.approved_at is not None
        and approved_margin is not None
        and revision.approved_digest == digest_of(revision)
        and worst.margin.value >= approved_margin
    )
    return Approval(worst, stands, lapsed=revision.approved_at is not None and not stands)


def _below(worked: Estimate) -> BelowFloor | None:
    return below_floor(worked.price, worked.price_book.pricing, worked.choices.terms)


def digest_of(revision: Revision) -> str:
    """Return the digest of what an approval is of: what is offered, by which edition, from which boards."""
    offered = {
        "choices": revision.choices,
        "alternatives": revision.alternatives,
        "edition": revision.edition_id,
        "use_store": revision.use_store,
    }
    return hashlib.sha256(json.dumps(offered, sort_keys=True).encode()).hexdigest()


@transaction.atomic
def approve_draft(revision: Revision, approval: Approval, *, by: User, note: str) -> None:
    """Keep that the owner approves a draft as it stands, with the margin that was shown."""
    locked_draft(revision)
    note_approval(revision, approval, by=by, note=note)
    revision.save(
        update_fields=[
            "approved_by", "approved_at", "approval_note", "approved_digest", "approved_margin_percent",
            "owner_asked_at", "owner_asked_by",
        ]
    )  # fmt: skip
    keep_standing(revision.quote)


@transaction.atomic
def ask_owner(revision: Revision, *, by: User) -> None:
    """Keep that a draft waits for the owner, since when and who asked; asked again, the first stands."""
    draft = Revision.objects.select_for_update().get(pk=revision.pk)
    if draft.is_draft and not draft.waits_for_owner:
        asked = {"owner_asked_at": timezone.now(), "owner_asked_by": by}
        Revision.objects.filter(pk=draft.pk).update(**asked)  # no change of the draft: `changed_at` stays
        keep_standing(draft.quote)


def note_approval(revision: Revision, approval: Approval, *, by: User, note: str) -> None:
    """Write an approval into a revision that is saved by the caller."""
    revision.owner_asked_at = revision.owner_asked_by = None
    revision.approved_by, revision.approved_at, revision.approval_note = by, timezone.now(), note
    revision.approved_digest = digest_of(revision)
    revision.approved_margin_percent = approval.below.margin.value
