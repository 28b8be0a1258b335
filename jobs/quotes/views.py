"""The office's screens over quotes."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from django.conf import settings
from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from estimating.refusals import Refusal
from jobs.documents.papers import read_paper
from jobs.documents.showing import show_pdf
from jobs.firm.models import Firm
from jobs.mail.services import mail_about
from jobs.price_books.services import newer_edition
from jobs.quotes.alternatives import alternatives_of, number_asked
from jobs.quotes.approval import IS_ASKED, ask_owner
from jobs.quotes.customer.models import CustomerQuestion
from jobs.quotes.drafts.alternatives import MOVED
from jobs.quotes.drafts.forms import AlternativeForm, AlternativeNameForm
from jobs.quotes.drafts.sent import choices_form, keep_sent
from jobs.quotes.drafts.services import NotADraft
from jobs.quotes.frozen import accepted_alternative, alternative_names, frozen_alternatives
from jobs.quotes.listing.following import SHORTCUTS
from jobs.quotes.models import Quote, Revision
from jobs.quotes.rights.forms import HowAgreedForm
from jobs.quotes.rights.shown import rights_shown
from jobs.quotes.services import (
    CannotIssue,
    NotOnOffer,
    OwnerMustApprove,
    answer_question,
    end_links,
    issue_revision,
    resend_link,
    withdraw_revision,
)
from jobs.quotes.sheets import draft_sheet, issued_sheet
from jobs.surveys.as_measured import requirement_in_words
from jobs.surveys.versions.visits import newer_version_of


@permission_required("jobs.view_quote", raise_exception=True)
@require_safe
def quote(request: HttpRequest, number: str, letter: str | None = None) -> HttpResponse:
    revision = revision_asked_for(number, letter)
    alternative = alternative_asked_for(request, revision)
    context: dict[str, Any] = page_of(revision, alternative)
    if revision.is_draft:
        context |= draft_page(request, revision, alternative)
    else:
        context |= issued_sheet(revision, alternative) | rights_shown(revision)
    return render(request, "quotes/quote.html", context)


def draft_page(request: HttpRequest, revision: Revision, alternative: int) -> dict[str, Any]:
    """Return what the page of a draft adds: one alternative's choices and what they come to."""
    form = choices_form(request, revision, alternative, kept=True)
    return draft_sheet(revision, form.stored, alternative=alternative) | {
        "form": form,
        "issue_form": HowAgreedForm(
            sent_with="choices" if request.user.has_perm("jobs.change_revision") else ""
        ),
        "new_alternative": AlternativeForm(revision=revision, initial={"copy_of": alternative}),
        "alternative_name": AlternativeNameForm(
            initial={"name": alternatives_of(revision)[alternative].name}, auto_id="rename_%s"
        ),
    }


@permission_required("jobs.issue_quote", raise_exception=True)
@require_POST
@never_cache
def revision_issue(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    """Issue a draft as its page shows it: what was typed last comes with the press, and is kept first."""
    revision = revision_asked_for(number, letter)
    if "page" in request.POST and revision.is_draft and request.user.has_perm("jobs.change_revision"):
        unkept = _keep_what_is_shown(request, revision)
        if unkept is not None:
            return unkept
    asked = HowAgreedForm(request.POST)
    if not asked.is_valid():
        messages.error(request, "Not issued. Choose from the list how the customer will agree.")
        return redirect("quote", number=number)
    try:
        token = issue_revision(revision, by=request.user, how_agreed=asked.agreed)
    except OwnerMustApprove as refused:
        ask_owner(revision, by=request.user)
        messages.error(request, f"Not issued. {refused} {IS_ASKED}")
        return redirect("quote", number=number)
    except CannotIssue as refused:
        for reason in refused.reasons:
            messages.error(request, f"Not issued. {reason}")
        return redirect("quote", number=number)
    except Refusal as refused:
        for each in refused.each:
            messages.error(request, f"Not issued. {requirement_in_words(each)}")
        return redirect("quote", number=number)
    return _show_link(request, number, token, f"Revision {letter} is issued.")


def _keep_what_is_shown(request: HttpRequest, revision: Revision) -> HttpResponse | None:
    """Keep the choices that came with a press; return the page that says why if they cannot be kept."""
    try:
        alternative = alternative_to_change(request, revision)
        if alternative is None:
            raise NotADraft(MOVED)
        form = keep_sent(request, revision, alternative)
    except NotADraft as refused:
        messages.error(request, f"Not issued. {refused}")
        return redirect("quote", number=revision.quote.number)
    if not form.errors:
        return None
    messages.error(request, "Not issued. What is wrong with the choices stands beside them.")
    context = page_of(revision, alternative) | draft_page(request, revision, alternative) | {"form": form}
    return render(request, "quotes/quote.html", context, status=422)


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
        withdraw_revision(revision_asked_for(number, letter))
        messages.success(request, f"Revision {letter} is withdrawn.")
    except NotOnOffer as refused:
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
    revision = revision_asked_for(number, letter)
    if not revision.paper_sha256:
        messages.error(request, f"{revision} is a draft: it has no paper until it is issued.")
        return redirect("quote", number=number)
    return show_pdf(read_paper(revision.paper_sha256), filename=f"{revision}.pdf")


def revision_asked_for(number: str, letter: str | None) -> Revision:
    """Return the revision asked for, or the latest."""
    revisions = Revision.objects.select_related(
        "quote__property__customer", "quote__survey__property", "edition"
    ).filter(quote__number=number)
    if letter:
        return get_object_or_404(revisions, letter=letter)
    return get_object_or_404(revisions.order_by("-pk")[:1])


def alternative_asked_for(request: HttpRequest, revision: Revision) -> int:
    """Return the number of the alternative asked for, or of the one accepted, or of the first."""
    held = len(alternatives_of(revision) if revision.is_draft else frozen_alternatives(revision))
    asked = number_asked(request.GET.get("alternative"), of=held)
    if asked is not None:
        return asked
    return 0 if revision.is_draft else accepted_alternative(revision)


def alternative_query(names: list[str], alternative: int) -> str:
    """Return the end of an address that means one alternative, by number and name; empty for the only one."""
    if len(names) == 1:
        return ""
    return "?" + urlencode({"alternative": alternative, "called": names[alternative]})


def alternative_to_change(request: HttpRequest, revision: Revision) -> int | None:
    """Return the alternative that a page means to change; None where another page moved them meanwhile."""
    names = alternative_names(revision)
    number = number_asked(request.GET.get("alternative", "0"), of=len(names))
    if number is None or request.GET.get("called", "") != ("" if len(names) == 1 else names[number]):
        return None
    return number


def address_of(revision: Revision, alternative: int) -> str:
    """Return where one alternative of a revision is seen."""
    address = reverse("revision", args=[revision.quote.number, revision.letter])
    return f"{address}?alternative={alternative}" if alternative else address


def page_of(revision: Revision, alternative: int = 0) -> dict[str, Any]:
    """Return what every page of a quote shows, whatever its revision's state."""
    quote, names = revision.quote, alternative_names(revision)
    return {
        "alternative": alternative,
        "alternatives": names,
        "this_alternative": alternative_query(names, alternative),
        "firm_name": revision.issued["firm"]["name"] if revision.issued else Firm.ours().name,
        "quote": quote,
        "revision": revision,
        "revisions": quote.revisions.defer("issued", "choices", "alternatives").order_by("pk"),
        "newer_survey": newer_version_of(quote.survey),
        "newer_edition": newer_edition(revision.edition) if revision.is_draft else None,
        "decision": getattr(revision, "decision", None),
        "shortcuts": SHORTCUTS,
        "questions": quote.questions.all(),
        "mails": mail_about(quote),
        "link": quote.links.filter(revoked_at=None).prefetch_related("openings").first(),
        "job": getattr(revision, "job", None),
    }
