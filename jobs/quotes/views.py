"""The office's screens over quotes."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from django.conf import settings
from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe
from django_htmx.http import HttpResponseClientRedirect, HttpResponseStopPolling, reswap

from estimating.refusals import Refusal
from jobs.documents.papers import read_paper
from jobs.firm.models import Firm
from jobs.forms import status_of
from jobs.layouts.landing import answer_to_waiting
from jobs.mail.services import mail_about
from jobs.price_books.services import NoEdition, newer_edition
from jobs.quotes.forms import ChoicesForm
from jobs.quotes.models import CustomerQuestion, Quote, Revision
from jobs.quotes.services import (
    CannotIssue,
    CannotRevise,
    NotADraft,
    NotOnOffer,
    answer_question,
    change_draft,
    discard_draft,
    draft_quote,
    end_links,
    issue_revision,
    next_revision,
    price_at_current_edition,
    resend_link,
    withdraw_revision,
)
from jobs.quotes.sheets import draft_sheet, issued_sheet
from jobs.surveys.as_measured import requirement_in_words
from jobs.surveys.models import Survey
from jobs.surveys.versions.visits import newer_version_of

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


@permission_required("jobs.view_quote", raise_exception=True)
@require_safe
def quote(request: HttpRequest, number: str, letter: str | None = None) -> HttpResponse:
    revision = _revision(number, letter)
    context: dict[str, Any] = _page(revision)
    if revision.is_draft:
        form = ChoicesForm(revision=revision)
        context |= draft_sheet(revision, form.stored) | {"form": form}
    else:
        context |= issued_sheet(revision)
    return render(request, "quotes/quote.html", context)


@permission_required("jobs.change_revision", raise_exception=True)
@require_POST
def revision_choices(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    """Work out the draft with the choices sent; keep them when they can be so."""
    revision = _revision(number, letter)
    if not revision.is_draft:
        messages.error(request, f"{revision} is {revision.state}: make a new revision to change it.")
        return _whole_page(request, number)
    form = ChoicesForm(request.POST, revision=revision)
    sheet = {}
    if form.is_valid():
        try:
            change_draft(
                revision,
                choices=form.choices,
                introduction=form.cleaned_data["introduction"],
                use_store=form.cleaned_data["use_store"],
            )
        except NotADraft as refused:
            messages.error(request, str(refused))
            return _whole_page(request, number)
        if not request.htmx:
            return redirect("quote", number=number)
        sheet = draft_sheet(revision, form.choices)
    elif not request.htmx:
        sheet = draft_sheet(revision, form.stored)
    context = _page(revision) | sheet | {"form": form}
    template = "quotes/_live.html" if request.htmx else "quotes/quote.html"
    return render(request, template, context, status=status_of(form))


@permission_required("jobs.view_quote", raise_exception=True)
@require_safe
def revision_landed(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    """Answer a draft's page that waits for its boards to be proved."""
    revision = _revision(number, letter)
    if not request.htmx:
        return redirect("revision", number=number, letter=letter)
    if not revision.is_draft:
        return reswap(HttpResponseStopPolling(), "none")

    def show_landed(since: int) -> HttpResponse:
        form = ChoicesForm(revision=revision)
        context = _page(revision) | draft_sheet(revision, form.stored, since=since) | {"form": form}
        return render(request, "quotes/_live.html", context)

    return answer_to_waiting(request, show_landed)


def _whole_page(request: HttpRequest, number: str) -> HttpResponse:
    """Open the quote's page anew: htmx would put a plain redirect's page into one part of this one."""
    address = reverse("quote", args=[number])
    return HttpResponseClientRedirect(address) if request.htmx else redirect(address)


@permission_required("jobs.issue_quote", raise_exception=True)
@require_POST
@never_cache
def revision_issue(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    revision = _revision(number, letter)
    try:
        token = issue_revision(revision, by=request.user)
    except CannotIssue as refused:
        for reason in refused.reasons:
            messages.error(request, f"Not issued. {reason}")
        return redirect("quote", number=number)
    except Refusal as refused:
        for each in refused.each:
            messages.error(request, f"Not issued. {requirement_in_words(each)}")
        return redirect("quote", number=number)
    return _show_link(request, number, token, f"Revision {letter} is issued.")


@permission_required("jobs.issue_quote", raise_exception=True)
@require_POST
@never_cache
def link_new(request: HttpRequest, number: str) -> HttpResponse:
    quote = get_object_or_404(Quote, number=number)
    try:
        token = resend_link(quote, by=request.user)
    except NotOnOffer as refused:
        messages.error(request, str(refused))
        return redirect("quote", number=number)
    return _show_link(request, number, token, "A new link is made. The old one no longer opens.")


def _show_link(request: HttpRequest, number: str, token: str, words: str) -> HttpResponse:
    """Show the link once: only its digest is kept, so it cannot be shown again."""
    address = settings.BASE_URL + reverse("customer_exchange", args=[token])
    quote = get_object_or_404(Quote.objects.select_related("property__customer"), number=number)
    return render(request, "quotes/link.html", {"quote": quote, "address": address, "words": words})


@permission_required("jobs.issue_quote", raise_exception=True)
@require_POST
def link_end(request: HttpRequest, number: str) -> HttpResponse:
    ended = end_links(get_object_or_404(Quote, number=number))
    messages.success(request, "The customer's link no longer opens." if ended else "No link was open.")
    return redirect("quote", number=number)


@permission_required("jobs.issue_quote", raise_exception=True)
@require_POST
def revision_withdraw(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    try:
        withdraw_revision(_revision(number, letter))
        messages.success(request, f"Revision {letter} is withdrawn.")
    except NotOnOffer as refused:
        messages.error(request, str(refused))
    return redirect("quote", number=number)


@permission_required("jobs.change_revision", raise_exception=True)
@require_POST
def revision_reprice(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    revision = _revision(number, letter)
    try:
        price_at_current_edition(revision)
        messages.success(request, f"{revision} is now priced with {revision.edition}.")
    except (NotADraft, NoEdition) as refused:
        messages.error(request, str(refused))
    return redirect("quote", number=number)


@permission_required("jobs.change_revision", raise_exception=True)
@require_POST
def revision_discard(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    revision = _revision(number, letter)
    try:
        discard_draft(revision)
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


@permission_required("jobs.change_customerquestion", raise_exception=True)
@require_POST
def question_answered(request: HttpRequest, pk: int) -> HttpResponse:
    question = get_object_or_404(CustomerQuestion.objects.select_related("quote"), pk=pk)
    answer_question(question)
    return redirect("quote", number=question.quote.number)


@permission_required("jobs.view_quote", raise_exception=True)
@require_safe
def revision_paper(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    revision = _revision(number, letter)
    if not revision.paper_sha256:
        messages.error(request, f"{revision} is a draft: it has no paper until it is issued.")
        return redirect("quote", number=number)
    response = HttpResponse(read_paper(revision.paper_sha256), content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{revision}.pdf"'
    response["Cache-Control"] = "private, no-store"
    return response


def _revision(number: str, letter: str | None) -> Revision:
    """Return the revision asked for, or the latest."""
    revisions = Revision.objects.select_related(
        "quote__property__customer", "quote__survey__property", "edition"
    ).filter(quote__number=number)
    if letter:
        return get_object_or_404(revisions, letter=letter)
    return get_object_or_404(revisions.order_by("-pk")[:1])


def _page(revision: Revision) -> dict[str, Any]:
    """Return what every page of a quote shows, whatever its revision's state."""
    quote = revision.quote
    return {
        "firm_name": revision.issued["firm"]["name"] if revision.issued else Firm.ours().name,
        "quote": quote,
        "revision": revision,
        "revisions": quote.revisions.defer("issued", "choices").order_by("pk"),
        "newer_survey": newer_version_of(quote.survey),
        "newer_edition": newer_edition(revision.edition) if revision.is_draft else None,
        "decision": getattr(revision, "decision", None),
        "questions": quote.questions.all(),
        "mails": mail_about(quote),
        "link": quote.links.filter(revoked_at=None).prefetch_related("openings").first(),
        "job": getattr(revision, "job", None),
    }
