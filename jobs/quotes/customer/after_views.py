"""What a customer may still do on the link after accepting, and find after cancelling."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from jobs.forms import sent, status_of
from jobs.quotes.customer.forms import CancelForm, EarlyStartForm
from jobs.quotes.customer.models import CustomerLink, Decision
from jobs.quotes.customer.opening import evidence_of, show_outcome, show_paper, with_link
from jobs.quotes.models import Revision
from jobs.quotes.rights.cancelling import (
    CANCELS,
    cancel_contract,
    cancellations_of,
    settlement_shown,
    why_not_cancel,
)
from jobs.quotes.rights.early_start import TooLate, ask_early_start, why_no_early_start
from jobs.quotes.rights.shown import rights_shown

NOTHING_AGREED = "This quote was not accepted, so there is nothing to do here."


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
@with_link
def customer_cancel(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    decision = _accepted(revision)
    refused = _closed(request, revision, decision, said="cancellation", why_not=why_not_cancel)
    if refused:
        return refused
    form = CancelForm(sent(request))
    if form.is_bound and form.is_valid():
        said = partial(cancel_contract, decision, **form.cleaned_data)
        return _say(request, link, revision, said)
    context = _page(revision) | {"form": form, "words": CANCELS.format(revision=revision)}
    return render(request, "customer/cancel.html", context, status=status_of(form))


@login_not_required
@require_http_methods(["GET", "HEAD", "POST"])
@with_link
def customer_early_start(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    decision = _accepted(revision)
    refused = _closed(request, revision, decision, said="early_start", why_not=why_no_early_start)
    if refused:
        return refused
    shown = _page(revision)
    form = EarlyStartForm(sent(request), words=shown["rights"].early_start_statement)
    if form.is_bound and form.is_valid():
        said = partial(ask_early_start, decision, name_typed=form.cleaned_data["name_typed"])
        return _say(request, link, revision, said)
    return render(request, "customer/early_start.html", shown | {"form": form}, status=status_of(form))


def _closed(
    request: HttpRequest,
    revision: Revision,
    decision: Decision | None,
    *,
    said: str,
    why_not: Callable[[Decision], str],
) -> HttpResponse | None:
    """Answer whoever has nothing to say here: nothing was accepted, it was said already, it is too late."""
    if decision is None:
        return show_outcome(request, revision, NOTHING_AGREED, status=409)
    if hasattr(decision, said):
        return redirect("customer_quote", number=revision.quote.number)
    words = why_not(decision)
    return show_outcome(request, revision, words, status=409) if words else None


def _say(
    request: HttpRequest, link: CustomerLink, revision: Revision, said: Callable[..., object]
) -> HttpResponse:
    """Keep what the customer said with its evidence; somebody else may have been first."""
    try:
        said(evidence=evidence_of(request, link))
    except TooLate as too_late:
        return show_outcome(request, revision, str(too_late), status=409)
    return redirect("customer_quote", number=revision.quote.number)


@login_not_required
@require_safe
@with_link
def customer_rights_paper(request: HttpRequest, link: CustomerLink, revision: Revision) -> HttpResponse:
    if not revision.rights_sha256:
        raise Http404
    return show_paper(request, revision, revision.rights_sha256, filename=f"your-rights-{revision}.pdf")


@login_not_required
@require_safe
@with_link
def customer_settlement(
    request: HttpRequest, link: CustomerLink, revision: Revision, letter: str
) -> HttpResponse:
    """Show what is owed for a contract that was cancelled, also once a newer revision is on offer."""
    said = get_object_or_404(cancellations_of(link.quote), decision__revision__letter=letter)
    cancelled = said.decision.revision
    context = {
        "revision": cancelled,
        "quote": link.quote,
        "firm": cancelled.issued["firm"],
        "cancellation": said,
        "settlement": settlement_shown(said),
    }
    return render(request, "customer/settlement.html", context)


def _accepted(revision: Revision) -> Decision | None:
    return (
        Decision.objects.select_related("revision__job", "revision__quote__property__customer")
        .filter(revision=revision, kind=Decision.Kind.ACCEPTED)
        .first()
    )


def _page(revision: Revision) -> dict[str, object]:
    return {
        "revision": revision,
        "quote": revision.quote,
        "firm": revision.issued["firm"],
        **rights_shown(revision),
    }
