"""What changed since the revision that was offered before: kept with a revision when it is issued."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import date
from typing import Any

from estimating.estimate import Estimate
from estimating.json_forms import choices_as_json, estimate_as_json
from jobs.quotes.differences import Difference, differences
from jobs.quotes.models import Revision


@dataclass(frozen=True, slots=True)
class Changed:
    """The letter of the revision that was offered before, and what is otherwise now."""

    since: str
    differences: tuple[Difference, ...]


def offered_before(revision: Revision) -> Revision | None:
    """Return the latest revision of the quote that was issued before this one."""
    offered = revision.quote.revisions.exclude(state=Revision.State.DRAFT)
    if revision.pk:
        offered = offered.filter(pk__lt=revision.pk)
    return offered.order_by("-pk").first()


def changes_to_keep(revision: Revision, copy: Mapping[str, Any]) -> dict[str, Any] | None:
    """Return what a frozen copy keeps of the changes since the revision before it, None for the first one."""
    before = offered_before(revision)
    if before is None:
        return None
    found = _compared(before, copy, holds_until=revision.valid_until)
    return {"since": before.letter, "differences": [asdict(each) for each in found]}


def changed_in(revision: Revision) -> Changed | None:
    """Return what changed with an issued revision; one issued before that was kept is compared now."""
    kept = revision.issued.get("changed")
    if kept:
        return Changed(kept["since"], tuple(Difference(**each) for each in kept["differences"]))
    before = None if "changed" in revision.issued else offered_before(revision)
    if before is None:
        return None
    return Changed(before.letter, _compared(before, revision.issued, holds_until=revision.valid_until))


def changed_in_draft(revision: Revision, worked: Estimate, *, alternative: int = 0) -> Changed | None:
    """Return what one way of a draft would change of the same way as it was offered before."""
    before = offered_before(revision)
    if before is None:
        return None
    ways = [before.issued, *before.issued.get("alternatives", ())]
    if alternative >= len(ways):
        return None
    then = {**before.issued, **ways[alternative], "alternatives": []}
    copy = {
        "choices": choices_as_json(worked.choices),
        "estimate": estimate_as_json(worked),
        "introduction": revision.introduction,
        "firm": before.issued["firm"],
    }
    return Changed(before.letter, differences(then, copy))


def _compared(
    before: Revision, copy: Mapping[str, Any], *, holds_until: date | None
) -> tuple[Difference, ...]:
    return differences(before.issued, copy, held_until=before.valid_until, holds_until=holds_until)
