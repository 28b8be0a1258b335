"""What the office does about the rights of a customer who accepted."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs.documents.papers import read_paper
from jobs.forms import sent, status_of
from jobs.quotes.customer.evidence import Evidence
from jobs.quotes.customer.models import Decision
from jobs.quotes.models import Revision
from jobs.quotes.rights.cancelling import cancel_contract, settle_cancellation
from jobs.quotes.rights.early_start import TooLate
from jobs.quotes.rights.forms import GoodsCameForm, SettleForm, WriteDownForm
from jobs.quotes.rights.goods import keep_last_goods
from jobs.quotes.rights.models import Cancellation
from jobs.quotes.rights.shown import rights_shown


@permission_required("jobs.view_quote", raise_exception=True)
@require_safe
def revision_rights(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    """Show what the customer was told and what was said, with what the office may write down."""
    return _page(request, _revision(number, letter))


@permission_required("jobs.view_quote", raise_exception=True)
@require_safe
def revision_rights_paper(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    revision = _revision(number, letter)
    if not revision.rights_sha256:
        messages.error(
            request, f"{revision} has no paper of rights: its customer is a business, or it is old."
        )
        return redirect("revision_rights", number=number, letter=letter)
    response = HttpResponse(read_paper(revision.rights_sha256), content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="rights-{revision}.pdf"'
    response["Cache-Control"] = "private, no-store"
    return response


@permission_required("jobs.issue_quote", raise_exception=True)
@require_POST
def goods_came(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    decision = _decision(number, letter)
    form = GoodsCameForm(request.POST, decision=decision)
    if not form.is_valid():
        return _page(request, decision.revision, goods_form=form)
    keep_last_goods(decision, on=form.cleaned_data["last_goods_on"])
    messages.success(request, "Kept. The last day to cancel follows it.")
    return redirect("revision_rights", number=number, letter=letter)


@permission_required("jobs.issue_quote", raise_exception=True)
@require_POST
def cancellation_settle(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    said = get_object_or_404(Cancellation, decision=_decision(number, letter))
    form = SettleForm(request.POST, said=said)
    if not form.is_valid():
        return _page(request, said.decision.revision, settle_form=form)
    settle_cancellation(said, share_done=form.share_done, paid=form.cleaned_data["paid"], by=request.user)
    messages.success(request, "Worked out. The customer sees it on the link.")
    return redirect("revision_rights", number=number, letter=letter)


@permission_required("jobs.issue_quote", raise_exception=True)
@require_http_methods(["GET", "HEAD", "POST"])
def cancellation_write_down(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    """Keep a cancellation that did not come through the link."""
    decision = _decision(number, letter)
    form = WriteDownForm(sent(request))
    if form.is_bound and form.is_valid():
        written_by = f"written down by {request.user.get_full_name() or request.user.get_username()}"
        evidence = Evidence(link=None, address=None, browser=written_by)
        try:
            cancel_contract(decision, **form.cleaned_data, evidence=evidence)
        except TooLate as too_late:
            form.add_error(None, str(too_late))
        else:
            messages.success(request, "The contract is cancelled and the job called off.")
            return redirect("revision_rights", number=number, letter=letter)
    context = {"revision": decision.revision, "quote": decision.revision.quote, "form": form}
    return render(request, "quotes/write_down_cancellation.html", context, status=status_of(form))


def _page(request: HttpRequest, revision: Revision, **forms: Any) -> HttpResponse:
    shown = rights_shown(revision)
    decision, said = getattr(revision, "decision", None), shown.get("cancellation")
    context: dict[str, Any] = {"revision": revision, "quote": revision.quote, "decision": decision, **shown}
    context["goods_form"] = GoodsCameForm(decision=decision) if shown.get("time") and not said else None
    context["settle_form"] = SettleForm(said=said) if said else None
    status = max((status_of(form) for form in forms.values()), default=200)
    return render(request, "quotes/rights.html", context | forms, status=status)


def _revision(number: str, letter: str) -> Revision:
    found = Revision.objects.select_related("quote__property__customer").exclude(state=Revision.State.DRAFT)
    return get_object_or_404(found, quote__number=number, letter=letter)


def _decision(number: str, letter: str) -> Decision:
    found = Decision.objects.select_related("revision__quote__property__customer")
    return get_object_or_404(
        found, revision__quote__number=number, revision__letter=letter, kind=Decision.Kind.ACCEPTED
    )
