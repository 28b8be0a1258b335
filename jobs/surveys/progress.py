"""How far a survey is, and everything in it read back as it was typed and understood."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from django import forms

from estimating.published.hazards import HAZARDS
from jobs.surveys.forms import Grouped, groups_of
from jobs.surveys.models import Finding, Survey
from jobs.surveys.plan.form import PlanForm
from jobs.surveys.reading import FORMS, read_section
from jobs.surveys.sections import SECTIONS, Section
from jobs.surveys.typed.lengths import TypedField


@dataclass(frozen=True, slots=True)
class Step:
    """One section of the visit and what it waits for."""

    section: Section
    missing: tuple[str, ...]
    begun: bool
    stops: int

    @property
    def is_done(self) -> bool:
        return self.begun and not self.missing

    @property
    def needed(self) -> str:
        """The names of the answers that a price needs from this section, for a tablet without a signal."""
        if self.section.key == "hazards":
            return " ".join(f"seen_{hazard.key}" for hazard in HAZARDS)
        return " ".join(FORMS[self.section.key].needed) if self.section.key in FORMS else ""


def steps_of(
    survey: Survey, *, missing: Iterable[tuple[str, str]], findings: Iterable[Finding]
) -> list[Step]:
    """Return every section in the order of the visit, with what a price still needs from it."""
    told, found = list(missing), list(findings)
    begun = {section for section, typed in survey.answers.items() if typed}
    begun |= {"hazards"} if found else set()
    begun |= {"photographs"} if survey.photographs.exists() else set()
    holding = sum(finding.holds_work for finding in found)
    return [
        Step(
            section,
            tuple(label for key, label in told if key == section.key),
            section.key in begun,
            holding if section.key == "hazards" else 0,
        )
        for section in SECTIONS
    ]


def unmeasured(survey: Survey) -> list[tuple[Section, list[str]]]:
    """Return the labels of what the checks take as usual because nobody measured it, section by section."""
    told = []
    for section in SECTIONS:
        if section.key in FORMS:
            form = read_section(survey, section.key)
            form.is_valid()
            told.append((section, [form.label_of(name) for name in form.unmeasured()]))
    return [(section, labels) for section, labels in told if labels]


@dataclass(frozen=True, slots=True)
class Line:
    """One answer: what was typed, and what was understood where that is not the same."""

    name: str
    label: str
    typed: str
    understood: str
    error: str


def read_back(survey: Survey) -> list[tuple[Section, list[Line]]]:
    """Return the answers of every section that has any, as understood."""
    return [
        (section, lines)
        for section in SECTIONS
        if section.key in FORMS and (lines := list(answered(survey, section.key)))
    ]


def answered(survey: Survey, section: str) -> Iterator[Line]:
    """Yield every answer of a section, in the order of its page."""
    form = read_section(survey, section)
    form.is_valid()
    parts: list[Grouped] = [form]
    if isinstance(form, PlanForm):
        parts += [row for rows in form.rows.values() for row in rows]
    for bound in (field for part in parts for group in groups_of(part) for field in group.fields):
        typed = str(bound.value() or "").strip()
        if typed:
            yield _line(bound, typed, form.label_of(bound.html_name))


def _line(bound: forms.BoundField, typed: str, label: str) -> Line:
    field = bound.field
    if isinstance(field, forms.ChoiceField):
        typed = str(dict(field.choices).get(typed, typed))
    understood = field.understood if isinstance(field, TypedField) else ""
    return Line(bound.html_name, label, typed, understood, " ".join(bound.errors))
