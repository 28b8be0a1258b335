"""The office's choice between what a survey says and what was kept aside."""

from __future__ import annotations

from dataclasses import dataclass

from django import forms
from django.contrib.auth.models import User
from django.db import transaction

from jobs.surveys.forms.hazards import HazardForm
from jobs.surveys.models import Survey
from jobs.surveys.plan.tables import ROW_KINDS
from jobs.surveys.reading import FORMS, read_section
from jobs.surveys.sections import SECTION_BY_KEY
from jobs.surveys.services import KEPT_AS_QUOTED, SurveyKept
from jobs.surveys.tablet.keeping import Source, keep_aside, settle, unsettled
from jobs.surveys.tablet.models import KeptAside, Reason
from jobs.surveys.writing import answers_now, as_lines, is_quoted, write_answers

TAKEABLE = frozenset({Reason.DIFFERS, Reason.CLOSED, Reason.CLEARED, Reason.NO_QUESTION})
"""A value of these may yet be taken; whether it can be is known when it is tried."""
TO_OPEN = "This survey is complete. Open it again to take a value into it."


@dataclass(frozen=True, slots=True)
class Choice:
    """One value kept aside, in words: the question, what the survey says now, and what else was said."""

    row: KeptAside
    section: str
    question: str
    now: str
    now_in_words: str
    other_in_words: str
    may_be_taken: bool


def choices_of(survey: Survey) -> list[Choice]:
    """Return all that somebody must choose about, in the order of the visit."""
    order = list(SECTION_BY_KEY)
    rows = unsettled(survey).select_related("by", "change")
    told = [_choice(survey, row) for row in rows]
    places = {key: place for place, key in enumerate(order)}
    return sorted(told, key=lambda each: places.get(each.row.section, len(order)))


def question_of(survey: Survey, row: KeptAside) -> str:
    """Return the words of the question that a value answers, as on its page."""
    if row.reason in {Reason.OTHER_WORDS, Reason.UNREAD}:
        return "A whole change"
    if row.section == "hazards" and (field := _field(row)):
        title = str(HazardForm(None, findings={}).fields[f"seen_{row.name.partition('_')[2]}"].label)
        return title if row.name.startswith("seen_") else f"{title}: {str(field.label).lower()}"
    if row.section in FORMS and FORMS[row.section].takes(row.name):
        return read_section(survey, row.section).label_of(row.name)
    return "What a photograph shows" if row.section == "photographs" else row.name


@transaction.atomic
def choose(number: str, pk: int, *, take: bool, shown: str, by: User) -> None:
    """Settle one value: take it into the survey, or leave what stands there.

    `shown` is what the page said of the survey: a choice between two values is none if one has changed since.
    """
    survey = Survey.objects.select_for_update().get(number=number)
    row = unsettled(survey).filter(pk=pk).first()
    if row is None:
        raise SurveyKept("Somebody has chosen about this already.")
    now = as_lines(answers_now(survey, row.section).get(row.name, ""))
    row.stood = now
    if take:
        _take(survey, row, now, as_lines(shown))
    settle(row, by=by, taken=take)
    if take:  # others may have sent the same value
        keep_aside(survey, row.section, {row.name: (now, row.other)}, (), source=Source(by))


def why_none_may_be_taken(survey: Survey) -> str:
    """Return why a closed survey takes no value now and what to do first, or nothing."""
    if is_quoted(survey):
        return KEPT_AS_QUOTED
    return "" if survey.is_open() else TO_OPEN


def _take(survey: Survey, row: KeptAside, now: str, shown: str) -> None:
    if shown != now:
        raise SurveyKept("The survey has changed since this page was made. Look at both values again.")
    if closed := why_none_may_be_taken(survey):
        raise SurveyKept(closed)
    if row.reason not in TAKEABLE:
        raise SurveyKept(f"It cannot be taken: {row.get_reason_display()}.")
    for aside in write_answers(survey, row.section, {row.name: (now, row.other)}):
        raise SurveyKept(f"It cannot be taken: {aside.reason.label}.")


def _choice(survey: Survey, row: KeptAside) -> Choice:
    now = answers_now(survey, row.section).get(row.name, "")
    field = _field(row)
    section = SECTION_BY_KEY.get(row.section)
    return Choice(
        row=row,
        section=section.title if section else row.section,
        question=question_of(survey, row),
        now=now,
        now_in_words=_in_words(field, now),
        other_in_words=_in_words(field, row.other),
        may_be_taken=field is not None and row.reason in TAKEABLE,
    )


def _field(row: KeptAside) -> forms.Field | None:
    """Return the box in which the value would stand, or None where there is none any more."""
    if row.section == "hazards":
        return HazardForm(None, findings={}).fields.get(row.name)
    form = FORMS.get(row.section)
    if form is None or not form.takes(row.name):
        return None
    kind, _, rest = row.name.partition("-")
    if kind in ROW_KINDS:
        return ROW_KINDS[kind].base_fields.get(rest.partition("-")[2])
    return form.base_fields[row.name]


def _in_words(field: forms.Field | None, value: str) -> str:
    if isinstance(field, forms.ChoiceField):
        return str(dict(field.choices).get(value, value))
    return value
