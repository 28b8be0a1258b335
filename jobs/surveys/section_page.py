"""What every page of the visit shows round its own questions: the steps, the running count, the way on."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sized
from typing import Any

from django.contrib import messages
from django.http import HttpRequest
from django.urls import reverse

from jobs.surveys.figures import figures_of
from jobs.surveys.form_version import FORM_VERSION
from jobs.surveys.models import Survey
from jobs.surveys.progress import steps_of
from jobs.surveys.sections import SECTION_BY_KEY, neighbours
from jobs.surveys.writing import answers_now, as_lines


def section_page(survey: Survey, section: str, *, since: int | None = None) -> dict[str, Any]:
    """Return the context of one section's page; `since` is when it began to wait for a better layout."""
    figures = figures_of(survey, since=since)
    before, after = neighbours(SECTION_BY_KEY[section])
    return {
        "survey": survey,
        "section": SECTION_BY_KEY[section],
        "form_version": FORM_VERSION,
        "as_shown": json.dumps(answers_now(survey, section)),
        "before": before,
        "after": after,
        "figures": figures,
        "steps": steps_of(survey, missing=figures.missing, findings=figures.findings),
    }


def as_still_shown(request: HttpRequest, survey: Survey, section: str) -> str:
    """Return what a page shows that was sent and is shown again with what was typed into it.

    Where its answer was kept aside it shows neither the survey's nor what it showed at first: it must not be
    taken for having seen what somebody else wrote meanwhile.
    """
    now, was = answers_now(survey, section), as_shown(request) or {}
    unseen = {
        name: was.get(name, "")
        for name, typed in request.POST.items()
        if name in now and as_lines(typed) != as_lines(now[name])
    }
    return json.dumps({**now, **unseen})


def tell_of_aside(request: HttpRequest, asides: Sized) -> None:
    """Tell a person whose answers do not stand in the survey where they are."""
    if count := len(asides):
        words = "1 answer differs" if count == 1 else f"{count} answers differ"
        messages.warning(request, f"{words} from what somebody else has written since. Both are kept aside.")


def next_page(request: HttpRequest, survey: Survey, section: str) -> str:
    """Return where the button that was pressed leads: back, on, or here again."""
    before, after = neighbours(SECTION_BY_KEY[section])
    act = request.POST.get("act")
    if act not in {"back", "next"}:
        return reverse("survey_section", args=[survey.number, section])
    chosen = before if act == "back" else after
    if chosen is None:
        return reverse("survey", args=[survey.number])
    return reverse("survey_section", args=[survey.number, chosen.key])


def as_shown(request: HttpRequest) -> Mapping[str, str] | None:
    """Return what the page that was sent had shown; None where it does not say so."""
    try:
        told = json.loads(request.POST.get("as_shown", ""))
    except ValueError:
        return None
    return {str(name): str(text) for name, text in told.items()} if isinstance(told, dict) else None
