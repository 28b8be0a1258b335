"""The owner's approval of a draft below the firm's least margin."""

from __future__ import annotations

from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from estimating.refusals import Refusal
from jobs.quotes.approval import APPROVE, IS_ASKED, approval_of, approve_draft, ask_owner
from jobs.quotes.drafts.services import NotADraft
from jobs.quotes.services import CannotIssue, worked_out
from jobs.quotes.views import revision_asked_for


@permission_required(APPROVE, raise_exception=True)
@require_POST
def revision_approve(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    """Approve the draft as it stands now; a draft that changed since the page was opened says so."""
    revision = revision_asked_for(number, letter)
    try:
        approval = approval_of(revision, worked_out(revision)) if revision.is_draft else None
        if approval is None:
            messages.error(request, f"{revision} needs no approval.")
        elif request.POST.get("margin") != str(approval.below.margin.value):
            messages.error(request, f"Not approved: the draft was changed meanwhile. {approval.in_words}")
        else:
            note = request.POST.get("note", "").strip()
            approve_draft(revision, approval, by=request.user, note=note)
            messages.success(request, f"{revision} is approved as it stands. A change of it asks again.")
    except (NotADraft, CannotIssue, Refusal) as refused:
        messages.error(request, f"Not approved. {refused}")
    return redirect("quote", number=number)


@permission_required("jobs.issue_quote", raise_exception=True)
@require_POST
def revision_ask_owner(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    """Ask the owner to approve the draft, which then waits on the owner's first page."""
    revision = revision_asked_for(number, letter)
    try:
        approval = approval_of(revision, worked_out(revision)) if revision.is_draft else None
        if approval is None or approval.stands:
            messages.error(request, f"{revision} needs no approval.")
        else:
            ask_owner(revision, by=request.user)
            messages.success(request, IS_ASKED)
    except (NotADraft, CannotIssue, Refusal) as refused:
        messages.error(request, f"Not asked. {refused}")
    return redirect("quote", number=number)
