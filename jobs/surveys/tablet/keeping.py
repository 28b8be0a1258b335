"""What was kept aside: put there once, and settled by a person or by what came after."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db.models import QuerySet
from django.utils import timezone

from estimating.published.hazards import HAZARD_BY_KEY
from estimating.survey import Severity
from jobs.surveys.models import Finding, Survey
from jobs.surveys.tablet.models import KeptAside, SentChange
from jobs.surveys.writing import Aside, Fields, answers_now, as_lines

SEEN_ELSEWHERE = "seen by a tablet, and the survey says otherwise. Choose between the two first."


def unsettled(survey: Survey) -> QuerySet[KeptAside]:
    """Return what somebody must still choose about."""
    return survey.kept_aside.filter(settled_at=None)


@dataclass(frozen=True, slots=True)
class Source:
    """Who sent some answers, and in which change of a tablet, if it was one."""

    by: User | None
    change: SentChange | None = None

    def is_as_of(self, row: KeptAside) -> bool:
        """Tell whether a value came from here too. A tablet is the same whoever is signed in to it."""
        if self.change is None:
            return row.change is None and row.by == self.by
        return row.change is not None and row.change.tablet == self.change.tablet


def keep_aside(
    survey: Survey, section: str, fields: Fields, asides: Iterable[Aside], *, source: Source
) -> None:
    """Keep what was not written of some fields, each value once, and settle what they have overtaken."""
    waits = unsettled(survey).filter(section=section, name__in=list(fields)).select_related("change", "by")
    still = [row for row in waits if not _settle_overtaken(row, survey, fields, source)]
    known = {(row.name, row.other) for row in still if source.is_as_of(row)}
    KeptAside.objects.bulk_create(
        KeptAside(
            survey=survey,
            change=source.change,
            section=each.section,
            name=each.name,
            stood=each.stands,
            other=each.other,
            reason=each.reason,
            by=source.by,
        )
        for each in asides
        if (each.name, each.other) not in known
    )


def stops_kept_aside(survey: Survey) -> list[str]:
    """Return the titles of stops that somebody saw and the survey does not tell of, until that is settled.

    Whoever chooses may find that it was a slip; until then work is held as if it stood there.
    """
    said = unsettled(survey).filter(section="hazards", other=Finding.Seen.YES).values_list("name", flat=True)
    hazards = [HAZARD_BY_KEY.get(name.removeprefix("seen_")) for name in sorted(set(said))]
    return [hazard.title for hazard in hazards if hazard and hazard.severity == Severity.STOP]


def move_unsettled(survey: Survey, to: Survey) -> None:
    """Let the copy of a survey wait for the choices: a survey that was quoted takes none any more."""
    unsettled(survey).update(survey=to)


def settle(row: KeptAside, *, by: User | None, taken: bool) -> None:
    """Note that a choice was made, by whom, and which."""
    row.settled_by, row.settled_at, row.taken = by, timezone.now(), taken
    row.save(update_fields=["settled_by", "settled_at", "taken", "stood"])


def _settle_overtaken(row: KeptAside, survey: Survey, fields: Fields, source: Source) -> bool:
    """Settle a value that nobody need choose about any more, and tell whether it was one.

    It is overtaken when the survey has come to say it, or when whoever sent it has changed it, having seen it
    until then.
    """
    before, after = map(as_lines, fields[row.name])
    if row.other == after and answers_now(survey, row.section).get(row.name, "") == after:
        settle(row, by=source.by, taken=True)
        return True
    if source.is_as_of(row) and row.other == before != after:
        settle(row, by=source.by, taken=False)
        return True
    return False
