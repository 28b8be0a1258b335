"""The one way by which answers are written into a survey, whoever sends them.

Every answer comes with what stood in its box before it was changed. Where the survey still says that, the new
answer is written; where it says something else, somebody else was there meanwhile, and neither is lost: the
survey's stands, and the other is handed back to be kept aside.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from estimating.published.hazards import HAZARD_BY_KEY
from jobs.surveys.models import Finding, Photograph, Survey
from jobs.surveys.plan.tables import removals_as_emptied
from jobs.surveys.reading import FORMS
from jobs.surveys.tablet.models import Reason

Fields = Mapping[str, tuple[str, str]]
"""Name of a box to what stood in it before and what stands in it after."""


@dataclass(frozen=True, slots=True)
class Aside:
    """An answer that was not written: what the survey says, what else was said, and why both are kept."""

    section: str
    name: str
    stands: str
    other: str
    reason: Reason


def is_quoted(survey: Survey) -> bool:
    """Tell whether a customer was given a price from this survey."""
    return survey.quotes.exclude(revisions__issued_at=None).exists()


def write_answers(survey: Survey, section: str, fields: Fields) -> tuple[Aside, ...]:
    """Write one section's changed answers into a survey locked by the caller, and return what was not.

    A measurement that cannot be read yet is still a measurement: it is written as it was typed.
    """
    if section == "hazards":
        return write_hazards(survey, fields)
    form, answers = FORMS.get(section), answers_now(survey, section)
    if section == "plan":
        fields = removals_as_emptied(fields, answers)

    def refuse(name: str, _after: str) -> Reason | None:
        return None if form and form.takes(name) else Reason.NO_QUESTION

    writes, asides = _sorted_out(survey, section, fields, answers, refuse)
    if writes:
        survey.answers[section] = {**answers, **writes}
        survey.save(update_fields=["answers", "updated_at"])
    return asides


def write_hazards(survey: Survey, fields: Fields) -> tuple[Aside, ...]:
    """Write answers to the hazard list, named `seen_<hazard>` and `words_<hazard>`, as write_answers does.

    Words about a hazard that is not answered yet wait among the survey's answers until it is.
    """
    stands, waiting = answers_now(survey, "hazards"), dict(survey.answers.get("hazards", {}))
    cleared = set(survey.findings.filter(clearance__isnull=False).values_list("hazard", flat=True))

    def refuse(name: str, after: str) -> Reason | None:
        part, _, hazard = name.partition("_")
        if part not in {"seen", "words"} or hazard not in HAZARD_BY_KEY:
            return Reason.NO_QUESTION
        if hazard in cleared:
            return Reason.CLEARED
        is_answer = part == "words" or not after or after in Finding.Seen.values
        return None if is_answer else Reason.NO_ANSWER

    writes, asides = _sorted_out(survey, "hazards", fields, stands, refuse)
    told = {**stands, **writes}
    for hazard in {name.partition("_")[2] for name in writes}:
        seen, words = told.get(f"seen_{hazard}", ""), told.get(f"words_{hazard}", "")
        _write_finding(survey, hazard, seen, words)
        waiting.pop(f"words_{hazard}", None)
        if words and not seen:
            waiting[f"words_{hazard}"] = words
    if writes:
        survey.answers["hazards"] = waiting
        survey.save(update_fields=["answers", "updated_at"])
    return asides


def answers_now(survey: Survey, section: str) -> dict[str, str]:
    """Return what a survey says in one section, under the names of the boxes."""
    told = dict(survey.answers.get(section, {}))
    if section == "hazards":
        for hazard, seen, words in survey.findings.values_list("hazard", "seen", "words"):
            told |= {f"seen_{hazard}": seen, f"words_{hazard}": words}
    return told


def _sorted_out(
    survey: Survey,
    section: str,
    fields: Fields,
    answers: Mapping[str, str],
    refuse: Callable[[str, str], Reason | None],
) -> tuple[dict[str, str], tuple[Aside, ...]]:
    """Return what may be written, and what must be kept aside; where nothing was changed it is neither."""
    writes: dict[str, str] = {}
    asides: list[Aside] = []
    closed: bool | None = None
    for name, (before, after) in fields.items():
        stands, was, other = (as_lines(text) for text in (answers.get(name, ""), before, after))
        if other in {stands, was}:
            continue
        reason = refuse(name, other)
        if reason is None:
            closed = (not survey.is_open() or is_quoted(survey)) if closed is None else closed
            reason = Reason.CLOSED if closed else Reason.DIFFERS if stands != was else None
        if reason is None:
            writes[name] = other
        else:
            asides.append(Aside(section, name, stands, other, reason))
    return writes, tuple(asides)


def as_lines(text: str) -> str:
    """Return a text with the line ends of a script: a page that sends itself writes others."""
    return str(text).replace("\r\n", "\n")


def _write_finding(survey: Survey, hazard: str, seen: str, words: str) -> None:
    """Make the finding say so; photographs tied to the hazard stay tied to it, answered or not."""
    tied = Photograph.objects.filter(survey=survey)
    if not seen:
        tied.filter(finding__hazard=hazard).update(hazard=hazard)
        survey.findings.filter(hazard=hazard).delete()
        return
    told = {"seen": seen, "words": words, "severity": HAZARD_BY_KEY[hazard].severity.value}
    finding, made = Finding.objects.update_or_create(survey=survey, hazard=hazard, defaults=told)
    if made:
        tied.filter(hazard=hazard, finding=None).update(finding=finding)
