"""The choices of a draft as its page sends them: read, held against what is stored, and kept."""

from __future__ import annotations

from django.db import transaction
from django.http import HttpRequest

from jobs.forms import sent
from jobs.quotes.drafts.forms import ChoicesForm
from jobs.quotes.drafts.services import ChangedMeanwhile, change_draft, claim_for_page
from jobs.quotes.models import Revision


def choices_form(
    request: HttpRequest, revision: Revision, alternative: int, *, kept: bool = False
) -> ChoicesForm:
    """Return the choices of an alternative as sent, or as kept, with the boxes that this person may fill."""
    return ChoicesForm(
        None if kept else sent(request),
        revision=revision,
        alternative=alternative,
        may_choose_vat_class=request.user.has_perm("jobs.choose_vat_class"),
        typing=bool(request.htmx) and "act" not in request.POST,
    )


def keep_sent(request: HttpRequest, revision: Revision, alternative: int) -> ChoicesForm:
    """Keep the choices sent, if they can be so, and return their form, which says what is wrong if not.

    Raises NotADraft.
    """
    form = choices_form(request, revision, alternative)
    if not form.is_valid():
        return form
    try:
        with transaction.atomic():
            if form.page:
                claim_for_page(revision, page=form.page, after=form.after)
            change_draft(
                revision,
                choices=form.choices,
                introduction=form.cleaned_data["introduction"],
                use_store=form.cleaned_data["use_store"],
                alternative=alternative,
            )
    except ChangedMeanwhile as refused:
        form.add_error(None, str(refused))
    return form
