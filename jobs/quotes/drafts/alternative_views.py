"""Add, rename and remove the alternatives of a draft."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django import forms
from django.contrib import messages
from django.contrib.auth.decorators import permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from jobs.quotes.drafts.alternatives import (
    MOVED,
    CannotBeSo,
    add_alternative,
    remove_alternative,
    rename_alternative,
)
from jobs.quotes.drafts.forms import AlternativeForm, AlternativeNameForm
from jobs.quotes.drafts.services import NotADraft
from jobs.quotes.models import Revision
from jobs.quotes.views import (
    address_of,
    alternative_asked_for,
    alternative_to_change,
    draft_page,
    page_of,
    revision_asked_for,
)


@permission_required("jobs.change_revision", raise_exception=True)
@require_POST
def alternative_add(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    revision = revision_asked_for(number, letter)
    form = AlternativeForm(request.POST, revision=revision)
    return _named(
        request, revision, form, "new_alternative", lambda asked: add_alternative(revision, **asked)
    )


@permission_required("jobs.change_revision", raise_exception=True)
@require_POST
def alternative_rename(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    revision = revision_asked_for(number, letter)
    renamed = alternative_to_change(request, revision)
    form = AlternativeNameForm(request.POST, auto_id="rename_%s")

    def rename(asked: dict[str, Any]) -> int:
        if renamed is None:
            raise CannotBeSo(MOVED)
        rename_alternative(revision, renamed, **asked)
        return renamed

    return _named(request, revision, form, "alternative_name", rename)


@permission_required("jobs.change_revision", raise_exception=True)
@require_POST
def alternative_remove(request: HttpRequest, number: str, letter: str) -> HttpResponse:
    revision = revision_asked_for(number, letter)
    try:
        removed = alternative_to_change(request, revision)
        if removed is None:
            raise CannotBeSo(MOVED)
        remove_alternative(revision, removed)
        messages.success(request, "The alternative is removed.")
    except (NotADraft, CannotBeSo) as refused:
        messages.error(request, str(refused))
    return redirect("revision", number=number, letter=letter)


def _named(
    request: HttpRequest,
    revision: Revision,
    form: forms.Form,
    shown_as: str,
    act: Callable[[dict[str, Any]], int],
) -> HttpResponse:
    """Do what was asked under a name; what cannot be so comes back with everything typed."""
    if form.is_valid():
        try:
            return redirect(address_of(revision, act(form.cleaned_data)))
        except NotADraft as refused:
            messages.error(request, str(refused))
            return redirect("revision", number=revision.quote.number, letter=revision.letter)
        except CannotBeSo as refused:
            form.add_error("name", str(refused))
    if not revision.is_draft:
        messages.error(request, f"{revision} is {revision.state}: make a new revision to change it.")
        return redirect("revision", number=revision.quote.number, letter=revision.letter)
    alternative = alternative_asked_for(request, revision)
    context = page_of(revision, alternative) | draft_page(request, revision, alternative) | {shown_as: form}
    return render(request, "quotes/quote.html", context, status=422)
