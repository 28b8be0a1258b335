"""The sections of a survey, as the surveyor fills them on a page."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from jobs.forms import sent, status_of
from jobs.surveys.forms.hazards import HazardForm
from jobs.surveys.models import Finding, Survey
from jobs.surveys.photographs.views import photographs_page
from jobs.surveys.plan.form import PlanForm
from jobs.surveys.plan.proposed_zone import NothingToPropose, with_proposed_zone
from jobs.surveys.plan.tables import ROW_KINDS
from jobs.surveys.reading import FORMS, read_section
from jobs.surveys.section_page import as_shown, as_still_shown, next_page, section_page, tell_of_aside
from jobs.surveys.services import SurveyKept, answer_hazards, is_quoted, save_section
from jobs.surveys.views import survey_asked_for

CONFLICT = 409


@permission_required("jobs.view_survey", raise_exception=True)
@require_safe
def section_figures(request: HttpRequest, number: str, section: str) -> HttpResponse:
    """Answer a page whose tablet sent what was typed: the figures, and what was understood."""
    row = survey_asked_for(number)
    if not request.htmx:
        return redirect("survey_section", number=number, section=section)
    context = section_page(row, section)
    if section in FORMS:
        context["form"] = read_section(row, section)
        context["form"].is_valid()
    return render(request, "surveys/_written.html", context)


@permission_required("jobs.change_survey", raise_exception=True)
def survey_section(request: HttpRequest, number: str, section: str) -> HttpResponse:
    row = survey_asked_for(number)
    if request.method == "GET" and (not row.is_open() or is_quoted(row)):
        messages.warning(request, "This survey is closed to changes. Open it again or copy it below.")
        return redirect("survey", number=number)
    if section == "photographs":
        return photographs_page(request, row)
    if section == "hazards":
        return _hazards_page(request, row)
    return _answers_page(request, row, section)


def _answers_page(request: HttpRequest, row: Survey, section: str) -> HttpResponse:
    typed = row.answers.get(section, {})
    status, said = 200, ""
    act, _, kind = request.POST.get("act", "").partition(" ")
    if request.method == "POST":
        typed = _said(request, section, before=typed)
        if act == "propose" and section == "plan":
            typed, said = _proposed(row, typed)
        try:
            asides = save_section(
                row, section=section, typed=typed, as_shown=as_shown(request), by=request.user
            )
            tell_of_aside(request, asides)
        except SurveyKept as kept:
            messages.error(request, str(kept))
            status = CONFLICT
    form = read_section(row, section, typed)
    if act == "add" and section == "plan" and kind in ROW_KINDS:
        form = PlanForm(row.answers[section], length_unit=row.length_unit, one_more=kind)
    elif request.method == "POST" and not form.is_valid():
        status = max(status, 422)
    elif request.method == "POST" and status == 200 and not said and not _writes_through(request):
        return redirect(next_page(request, row, section))
    context = section_page(row, section) | {"form": form, "said": said}
    if request.method == "POST":
        context["as_shown"] = as_still_shown(request, row, section)
    form.is_valid()
    if _writes_through(request):
        return render(request, "surveys/_written.html", context)
    return render(request, "surveys/section.html", context, status=status)


def _said(request: HttpRequest, section: str, *, before: Mapping[str, Any]) -> dict[str, Any]:
    """Return the answers sent; an empty one counts only where something stood."""
    return {
        name: answer
        for name, answer in request.POST.items()
        if FORMS[section].takes(name) and (answer or name in before)
    }


def _proposed(row: Survey, typed: dict[str, Any]) -> tuple[dict[str, Any], str]:
    """Return the plan with a deck zone proposed, or as it is, and what is to be said of it."""
    try:
        return with_proposed_zone(row, typed)
    except NothingToPropose as nothing:
        return typed, str(nothing)


def _writes_through(request: HttpRequest) -> bool:
    """Tell whether the page itself sends a change while the surveyor goes on typing."""
    return bool(request.htmx) and request.htmx.trigger == "answers"


def _hazards_page(request: HttpRequest, row: Survey) -> HttpResponse:
    waiting = row.answers.get("hazards", {})
    form = HazardForm(sent(request), findings=_by_hazard(row), waiting=waiting)
    status = 200
    if form.is_bound:
        status = status_of(form)
        try:
            asides = answer_hazards(row, answers=form.answered(), as_shown=as_shown(request), by=request.user)
            tell_of_aside(request, asides)
        except SurveyKept as kept:
            messages.error(request, str(kept))
            status = CONFLICT
        if _writes_through(request):
            shown = {"as_shown": as_still_shown(request, row, "hazards")}
            return render(request, "surveys/_written.html", section_page(row, "hazards") | shown)
        if status == 200:
            return redirect(next_page(request, row, "hazards"))
        form.findings = _by_hazard(row)
    context = section_page(row, "hazards") | {"form": form}
    if form.is_bound:
        context["as_shown"] = as_still_shown(request, row, "hazards")
    return render(request, "surveys/hazards.html", context, status=status)


def _by_hazard(row: Survey) -> dict[str, Finding]:
    return {finding.hazard: finding for finding in row.findings.select_related("clearance")}
