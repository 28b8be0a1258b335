"""The survey's list, the sheet that reads one back, and what is done with it as a whole."""

from __future__ import annotations

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
from jobs.surveys.models import Finding, Survey
from jobs.surveys.progress import read_back, steps_of, unmeasured
from jobs.surveys.section_page import section_page
from jobs.surveys.sections import SECTION_BY_KEY
from jobs.surveys.services import (
    SurveyKept,
    change_day,
    clear_finding,
    complete_survey,
    copy_survey,
    is_quoted,
    open_survey,
    reopen_survey,
)
from jobs.surveys.versions.differences import differences
from jobs.surveys.versions.visits import newer_version_of, visits

PAGE = 30


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
    row = survey_asked_for(number)
    return _sheet(request, row, DayForm(initial={"visited_on": row.visited_on}))


@permission_required("jobs.change_survey", raise_exception=True)
@require_POST
def survey_day(request: HttpRequest, number: str) -> HttpResponse:
    row = survey_asked_for(number)
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
    row = survey_asked_for(number)
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
    row = survey_asked_for(number)
    same_visit = request.POST.get("visit") == "same"
    day = row.visited_on if same_visit else timezone.localdate()
    copy = copy_survey(row, by=request.user, visited_on=day)
    messages.success(request, f"{copy.number} is a copy of {row.number}, which is kept as it was.")
    return redirect("survey", number=copy.number)


def _settle(request: HttpRequest, number: str, service: Any, words: str) -> HttpResponse:
    try:
        service(survey_asked_for(number))
    except SurveyKept as kept:
        messages.error(request, str(kept))
    else:
        messages.success(request, words)
    return redirect("survey", number=number)


def survey_asked_for(number: str) -> Survey:
    rows = Survey.objects.select_related("property__customer", "surveyor", "copied_from")
    return get_object_or_404(rows, number=number)


def _found(findings: list[Finding]) -> list[Finding]:
    """Return the findings that matter, those that hold work first."""
    matter = [finding for finding in findings if finding.seen != Finding.Seen.NO]
    return sorted(matter, key=lambda finding: (not finding.holds_work, finding.severity != Severity.STOP))


def _title(finding: Finding) -> str:
    hazard = HAZARD_BY_KEY.get(finding.hazard)
    return hazard.title if hazard else finding.hazard
