"""The pages of the visit with no survey in them: the tablet fills in what it carries."""

from __future__ import annotations

from typing import Any

from django import forms

from estimating.published.hazards import HAZARDS
from jobs.customers.models import Property
from jobs.surveys.figures import SurveyFigures
from jobs.surveys.form_version import FORM_VERSION
from jobs.surveys.forms.hazards import HazardForm
from jobs.surveys.models import Survey
from jobs.surveys.photographs.form import PhotographsForm
from jobs.surveys.progress import Step
from jobs.surveys.reading import FORMS, read_section
from jobs.surveys.sections import SECTION_BY_KEY, SECTIONS, neighbours

NOBODY = "S-0000-0000"
"""The number in the links of a kept page, in place of which the tablet writes the survey's own."""


_NO_SURVEY = Survey(number=NOBODY, property=Property(), form_version=FORM_VERSION)


def shell_context(section: str) -> dict[str, Any]:
    """Return the context of one section's page for a survey of nothing."""
    before, after = neighbours(SECTION_BY_KEY[section])
    return shell_of_sheet() | {
        "section": SECTION_BY_KEY[section],
        "before": before,
        "after": after,
        "form": _form(section),
    }


def _form(section: str) -> forms.BaseForm:
    if section == "photographs":
        return PhotographsForm(survey=_NO_SURVEY)
    return read_section(_NO_SURVEY, section) if section in FORMS else HazardForm(None, findings={})


def shell_of_sheet() -> dict[str, Any]:
    """Return the context of the sheet that reads a survey back, for a survey of nothing."""
    return {
        "is_shell": True,
        "survey": _NO_SURVEY,
        "form_version": FORM_VERSION,
        "figures": SurveyFigures(missing=[]),
        "hazards": HAZARDS,
        "steps": [Step(each, missing=(), begun=False, stops=0) for each in SECTIONS],
    }
