"""Choose the survey that an earlier quote is copied to."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.db.models import Q, QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods
from django.views.decorators.vary import vary_on_headers

from estimating.refusals import Refusal
from jobs.customers.finding import find_properties
from jobs.price_books.services import NoEdition
from jobs.quotes.drafts.copying import copy_quote
from jobs.quotes.views import revision_asked_for
from jobs.surveys.models import Survey

SHOWN = 20


@permission_required("jobs.add_quote", raise_exception=True)
@require_http_methods(["GET", "HEAD", "POST"])
@vary_on_headers("HX-Request")
def revision_copy(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    """Show the latest surveys, or those found as one types; a copy is made for the one pressed."""
    revision = revision_asked_for(number, letter)
    if request.method == "POST":
        survey = get_object_or_404(Survey, number=request.POST.get("survey", ""))
        try:
            copied = copy_quote(revision, survey, by=request.user)
        except (NoEdition, Refusal) as refused:
            messages.error(request, f"No quote was made: {refused}")
            return redirect("quote", number=number)
        messages.success(request, f"This is {copied.revision}, copied from {revision}.")
        for words in copied.told:
            messages.warning(request, words)
        return redirect("quote", number=copied.revision.quote.number)
    typed = request.GET.get("q", "").strip()[:80]
    context = {
        "revision": revision,
        "quote": revision.quote,
        "typed": typed,
        "surveys": _surveys(typed)[:SHOWN],
    }
    is_partial = request.htmx and not request.htmx.history_restore_request
    return render(request, "quotes/_surveys_to_copy_to.html" if is_partial else "quotes/copy.html", context)


def _surveys(typed: str) -> QuerySet[Survey]:
    """Return the surveys that are meant, by number or by words of customer and property, the latest first."""
    found = Survey.objects.select_related("property__customer").defer("answers").order_by("-pk")
    if not typed:
        return found
    return found.filter(Q(number__istartswith=typed) | Q(property__in=find_properties(typed)))
