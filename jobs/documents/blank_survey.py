"""The survey on paper, for the day the tablet dies: the questions of the screens, in the order of the visit.

It is made from the very forms of the visit, so that paper and screen cannot drift apart.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from django.utils import timezone

from jobs.customers.models import Enquiry
from jobs.customers.phones import shown_phone
from jobs.documents.asked import Asked, AskedGroup, answer_of, asked, asked_groups
from jobs.documents.render import pdf_from_template
from jobs.documents.squared_paper import squared_paper
from jobs.firm.models import Firm
from jobs.surveys.forms.hazards import HazardForm
from jobs.surveys.models import Survey
from jobs.surveys.photographs.wanted import PHOTOGRAPHS_WANTED
from jobs.surveys.plan.form import PlanForm
from jobs.surveys.plan.rows import PlanRow
from jobs.surveys.reading import read_section
from jobs.surveys.sections import SECTIONS, Section
from jobs.surveys.typed.lengths import CornersField

READINGS = "readings"
ON_ONE_LINE = frozenset({READINGS, "spacings"})
ROWS_AT_LEAST = {"joists": 2, "keep_outs": 8, "zones": 2}
TAPE = tuple(tuple(range(line, 25, 8)) for line in range(1, 9))
"""The joists whose tape readings stand on each line: 24 in three columns, read downwards."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedRows:
    """The rows of one kind as a table to write in; what has no column is asked under it."""

    title: str
    columns: tuple[Asked, ...]
    rows: tuple[tuple[str, ...], ...]
    under: tuple[Asked, ...]


def blank_survey_pdf(survey: Survey | None = None, *, enquiry: Enquiry | None = None) -> bytes:
    """Return the sheet as a paper: blank, with the head of a visit, or with what is known of one."""
    return pdf_from_template("documents/blank_survey.html", blank_survey_context(survey, enquiry=enquiry))


def blank_survey_context(survey: Survey | None = None, *, enquiry: Enquiry | None = None) -> dict[str, Any]:
    """Return every question of the visit, section by section, with what stands in it already."""
    enquiry = enquiry or (survey.enquiry if survey else None)
    return {
        "firm": Firm.ours(),
        "survey": survey,
        "number": survey.number if survey else "-",
        "made_on": timezone.localdate(),
        "head": _head(survey, enquiry),
        "sections": [_section(section, survey) for section in SECTIONS],
        "squared_paper": squared_paper(),
    }


def _head(survey: Survey | None, enquiry: Enquiry | None) -> dict[str, Any]:
    """Return who and where, of a survey or of the enquiry that it will answer."""
    known = survey or enquiry
    if known is None:
        return {}
    building, surveyor = known.property, known.surveyor
    return {
        "customer": building.customer.name,
        "phone": shown_phone(building.customer.phone),
        "address": ", ".join(building.address_lines),
        "surveyor": (surveyor.get_full_name() or surveyor.username) if surveyor else "",
        "day": survey.visited_on if survey else enquiry and enquiry.visit_at,
        "wants": enquiry.wants if enquiry else "",
        "note": building.note,
    }


def _section(section: Section, survey: Survey | None) -> dict[str, Any]:
    key = section.key
    told: dict[str, Any] = {"key": key, "title": section.title}
    if key == "hazards":
        return told | {"hazards": list(_hazard_questions(survey))}
    if key == "photographs":
        return told | {"wanted": PHOTOGRAPHS_WANTED}
    form = read_section(survey or Survey(), key)
    told["groups"] = list(asked_groups(form))
    if isinstance(form, PlanForm):
        told["joists"] = _joist_fields(form)
        told["tables"] = [_rows(form, kind) for kind in form.rows if kind != "joists"]
    return told


def _hazard_questions(survey: Survey | None) -> Iterator[dict[str, Any]]:
    found = survey.findings.select_related("clearance") if survey else ()
    form = HazardForm(None, findings={finding.hazard: finding for finding in found})
    for question in form.questions():
        yield {"hazard": question.hazard, "seen": asked(question.seen), "words": asked(question.words)}


def _written_rows(form: PlanForm, kind: str) -> list[PlanRow]:
    """Return the rows that say something, and empty ones up to what a usual loft needs."""
    table = form.rows[kind]
    written = [row for row in table.forms if row.has_changed()]
    return written + [table.empty_form for _ in range(ROWS_AT_LEAST[kind] - len(written))]


def _joist_fields(form: PlanForm) -> dict[str, Any]:
    """Return the joist fields side by side, group by group, so that a page may end between two groups."""
    rows = _written_rows(form, "joists")
    side_by_side = zip(*(asked_groups(row) for row in rows), strict=True)
    groups = []
    for fields, (_, names) in zip(side_by_side, rows[0].groups, strict=True):
        has_tape = READINGS in names
        told = tuple(_on_the_tape(group, names) for group in fields) if has_tape else fields
        groups.append((told, TAPE if has_tape else ()))
    return {
        "names": [f"{row.called} {place}" for place, row in enumerate(rows, start=1)],
        "groups": groups,
    }


def _on_the_tape(group: AskedGroup, names: Iterable[str]) -> AskedGroup:
    """Ask for tape readings and centres on one line each: they are written into the table below it."""
    told = zip(names, group.questions, strict=True)
    return AskedGroup(
        group.title, tuple(replace(each, lines=1) if name in ON_ONE_LINE else each for name, each in told)
    )


def _rows(form: PlanForm, kind: str) -> AskedRows:
    """Return a table to write in. Corners stand under it, those known first: they need a line."""
    rows = [[field for group in row.grouped() for field in group.fields] for row in _written_rows(form, kind)]
    corners = [field for row in rows for field in row if isinstance(field.field, CornersField)]
    known = [field for field in corners[:-1] if field.value()]
    return AskedRows(
        title=next(title for title, prefix, _ in form.row_groups() if prefix == kind),
        columns=tuple(asked(field) for field in rows[-1] if field not in corners),
        rows=tuple(tuple(answer_of(field) for field in row if field not in corners) for row in rows),
        under=tuple(replace(asked(field), lines=1) for field in (*known, corners[-1])),
    )
