from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from jobs.today.search import LEAST_LETTERS, find
from jobs.today.waiting import waiting_for


@require_safe
def today(request: HttpRequest) -> HttpResponse:
    day = timezone.localdate()
    context = {"groups": waiting_for(request.user, today=day), "day": day}
    return render(request, "today/today.html", context)


@require_safe
def search(request: HttpRequest) -> HttpResponse:
    """Find what the letters typed occur in; as they are typed, only the results are sent."""
    words = request.GET.get("q", "").strip()[:80]
    context = {"q": words, "groups": find(words, request.user), "is_short": len(words) < LEAST_LETTERS}
    return render(request, "today/_found.html" if request.htmx else "today/search.html", context)
