"""What a customer sees and does on the link: no log-in, one quote, nothing about anyone else."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from estimating.checks.verdicts import Heat
from estimating.choices import Part
from jobs.documents.for_the_customer import heat_told, room_told, saving_in_words, what_to_know
from jobs.documents.papers import read_paper
from jobs.firm.throttle import link_must_wait, note_link_failure
from jobs.forms import sent, status_of
from jobs.quotes.customer.decisions import (
    NEWER,
    Evidence,
    NotOpen,
    accept_revision,
    ask_question,
    decline_revision,
    why_closed,
)
from jobs.quotes.customer.forms import AcceptForm, DecisionForm, DeclineForm, QuestionForm
from jobs.quotes.customer.links import note_opening, open_link
from jobs.quotes.frozen import frozen_checks, frozen_gap, optional_parts, price_with, taken_parts
from jobs.quotes.models import CustomerLink, Revision
from jobs.quotes.options import options_of
from jobs.templatetags.shown import two_figures

COOKIE = "quote_link"
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


def _with_link(view: CookieView) -> CookieView:
    """Open the quote that the cookie's token opens, and only under its own number."""

    @wraps(view)
    @never_cache
    def opened(request: HttpRequest, number: str) -> HttpResponse:
        link = open_link(request.COOKIES.get(COOKIE, ""))
        if link is None or link.quote.number != number:
            return _no_link(request)
        revision = _shown(link)
        if revision is None:
            return _no_link(request)
        return _unlisted(view(request, link, revision))

    return opened


def _shown(link: CustomerLink) -> Revision | None:
    """Return the latest revision that was ever issued: a draft is never shown."""
    issued = link.quote.revisions.select_related("quote__property__customer").exclude(
        state=Revision.State.DRAFT
    )
    return issued.order_by("-pk").first()


@login_not_required
@require_safe
@_with_link
def customer_quote(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    taken = _taken(request, revision)
    context = _quote(revision, taken) | {"question": QuestionForm()}
    template = "customer/_price.html" if request.htmx else "customer/quote.html"
    return render(request, template, context)


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
@_with_link
def customer_accept(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    form = AcceptForm(sent(request), revision=revision)
    refused = _closed(request, revision, form)
    if refused:
        return refused
    if form.is_bound and form.is_valid():
        try:
            accept_revision(
                revision,
                name_typed=form.cleaned_data["name_typed"],
                statements=form.statements,
                taken_parts=form.taken_parts,
                evidence=_evidence(request, link),
            )
        except NotOpen as too_late:
            return _outcome(request, revision, str(too_late), status=409)
        return redirect("customer_quote", number=revision.quote.number)
    context = _quote(revision, _taken(request, revision)) | {"form": form}
    return render(request, "customer/accept.html", context, status=status_of(form))


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
@_with_link
def customer_decline(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    form = DeclineForm(sent(request), revision=revision)
    refused = _closed(request, revision, form)
    if refused:
        return refused
    if form.is_bound and form.is_valid():
        asked = form.cleaned_data
        try:
            decline_revision(
                revision,
                name_typed=asked["name_typed"],
                because=asked["because"],
                reason=asked["reason"],
                evidence=_evidence(request, link),
            )
        except NotOpen as too_late:
            return _outcome(request, revision, str(too_late), status=409)
        return redirect("customer_quote", number=revision.quote.number)
    context = _quote(revision, taken_parts(revision)) | {"form": form}
    return render(request, "customer/decline.html", context, status=status_of(form))


def _closed(request: HttpRequest, revision: Revision, form: DecisionForm) -> HttpResponse | None:
    """Answer a decision that cannot be taken, also one on a page left open over a newer revision."""
    words = why_closed(revision) or (NEWER if form.is_for_another_revision else "")
    return _outcome(request, revision, words, status=409) if words else None


@login_not_required
@require_POST
@_with_link
def customer_ask(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    form = QuestionForm(request.POST)
    if form.is_valid():
        ask_question(link.quote, form.cleaned_data["words"])
        return _outcome(request, revision, "Thank you. Your question is with us; we will answer soon.")
    context = _quote(revision, taken_parts(revision)) | {"question": form}
    return render(request, "customer/quote.html", context, status=422)


@login_not_required
@require_safe
@_with_link
def customer_paper(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    response = HttpResponse(read_paper(revision.paper_sha256), content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="quote-{revision}.pdf"'
    return response


def _taken(request: HttpRequest, revision: Revision) -> frozenset[Part]:
    """Return the options that the page asks the price of; none asked means those taken until now."""
    asked = request.GET if request.method == "GET" else request.POST
    if "priced" not in asked:
        return taken_parts(revision)
    options = optional_parts(revision)
    return frozenset(part for part in options if part.value in asked.getlist("taken"))


def _quote(revision: Revision, taken: frozenset[Part]) -> dict[str, Any]:
    return {
        "revision": revision,
        "quote": revision.quote,
        "firm": revision.issued["firm"],
        "issued": revision.issued,
        "drawings": revision.issued["drawings"],
        **_checked(revision),
        "deck_area_m2": revision.issued["estimate"]["design"]["deck_area_m2"]["value"],
        "finished_depth_mm": revision.issued["estimate"]["design"]["insulation"]["finished_depth_mm"][
            "value"
        ],
        "price": price_with(revision, taken),
        "taken": taken,
        "options": options_of(revision, taken),
        "closed": why_closed(revision),
        "decision": getattr(revision, "decision", None),
    }


def _checked(revision: Revision) -> dict[str, Any]:
    """Return what the checks found, read from the frozen copy without the rest of the estimate."""
    checks = frozen_checks(revision)
    return {
        "bars": _heat_bars(checks.heat),
        "heat": heat_told(checks),
        "saving": saving_in_words(checks),
        "room": room_told(checks, frozen_gap(revision)),
        "to_know": what_to_know(checks),
    }


def _heat_bars(heat: Heat) -> list[dict[str, Any]]:
    """Return the three U-values as bars, the longest filling the line."""
    named = [("Now", heat.as_found), ("With us", heat.as_proposed), ("If squashed", heat.squashed)]
    longest = max(figure.value for _, figure in named)
    return [
        {
            "name": name,
            "value": two_figures(figure.value),
            "share": f"{100 * figure.value / longest:.1f}",
            "best": figure is heat.as_proposed,
        }
        for name, figure in named
    ]


def _evidence(request: HttpRequest, link: CustomerLink) -> Evidence:
    return Evidence(
        link=link, address=request.META.get("REMOTE_ADDR"), browser=request.headers.get("User-Agent", "")
    )


def _outcome(request: HttpRequest, revision: Revision, words: str, status: int = 200) -> HttpResponse:
    context = {"revision": revision, "quote": revision.quote, "firm": revision.issued["firm"], "words": words}
    return render(request, "customer/outcome.html", context, status=status)


def _no_link(request: HttpRequest, status: int = 404) -> HttpResponse:
    """Say the same for every link that does not open, so that nothing can be learned by trying."""
    return _unlisted(render(request, "customer/no_link.html", status=status))


def _unlisted(response: HttpResponse) -> HttpResponse:
    response["X-Robots-Tag"] = "noindex, nofollow"
    response["Cache-Control"] = "private, no-store"
    return response
