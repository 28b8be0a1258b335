"""What changed between two surveys of one property."""

from __future__ import annotations

from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from jobs.surveys.models import Survey
from jobs.surveys.versions.differences import differences


@permission_required("jobs.view_survey", raise_exception=True)
@require_safe
def survey_against(request: HttpRequest, number: str, other: str) -> HttpResponse:
    """Show what is different in a survey against another one of the same property."""
    surveys = Survey.objects.select_related("property__customer")
    after = get_object_or_404(surveys, number=number)
    before = get_object_or_404(surveys, number=other, property=after.property)
    context = {"before": before, "after": after, "changed": differences(before, after)}
    return render(request, "surveys/against.html", context)
