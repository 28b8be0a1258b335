"""The survey on paper: blank, for the visit that an enquiry asks for, or with what is known of a survey."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.views.decorators.http import require_safe

from jobs.customers.models import Enquiry
from jobs.documents.blank_survey import blank_survey_pdf
from jobs.documents.render import PdfUnavailable
from jobs.documents.showing import show_pdf
from jobs.surveys.models import Survey


@permission_required("jobs.view_survey", raise_exception=True)
@require_safe
def blank_sheet(request: HttpRequest) -> HttpResponse:
    """Answer with a blank sheet, or with one that has the head of the enquiry named in the address."""
    enquiry = None
    if request.GET.get("enquiry", "").isdecimal():
        enquiries = Enquiry.objects.select_related("property__customer", "surveyor")
        enquiry = get_object_or_404(enquiries, pk=request.GET["enquiry"])
    return _paper(request, None, enquiry, name="survey-sheet")


@permission_required("jobs.view_survey", raise_exception=True)
@require_safe
def survey_sheet(request: HttpRequest, number: str) -> HttpResponse:
    surveys = Survey.objects.select_related("property__customer", "enquiry", "surveyor")
    survey = get_object_or_404(surveys, number=number)
    return _paper(request, survey, None, name=f"survey-sheet-{survey.number}")


def _paper(
    request: HttpRequest, survey: Survey | None, enquiry: Enquiry | None, *, name: str
) -> HttpResponse:
    try:
        pdf = blank_survey_pdf(survey, enquiry=enquiry)
    except PdfUnavailable as refused:
        messages.error(request, str(refused))
        return redirect("surveys")
    return show_pdf(pdf, filename=f"{name}.pdf")
