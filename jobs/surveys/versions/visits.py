"""The visits to one property, and which survey was made from which."""

from __future__ import annotations

from django.db.models import Exists, OuterRef, QuerySet

from jobs.surveys.models import Survey


def visits() -> QuerySet[Survey]:
    """Return surveys, the last first, each with what it was copied from and whether it was quoted."""
    quoted = Survey.objects.filter(pk=OuterRef("pk"), quotes__revisions__issued_at__isnull=False)
    told = Survey.objects.select_related("copied_from", "surveyor").defer("answers", "copied_from__answers")
    return told.annotate(was_quoted=Exists(quoted)).order_by("-visited_on", "-pk")


def newer_version_of(survey: Survey) -> Survey | None:
    """Return the last survey that was made from this one, by however many copies, or None."""
    newest, found = None, _last_copy_of(survey)
    while found is not None:
        newest, found = found, _last_copy_of(found)
    return newest


def _last_copy_of(survey: Survey) -> Survey | None:
    return Survey.objects.filter(copied_from=survey, pk__gt=survey.pk).order_by("-pk").first()
