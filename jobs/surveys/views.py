"""The surveyor's pages: the visit section by section, and the sheet that reads it back."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from estimating.published.hazards import HAZARD_BY_KEY
from estimating.survey import Severity
from jobs.customers.models import Enquiry, Property
from jobs.firm.models import Firm
from jobs.forms import sent, status_of
from jobs.layouts.landing import answer_to_waiting
from jobs.surveys.figures import figures_of
from jobs.surveys.forms import ClearanceForm, DayForm
from jobs.surveys.forms.hazards import HazardForm
from jobs.surveys.models import Finding, Survey
from jobs.surveys.photographs.views import photographs_page
from jobs.surveys.plan.form import PlanForm
from jobs.surveys.plan.proposed_zone import NothingToPropose, with_proposed_zone
from jobs.surveys.plan.tables import ROW_KINDS
from jobs.surveys.progress import read_back, steps_of, unmeasured
from jobs.surveys.reading import FORMS, read_section
from jobs.surveys.section_page import as_shown, as_still_shown, next_page, section_page, tell_of_aside
from jobs.surveys.sections import SECTION_BY_KEY
from jobs.surveys.services import (
    SurveyKept,
    answer_hazards,
    change_day,
    clear_finding,
    complete_survey,
    copy_survey,
    is_quoted,
    open_survey,
    reopen_survey,
    save_section,
)
from jobs.surveys.versions.differences import differences
from jobs.surveys.versions.visits import newer_version_of, visits

PAGE = 30
CONFLICT = 409


@permission_required("jobs.view_survey", raise_exception=True)
@require_safe
def surveys(request: HttpRequest) -> HttpResponse:
    wanted = request.GET.get("state", "")
    rows = Survey.objects.select_related("property__customer", "surveyor")
    if wanted in Survey.State.values:
        rows = rows.filter(state=wanted)
    page = Paginator(rows, PAGE).get_page(request.GET.get("page"))
    return render(request, "surveys/surveys.html", {"page": page, "states": Survey.State, "wanted": wanted})


@permission_required("jobs.add_survey", raise_exception=True)
@require_POST
def survey_new(request: HttpRequest) -> HttpResponse:
    """Start the survey of an enquiry, or of a property without one."""
    enquiry = None
    if request.GET.get("enquiry", "").isdecimal():
        enquiry = get_object_or_404(Enquiry.objects.select_related("property"), pk=request.GET["enquiry"])
        building = enquiry.property
    else:
        wanted = request.GET.get("property", "")
        building = get_object_or_404(Property, pk=wanted if wanted.isdecimal() else 0)
    opened = open_survey(building, by=request.user, visited_on=timezone.localdate(), enquiry=enquiry)
    return redirect("survey_section", number=opened.number, section="arrive")


@permission_required("jobs.view_survey", raise_exception=True)
@require_safe
def survey(request: HttpRequest, number: str) -> HttpResponse:
    """Read a survey back: everything as understood, what is missing, and what it comes to."""
    row = _survey(number)
    return _sheet(request, row, DayForm(initial={"visited_on": row.visited_on}))


@permission_required("jobs.change_survey", raise_exception=True)
@require_POST
def survey_day(request: HttpRequest, number: str) -> HttpResponse:
    row = _survey(number)
    form = DayForm(request.POST)
    if not form.is_valid():
        return _sheet(request, row, form)
    day = form.cleaned_data["visited_on"]
    return _settle(request, number, partial(change_day, visited_on=day), "The day of the visit is changed.")


def _sheet(request: HttpRequest, row: Survey, day_form: DayForm) -> HttpResponse:
    figures = figures_of(row)
    quoted = is_quoted(row)
    context = {
        "survey": row,
        "figures": figures,
        "steps": steps_of(row, missing=figures.missing, findings=figures.findings),
        "read_back": read_back(row),
        "unmeasured": unmeasured(row),
        "found": _found(figures.findings),
        "absent": [_title(each) for each in figures.findings if each.seen == Finding.Seen.NO],
        "photographs": row.photographs.select_related("finding"),
        "quoted": quoted,
        "visits": visits().filter(property=row.property),
        "newer": newer_version_of(row),
        "changed": differences(row.copied_from, row) if row.copied_from else [],
        "may_change": request.user.has_perm("jobs.change_survey") and row.is_open() and not quoted,
        "day_form": day_form,
        "firm": Firm.objects.filter(pk=1).first(),
    }
    return render(request, "surveys/survey.html", context, status=status_of(day_form))


@permission_required("jobs.view_survey", raise_exception=True)
@require_safe
def survey_landed(request: HttpRequest, number: str) -> HttpResponse:
    """Answer a page of a survey, or its sheet, that waits for its boards to be proved."""
    row = _survey(number)
    if not request.htmx:
        return redirect("survey", number=number)
    section = request.GET.get("section", "")

    def show_landed(since: int) -> HttpResponse:
        if section in SECTION_BY_KEY:
            context = section_page(row, section, since=since)
        else:
            context = {"survey": row, "figures": figures_of(row, since=since)}
        return render(request, "surveys/_landed.html", context)

    return answer_to_waiting(request, show_landed)


@permission_required("jobs.view_survey", raise_exception=True)
@require_safe
def section_figures(request: HttpRequest, number: str, section: str) -> HttpResponse:
    """Answer a page whose tablet sent what was typed: the figures, and what was understood."""
    row = _survey(number)
    if not request.htmx:
        return redirect("survey_section", number=number, section=section)
    context = section_page(row, section)
    if section in FORMS:
        context["form"] = read_section(row, section)
        context["form"].is_valid()
    return render(request, "surveys/_written.html", context)


@permission_required("jobs.change_survey", raise_exception=True)
def survey_section(request: HttpRequest, number: str, section: str) -> HttpResponse:
    row = _survey(number)
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


@permission_required("jobs.add_clearance", raise_exception=True)
def finding_clear(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    finding = get_object_or_404(Finding.objects.select_related("survey"), pk=pk, survey__number=number)
    form = ClearanceForm(sent(request))
    if form.is_bound and form.is_valid():
        try:
            clear_finding(finding, clearance=form.save(commit=False), by=request.user)
        except SurveyKept as refused:
            form.add_error(None, str(refused))
        else:
            messages.success(request, "The clearance is kept. This finding no longer holds work.")
            return redirect("survey", number=number)
    context = {"form": form, "finding": finding, "hazard": HAZARD_BY_KEY.get(finding.hazard)}
    return render(request, "surveys/finding_clear.html", context, status=status_of(form))


@permission_required("jobs.change_survey", raise_exception=True)
@require_POST
def survey_complete(request: HttpRequest, number: str) -> HttpResponse:
    return _settle(request, number, complete_survey, "The survey is complete.")


@permission_required("jobs.change_survey", raise_exception=True)
@require_POST
def survey_reopen(request: HttpRequest, number: str) -> HttpResponse:
    return _settle(request, number, reopen_survey, "The survey is open again.")


@permission_required("jobs.add_survey", raise_exception=True)
@require_POST
def survey_copy(request: HttpRequest, number: str) -> HttpResponse:
    """Copy a survey, to mend the same visit or as the start of the next one."""
    row = _survey(number)
    same_visit = request.POST.get("visit") == "same"
    day = row.visited_on if same_visit else timezone.localdate()
    copy = copy_survey(row, by=request.user, visited_on=day)
    messages.success(request, f"{copy.number} is a copy of {row.number}, which is kept as it was.")
    return redirect("survey", number=copy.number)


def _settle(request: HttpRequest, number: str, service: Any, words: str) -> HttpResponse:
    try:
        service(_survey(number))
    except SurveyKept as kept:
        messages.error(request, str(kept))
    else:
        messages.success(request, words)
    return redirect("survey", number=number)


def _survey(number: str) -> Survey:
    rows = Survey.objects.select_related("property__customer", "surveyor", "copied_from")
    return get_object_or_404(rows, number=number)


def _by_hazard(row: Survey) -> dict[str, Finding]:
    return {finding.hazard: finding for finding in row.findings.select_related("clearance")}


def _found(findings: list[Finding]) -> list[Finding]:
    """Return the findings that matter, those that hold work first."""
    matter = [finding for finding in findings if finding.seen != Finding.Seen.NO]
    return sorted(matter, key=lambda finding: (not finding.holds_work, finding.severity != Severity.STOP))


def _title(finding: Finding) -> str:
    hazard = HAZARD_BY_KEY.get(finding.hazard)
    return hazard.title if hazard else finding.hazard
