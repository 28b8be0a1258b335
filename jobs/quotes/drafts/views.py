"""Start, change, reprice and discard drafts."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe
from django_htmx.http import HttpResponseClientRedirect, HttpResponseStopPolling, reswap

from estimating.refusals import Refusal
from jobs.forms import status_of
from jobs.layouts.landing import answer_to_waiting
from jobs.price_books.services import NoEdition
from jobs.quotes.drafts.alternatives import MOVED
from jobs.quotes.drafts.sent import choices_form, keep_sent
from jobs.quotes.drafts.services import (
    CannotRevise,
    NotADraft,
    discard_draft,
    draft_quote,
    next_revision,
    price_at_current_edition,
)
from jobs.quotes.models import Quote, Revision
from jobs.quotes.sheets import draft_sheet
from jobs.quotes.views import (
    address_of,
    alternative_asked_for,
    alternative_to_change,
    draft_page,
    page_of,
    revision_asked_for,
)
from jobs.surveys.models import Survey


@permission_required("jobs.add_quote", raise_exception=True)
@require_POST
def quote_new(request: HttpRequest, survey_number: str) -> HttpResponse:
    survey = get_object_or_404(Survey, number=survey_number)
    try:
        revision = draft_quote(survey, by=request.user)
    except (NoEdition, Refusal) as refused:
        messages.error(request, f"No quote was made: {refused}")
        return redirect("survey", number=survey.number)
    return redirect("quote", number=revision.quote.number)


@permission_required("jobs.change_revision", raise_exception=True)
@require_POST
def revision_choices(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    """Work out the draft with the choices sent; keep them when they can be so."""
    revision = revision_asked_for(number, letter)
    if not revision.is_draft:
        return _late(request, revision)
    alternative = alternative_to_change(request, revision)
    if alternative is None:
        messages.error(request, MOVED)
        return _whole_page(request, number)
    try:
        form = keep_sent(request, revision, alternative)
    except NotADraft as refused:
        revision.refresh_from_db()
        return _late(request, revision, str(refused))
    sheet = {}
    if not form.errors:
        if not request.htmx:
            return redirect(address_of(revision, alternative))
        sheet = draft_sheet(revision, form.choices, alternative=alternative)
    elif not request.htmx:
        sheet = draft_page(request, revision, alternative)
    context = page_of(revision, alternative) | sheet | {"form": form}
    template = "quotes/_live.html" if request.htmx else "quotes/quote.html"
    answer = render(request, template, context, status=status_of(form))
    # Whoever pressed a button looks for the answer; whoever only types must not be moved about.
    return reswap(answer, "outerHTML show:top") if form.errors and "act" in request.POST else answer


@permission_required("jobs.view_quote", raise_exception=True)
@require_safe
def revision_landed(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    """Answer a draft's page that waits for its boards to be proved."""
    revision = revision_asked_for(number, letter)
    if not request.htmx:
        return redirect("revision", number=number, letter=letter)
    if not revision.is_draft:
        return reswap(HttpResponseStopPolling(), "none")

    def show_landed(since: int) -> HttpResponse:
        alternative = alternative_asked_for(request, revision)
        form = choices_form(request, revision, alternative)
        sheet = draft_sheet(revision, form.stored, alternative=alternative, since=since)
        context = page_of(revision, alternative) | sheet | {"form": form}
        return render(request, "quotes/_live.html", context)

    return answer_to_waiting(request, show_landed)


def _late(request: HttpRequest, revision: Revision, why: str = "") -> HttpResponse:
    """Answer a change that comes when the draft is none any more.

    The page that issued it has sent all it shows with that press, and is on its way to the link, which is
    shown once: a change that it sends behind itself must not take it anywhere else.
    """
    if request.htmx and not revision.is_draft and request.POST.get("page") == revision.changed_on_page:
        return HttpResponse(status=204)
    messages.error(request, why or f"{revision} is {revision.state}: make a new revision to change it.")
    return _whole_page(request, revision.quote.number)


def _whole_page(request: HttpRequest, number: str) -> HttpResponse:
    """Open the quote's page anew: htmx would put a plain redirect's page into one part of this one."""
    address = reverse("quote", args=[number])
    return HttpResponseClientRedirect(address) if request.htmx else redirect(address)


@permission_required("jobs.change_revision", raise_exception=True)
@require_POST
def revision_reprice(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    revision = revision_asked_for(number, letter)
    try:
        price_at_current_edition(revision)
        messages.success(request, f"{revision} is now priced with {revision.edition}.")
    except (NotADraft, NoEdition) as refused:
        messages.error(request, str(refused))
    return redirect("quote", number=number)


@permission_required("jobs.change_revision", raise_exception=True)
@require_POST
def revision_discard(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    revision = revision_asked_for(number, letter)
    try:
        if discard_draft(revision):
            messages.success(request, f"Quote {number} is thrown away. Its number is not given again.")
            return redirect("survey", number=revision.quote.survey.number)
        messages.success(request, f"The draft of revision {letter} is thrown away.")
    except NotADraft as refused:
        messages.error(request, str(refused))
    return redirect("quote", number=number)


@permission_required("jobs.add_revision", raise_exception=True)
@require_POST
def revision_new(request: HttpRequest, number: str) -> HttpResponse:
    try:
        revision = next_revision(get_object_or_404(Quote, number=number), by=request.user)
        messages.success(request, f"Revision {revision.letter} is a draft. The earlier one still stands.")
    except (CannotRevise, NoEdition) as refused:
        messages.error(request, str(refused))
    return redirect("quote", number=number)
