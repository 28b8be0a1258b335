"""The office's list of quotes."""

from __future__ import annotations

from urllib.parse import urlencode

from django.contrib.auth.decorators import permission_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from jobs.quotes.models import Revision

PAGE = 30


@permission_required("jobs.view_quote", raise_exception=True)
@require_safe
def quotes(request: HttpRequest) -> HttpResponse:
    wanted = request.GET.get("state", "")
    revisions = (
        Revision.objects.select_related("quote__property__customer")
        .defer("issued", "choices")
        .exclude(state=Revision.State.SUPERSEDED)
    )
    if wanted in Revision.State.values:
        revisions = revisions.filter(state=wanted)
    page = Paginator(revisions.order_by("-changed_at"), PAGE).get_page(request.GET.get("page"))
    query = urlencode({"state": wanted}) if wanted else ""
    states = [state for state in Revision.State if state != Revision.State.SUPERSEDED]
    return render(
        request, "quotes/quotes.html", {"page": page, "states": states, "wanted": wanted, "query": query}
    )
