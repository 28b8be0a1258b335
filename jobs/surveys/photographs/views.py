"""The page that takes photographs, and the only door through which they are seen."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_safe

from estimating.published.hazards import HAZARDS
from jobs.forms import sent, status_of
from jobs.surveys.models import Photograph, Survey
from jobs.surveys.photographs.form import PhotographsForm
from jobs.surveys.photographs.kept import read_photograph
from jobs.surveys.section_page import next_page, section_page
from jobs.surveys.services import add_photographs


@permission_required("jobs.view_photograph", raise_exception=True)
@require_safe
def photograph(request: HttpRequest, pk: int) -> HttpResponse:
    """Show a photograph to a person of the firm. Nothing on the way may keep a copy."""
    picture = get_object_or_404(Photograph, pk=pk)
    response = HttpResponse(read_photograph(picture.sha256), content_type="image/jpeg")
    response["Cache-Control"] = "private, no-store"
    response["Content-Disposition"] = f'inline; filename="photograph-{picture.pk}.jpg"'
    return response


def photographs_page(request: HttpRequest, survey: Survey) -> HttpResponse:
    form = PhotographsForm(sent(request), request.FILES or None, survey=survey)
    if form.is_bound and form.is_valid():
        add_photographs(
            survey,
            kept=form.cleaned_data["pictures"],
            by=request.user,
            shows=form.cleaned_data["shows"],
            finding=form.cleaned_data["finding"],
        )
        count = len(form.cleaned_data["pictures"])
        if count:
            messages.success(request, f"{count} photograph{'s are' if count > 1 else ' is'} kept.")
        return redirect(next_page(request, survey, "photographs"))
    context = section_page(survey, "photographs") | {
        "form": form,
        "hazards": HAZARDS,
        "photographs": survey.photographs.select_related("finding"),
    }
    return render(request, "surveys/photographs.html", context, status=status_of(form))
