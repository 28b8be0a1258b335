"""Open, fill, complete and copy surveys; clear stops; keep photographs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction

from jobs.customers.models import Enquiry, Property
from jobs.firm.length_units import LengthUnit
from jobs.firm.models import Firm
from jobs.firm.numbers import next_number
from jobs.surveys.as_measured import missing_for_price
from jobs.surveys.form_version import FORM_VERSION
from jobs.surveys.models import Clearance, Finding, Photograph, Survey
from jobs.surveys.photographs.kept import KeptPhotograph
from jobs.surveys.tablet.keeping import Source, keep_aside, move_unsettled
from jobs.surveys.writing import Aside, Fields, answers_now, is_quoted, write_answers


class SurveyKept(Exception):
    """The survey may not be changed as it is; the message says what to do instead."""


@transaction.atomic
def open_survey(property: Property, *, by: User, visited_on: date, enquiry: Enquiry | None = None) -> Survey:
    """Start the survey of a property; bare numbers in it are read by the unit that the firm now uses."""
    unit = Firm.objects.filter(pk=1).values_list("length_unit", flat=True).first()
    return Survey.objects.create(
        number=next_number("S"),
        property=property,
        enquiry=enquiry,
        surveyor=by,
        visited_on=visited_on,
        length_unit=unit or LengthUnit.MILLIMETRES,
        form_version=FORM_VERSION,
    )


@transaction.atomic
def change_day(survey: Survey, *, visited_on: date) -> None:
    """Say on which day the loft was measured."""
    locked = _open_for_change(survey)
    locked.visited_on = visited_on
    locked.save(update_fields=["visited_on", "updated_at"])


@transaction.atomic
def save_section(
    survey: Survey,
    *,
    section: str,
    typed: Mapping[str, Any],
    as_shown: Mapping[str, str] | None = None,
    by: User | None = None,
) -> tuple[Aside, ...]:
    """Keep what was typed into one section, readable or not; what was not sent stays as it is.

    A measurement that cannot be read yet is still a measurement: refusing to keep it would lose it.
    `as_shown` is what the page showed when it was made: what others have written since is kept as well.
    """
    locked = _open_for_change(survey)
    if section not in locked.answers:  # a page that was sent empty is begun all the same
        locked.answers[section] = {}
        locked.save(update_fields=["answers", "updated_at"])
    before = answers_now(locked, section) if as_shown is None else as_shown
    fields = {name: (before.get(name, ""), str(answer)) for name, answer in typed.items()}
    asides = _write(locked, section, fields, by)
    survey.answers = locked.answers
    return asides


@transaction.atomic
def answer_hazards(
    survey: Survey,
    *,
    answers: Iterable[tuple[str, str, str]],
    as_shown: Mapping[str, str] | None = None,
    by: User | None = None,
) -> tuple[Aside, ...]:
    """Keep (hazard, seen, words) for each hazard that something was said about.

    The answer to a cleared stop stays. A page cannot take an answer back, so none seen is none told; its
    words are kept all the same.
    """
    locked = _open_for_change(survey)
    before = answers_now(locked, "hazards") if as_shown is None else as_shown
    fields: dict[str, tuple[str, str]] = {}
    for hazard, seen, words in answers:
        told = {f"seen_{hazard}": seen, f"words_{hazard}": words} if seen else {f"words_{hazard}": words}
        fields |= {name: (before.get(name, ""), answer) for name, answer in told.items()}
    asides = _write(locked, "hazards", fields, by)
    survey.answers = locked.answers
    return asides


def _write(locked: Survey, section: str, fields: Fields, by: User | None) -> tuple[Aside, ...]:
    """Write what may be written; return what was kept aside instead."""
    asides = write_answers(locked, section, fields)
    keep_aside(locked, section, fields, asides, source=Source(by))
    return asides


@transaction.atomic
def clear_finding(finding: Finding, *, clearance: Clearance, by: User) -> None:
    """Record who resolved a stop and on which paper, also once the survey is quoted."""
    locked = Finding.objects.select_for_update().get(pk=finding.pk)
    if not locked.holds_work:
        raise SurveyKept("This finding holds no work: there is nothing to clear.")
    clearance.finding, clearance.recorded_by = locked, by
    clearance.save(force_insert=True)


@transaction.atomic
def complete_survey(survey: Survey) -> None:
    """Say that a survey has all that a price needs."""
    locked = _open_for_change(survey)
    missing = missing_for_price(locked)
    if missing:
        raise SurveyKept(f"{len(missing)} answers are still missing for a price: see the list.")
    locked.state = Survey.State.COMPLETE
    locked.save(update_fields=["state", "updated_at"])
    if locked.enquiry and locked.enquiry.state != Enquiry.State.CLOSED:
        locked.enquiry.state = Enquiry.State.SURVEYED
        locked.enquiry.save(update_fields=["state"])


@transaction.atomic
def reopen_survey(survey: Survey) -> None:
    """Open a complete survey again, unless a customer has been given a price from it."""
    locked = Survey.objects.select_for_update().get(pk=survey.pk)
    if is_quoted(locked):
        raise SurveyKept(KEPT_AS_QUOTED)
    locked.state = Survey.State.OPEN
    locked.save(update_fields=["state", "updated_at"])


@transaction.atomic
def copy_survey(survey: Survey, *, by: User, visited_on: date) -> Survey:
    """Start the next survey from this one.

    Measurements and findings are copied. A copy made to mend the same visit keeps its clearances and
    photographs; on another day the loft is looked at anew, and an old clearance proves nothing.
    """
    copy = open_survey(survey.property, by=by, visited_on=visited_on, enquiry=survey.enquiry)
    copy.answers, copy.copied_from, copy.form_version = survey.answers, survey, survey.form_version
    copy.length_unit = survey.length_unit
    copy.save()
    same_visit = visited_on == survey.visited_on
    findings: dict[int, Finding] = {}
    for finding in survey.findings.select_related("clearance"):
        clearance = finding.clearance if hasattr(finding, "clearance") else None
        findings[finding.pk] = Finding.objects.create(
            survey=copy,
            hazard=finding.hazard,
            seen=finding.seen,
            severity=finding.severity,
            words=finding.words,
        )
        if same_visit and clearance:
            clearance.pk, clearance.finding = None, findings[finding.pk]
            clearance.save(force_insert=True)
    if same_visit:
        move_unsettled(survey, copy)
        for photograph in survey.photographs.all():
            photograph.pk, photograph.survey = None, copy
            photograph.finding = findings.get(photograph.finding_id)
            photograph.save(force_insert=True)
    return copy


@transaction.atomic
def add_photographs(
    survey: Survey, *, kept: Iterable[KeptPhotograph], by: User, shows: str, finding: Finding | None
) -> list[Photograph]:
    """Tie kept photographs to a survey and, if wished, to a finding; one sent twice is kept once."""
    locked = Survey.objects.select_for_update().get(pk=survey.pk)
    return [
        Photograph.objects.get_or_create(
            survey=locked,
            sha256=each.sha256,
            defaults={
                "width": each.width,
                "height": each.height,
                "shows": shows,
                "finding": finding,
                "taken_by": by,
            },
        )[0]
        for each in kept
    ]


KEPT_AS_QUOTED = "A price was given from this survey, so it is kept as it was. Copy it to change it."


def _open_for_change(survey: Survey) -> Survey:
    """Lock a survey and return it, if it may be changed."""
    locked = (
        Survey.objects.select_for_update(of=("self",)).select_related("property", "enquiry").get(pk=survey.pk)
    )
    if is_quoted(locked):
        raise SurveyKept(KEPT_AS_QUOTED)
    if not locked.is_open():
        raise SurveyKept("This survey is complete. Open it again to change it.")
    return locked
