"""The office's page for what was kept aside, and the choice between two values."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_POST, require_safe

from jobs.firm.models import Firm
from jobs.surveys.models import Survey
from jobs.surveys.services import SurveyKept
from jobs.surveys.tablet.choosing import choices_of, choose, question_of, why_none_may_be_taken
from jobs.surveys.tablet.keeping import unsettled
from jobs.surveys.writing import is_quoted

SETTLED_SHOWN = 50


@permission_required("jobs.change_survey", raise_exception=True)
@require_safe
def survey_aside(request: HttpRequest, number: str) -> HttpResponse:
    survey = get_object_or_404(Survey.objects.select_related("property"), number=number)
    settled = survey.kept_aside.exclude(settled_at=None).select_related("settled_by")
    newest = settled.order_by("-settled_at", "-pk")[:SETTLED_SHOWN]
    context = {
        "survey": survey,
        "choices": choices_of(survey),
        "quoted": is_quoted(survey),
        "closed": why_none_may_be_taken(survey),
        "settled": [(row, question_of(survey, row)) for row in newest],
        "firm": Firm.objects.filter(pk=1).first(),
    }
    return render(request, "surveys/aside.html", context)


@permission_required("jobs.change_survey", raise_exception=True)
@require_POST
def survey_choose(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    survey = get_object_or_404(Survey, number=number)
    take = request.POST.get("choice") == "take"
    try:
        choose(number, pk, take=take, shown=request.POST.get("now", ""), by=request.user)
    except SurveyKept as kept:
        messages.error(request, str(kept))
        return redirect("survey_aside", number=number)
    messages.success(request, "The other value is taken." if take else "The survey stays as it is.")
    return redirect("survey_aside" if unsettled(survey).exists() else "survey", number=number)
