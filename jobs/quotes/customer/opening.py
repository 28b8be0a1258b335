"""The way in: a link's token is exchanged for a cookie, and every page of the customer asks for that."""

from __future__ import annotations

import logging
from collections.abc import Callable
from functools import wraps

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from jobs.documents.papers import read_paper
from jobs.firm.throttle import link_must_wait, note_link_failure
from jobs.kept_files import FileDamaged
from jobs.quotes.customer.evidence import Evidence
from jobs.quotes.customer.links import note_opening, open_link, was_a_link
from jobs.quotes.customer.models import CustomerLink
from jobs.quotes.models import Revision

COOKIE = "quote_link"
logger = logging.getLogger("eavesbook.quotes")
CookieView = Callable[..., HttpResponse]


@login_not_required
@require_safe
@never_cache
def customer_exchange(request: HttpRequest, token: str) -> HttpResponse:
    """Exchange the token of a link for a cookie, so that it leaves the address bar and the history."""
    address = request.META.get("REMOTE_ADDR")
    if link_must_wait(address):
        return _no_link(request, status=429)
    link = open_link(token)
    if link is None:
        if not was_a_link(token):
            note_link_failure(address)
        return _no_link(request)
    note_opening(link, address=address, browser=request.headers.get("User-Agent", ""))
    response = redirect("customer_quote", number=link.quote.number)
    response.set_cookie(
        COOKIE,
        token,
        expires=link.expires_at,
        path=reverse("customer_quote", args=[link.quote.number]),
        secure=request.is_secure(),
        httponly=True,
        samesite="Lax",
    )
    return _unlisted(response)


def with_link(view: CookieView) -> CookieView:
    """Open the quote that the cookie's token opens, and only under its own number.

    A cookie that never opened anything counts as a guess, like such a link; one that has ended does not:
    its holder may have the new link in hand, and others behind the same address theirs.
    """

    @wraps(view)
    @never_cache
    def opened(request: HttpRequest, number: str, **asked: str) -> HttpResponse:
        token, address = request.COOKIES.get(COOKIE, ""), request.META.get("REMOTE_ADDR")
        if token and link_must_wait(address):
            return _no_link(request, status=429)
        link = open_link(token)
        if link is None or link.quote.number != number:
            if token and not was_a_link(token):
                note_link_failure(address)
            return _no_link(request)
        revision = _shown(link)
        if revision is None:
            return _no_link(request)
        return _unlisted(view(request, link, revision, **asked))

    return opened


def _shown(link: CustomerLink) -> Revision | None:
    """Return the latest revision that was ever issued: a draft is never shown."""
    issued = link.quote.revisions.select_related("quote__property__customer").exclude(
        state=Revision.State.DRAFT
    )
    return issued.order_by("-pk").first()


def evidence_of(request: HttpRequest, link: CustomerLink) -> Evidence:
    """Return how what is said here reached us."""
    return Evidence(
        link=link, address=request.META.get("REMOTE_ADDR"), browser=request.headers.get("User-Agent", "")
    )


def show_outcome(
    request: HttpRequest, revision: Revision, words: str, *, picked_query: str = "", status: int = 200
) -> HttpResponse:
    """Say in one sentence what came of it, with the way back to the quote, to what was picked on it."""
    context = {
        "revision": revision,
        "quote": revision.quote,
        "firm": revision.issued["firm"],
        "words": words,
        "picked_query": picked_query,
    }
    return render(request, "customer/outcome.html", context, status=status)


def show_paper(request: HttpRequest, revision: Revision, sha256: str, *, filename: str) -> HttpResponse:
    """Show an issued paper; one that is damaged is the firm's to mend, and the customer is told so."""
    try:
        pdf = read_paper(sha256)
    except FileDamaged:
        logger.exception("paper not shown", extra={"figures": {"paper": sha256[:12]}})
        words = "This paper cannot be shown just now. Ask us, and we will send it to you."
        return show_outcome(request, revision, words, status=503)
    response = HttpResponse(pdf, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{filename}"'
    return response


def _no_link(request: HttpRequest, status: int = 404) -> HttpResponse:
    """Say the same for every link that does not open, so that nothing can be learned by trying."""
    return _unlisted(render(request, "customer/no_link.html", status=status))


def _unlisted(response: HttpResponse) -> HttpResponse:
    response["X-Robots-Tag"] = "noindex, nofollow"
    response["Cache-Control"] = "private, no-store"
    return response
