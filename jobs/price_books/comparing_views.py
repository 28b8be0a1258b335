from __future__ import annotations

from django.contrib.auth.decorators import permission_required
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_safe

from estimating.refusals import Refusal
from jobs.price_books.as_price_book import requirement_in_words
from jobs.price_books.comparing import compare_editions
from jobs.price_books.models import Edition
from jobs.quotes.at_edition import at_edition, in_pages, open_revisions

WAYS_A_PAGE = 10
"""Each alternative may have to be worked out twice, and a page must answer."""


@permission_required("jobs.view_edition", raise_exception=True)
@require_safe
def against_chosen(request: HttpRequest, pk: int) -> HttpResponse:
    """Lead from the chosen edition to the comparison, the earlier one first."""
    chosen = request.GET.get("other", "")
    if not chosen.isascii() or not chosen.isdigit():
        raise Http404("No such edition.")
    pair = [get_object_or_404(Edition, pk=each) for each in (pk, int(chosen))]
    before, after = sorted(pair, key=lambda edition: (edition.dated, edition.pk))
    return redirect("edition_against", pk=before.pk, other_pk=after.pk)


@permission_required("jobs.view_edition", raise_exception=True)
@require_safe
def against(request: HttpRequest, pk: int, other_pk: int) -> HttpResponse:
    before, after = get_object_or_404(Edition, pk=pk), get_object_or_404(Edition, pk=other_pk)
    context = {"before": before, "after": after, "parts": compare_editions(before, after)}
    return render(request, "price_books/against.html", context)


@permission_required(("jobs.view_edition", "jobs.view_quote"), raise_exception=True)
@require_safe
def quotes_against(request: HttpRequest, pk: int, other_pk: int) -> HttpResponse:
    """Show what every open quote costs now and at the other edition, some at a time, the newest first."""
    before, after = get_object_or_404(Edition, pk=pk), get_object_or_404(Edition, pk=other_pk)
    page = Paginator(in_pages(ways_a_page=WAYS_A_PAGE), 1).get_page(request.GET.get("page"))
    keys = [key for keys in page.object_list for key in keys]
    context = {"before": before, "after": after, "page": page}
    try:
        context["quotes"] = at_edition(list(open_revisions().filter(pk__in=keys)), after)
    except Refusal as refused:
        context["lacks"] = [requirement_in_words(after, each) for each in refused.each]
    return render(request, "price_books/quotes_against.html", context)
