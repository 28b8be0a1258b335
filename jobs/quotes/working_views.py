"""The whole working of a quote, for people who may see costs."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.views.decorators.http import require_safe

from estimating.refusals import Refusal
from jobs.documents.render import PdfUnavailable
from jobs.documents.showing import show_pdf
from jobs.documents.working import working_pdf
from jobs.quotes.models import Revision
from jobs.quotes.views import alternative_asked_for
from jobs.surveys.as_measured import requirement_in_words


@permission_required(("jobs.view_quote", "jobs.see_costs"), raise_exception=True)
@require_safe
def revision_working(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    revisions = Revision.objects.select_related(
        "quote__property__customer", "quote__survey__property", "edition"
    )
    revision = get_object_or_404(revisions, quote__number=number, letter=letter)
    person = request.user
    try:
        pdf = working_pdf(
            revision,
            made_by=person.get_full_name() or person.get_username(),
            alternative=alternative_asked_for(request, revision),
        )
    except PdfUnavailable as refused:
        messages.error(request, str(refused))
        return redirect("revision", number=number, letter=letter)
    except Refusal as refused:
        for each in refused.each:
            messages.error(request, f"No working. {requirement_in_words(each)}")
        return redirect("revision", number=number, letter=letter)
    return show_pdf(pdf, filename=f"working-{revision}.pdf")
