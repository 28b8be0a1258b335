"""Draft and revise quotes, and work out what a draft comes to."""

from __future__ import annotations

from dataclasses import replace

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from estimating import survey as measured
from estimating.choices import Choices
from estimating.estimate import Estimate, estimate
from estimating.json_forms import choices_as_json
from estimating.refusals import Refusal
from jobs.firm.numbers import next_number
from jobs.layouts.store import LayFromStore
from jobs.price_books.as_price_book import as_price_book
from jobs.price_books.services import current_edition
from jobs.quotes.alternatives import (
    alternatives_of,
    carried_over,
    keep_alternatives,
)
from jobs.quotes.drafts.terms import for_customer, usual_stages
from jobs.quotes.listing.finding import keep_words
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Quote, Revision
from jobs.store.at_hand import boards_at_hand
from jobs.surveys.as_measured import survey_as_measured, wishes_as_choices
from jobs.surveys.models import Survey


class NotADraft(Exception):
    """Only a draft can be changed; an issued revision never is."""


class ChangedMeanwhile(Exception):
    """Somebody changed the draft after the page was shown that would change it; the message says so."""


class CannotRevise(Exception):
    """The quote takes no further revision now; the message tells the office why."""


SEEN_BEFORE = (
    "Somebody changed this draft after this page was shown, so nothing of this page is kept any more. "
    "Open the quote again to go on from what they did."
)
VARIATION = "A change to accepted work is a variation of the job."


@transaction.atomic
def draft_quote(survey: Survey, *, by: User) -> Revision:
    """Start a quote for a survey: revision A, at the current edition, with what the customer wished for."""
    quote = Quote.objects.create(number=next_number("Q"), property=survey.property, survey=survey, made_by=by)
    choices = wishes_as_choices(survey, tax_point=timezone.localdate(), measured=_measured(survey))
    choices = for_customer(replace(choices, stages=usual_stages()), survey.property.customer)
    revision = Revision.objects.create(
        quote=quote,
        letter="A",
        edition=current_edition(),
        choices=choices_as_json(choices),
        made_by=by,
    )
    keep_standing(quote)
    keep_words([quote])
    return revision


def _measured(survey: Survey) -> measured.Survey | None:
    """Return a survey as the core takes it; a quote may be begun before everything is measured."""
    try:
        return survey_as_measured(survey)
    except Refusal:
        return None


@transaction.atomic
def next_revision(quote: Quote, *, by: User) -> Revision:
    """Draft the next revision from the latest one, at the current edition of the price book."""
    latest = locked_revisions(quote)[-1]
    if latest.is_draft:
        raise CannotRevise(f"{latest} is a draft already: change that one.")
    accepted = accepted_revision(quote)
    if accepted:
        raise CannotRevise(f"{accepted} was accepted. {VARIATION}")
    revision = Revision.objects.create(
        quote=quote,
        letter=_letter_after(latest.letter),
        edition=current_edition(),
        use_store=latest.use_store,
        introduction=latest.introduction,
        made_by=by,
        **carried_over(latest, tax_point=timezone.localdate()),
    )
    keep_standing(quote)
    return revision


def locked_revisions(quote: Quote) -> list[Revision]:
    """Lock a quote's revisions in the order they were made, so that no two services wait for each other."""
    return list(quote.revisions.select_for_update().defer("issued").order_by("pk"))


def accepted_revision(quote: Quote) -> Revision | None:
    return quote.revisions.filter(state=Revision.State.ACCEPTED).defer("issued").first()


def _letter_after(letter: str) -> str:
    """Return B after A, AA after Z and BA after AZ."""
    if letter[-1] != "Z":
        return letter[:-1] + chr(ord(letter[-1]) + 1)
    return (_letter_after(letter[:-1]) if letter[:-1] else "A") + "A"


@transaction.atomic
def change_draft(
    revision: Revision,
    *,
    choices: Choices,
    introduction: str,
    use_store: bool = False,
    alternative: int = 0,
) -> None:
    """Change what a draft offers: the choices of one alternative, and what all of them share.

    What changes nothing leaves the draft untouched, and with it what the owner was asked.
    """
    draft = locked_draft(revision)
    held = list(alternatives_of(draft))
    if alternative >= len(held):
        raise NotADraft("That alternative was removed meanwhile: nothing was changed.")
    before = (held[alternative].choices, draft.introduction, draft.use_store)
    if before != (choices, introduction, use_store):
        held[alternative] = replace(held[alternative], form=choices_as_json(choices))
        draft.introduction, draft.use_store = introduction, use_store
        draft.save(update_fields=["introduction", "use_store"])
        keep_alternatives(draft, held)
    for name in ("choices", "alternatives", "introduction", "use_store", "changed_at"):
        setattr(revision, name, getattr(draft, name))


def claim_for_page(revision: Revision, *, page: str, after: str) -> None:
    """Lock a draft for a change by one page, unless another page changed it since that page was shown.

    `page` is the page's own mark and `after` that of the page that had changed the draft last when it was
    shown; a page's own changes never stand in its way, even those whose answer it has not had. Raises
    ChangedMeanwhile.
    """
    draft = locked_draft(revision)
    if draft.changed_on_page not in (page, after):
        raise ChangedMeanwhile(SEEN_BEFORE)
    Revision.objects.filter(pk=draft.pk).update(changed_on_page=page)


@transaction.atomic
def price_at_current_edition(revision: Revision) -> None:
    """Move a draft to the price book in use today; an issued revision stays at the one it was priced with."""
    locked_draft(revision)
    revision.edition = current_edition()
    revision.save(update_fields=["edition", "changed_at"])
    keep_standing(revision.quote)


@transaction.atomic
def discard_draft(revision: Revision) -> bool:
    """Throw away a draft, which nobody outside has seen; return whether its quote is gone with it.

    The number of a quote that is gone is not given again.
    """
    locked_draft(revision)
    revision.delete()
    if not revision.quote.revisions.exists():
        revision.quote.delete()
        return True
    keep_standing(revision.quote)
    return False


def locked_draft(revision: Revision) -> Revision:
    """Lock a revision for the rest of the transaction, and refuse it unless it is still a draft."""
    locked = Revision.objects.select_for_update().get(pk=revision.pk)
    if not locked.is_draft:
        raise NotADraft(f"{locked} is {locked.state}: make a new revision to change it.")
    return locked


def estimate_draft(
    revision: Revision,
    *,
    choices: Choices | None = None,
    layouts: LayFromStore | None = None,
    alternative: int = 0,
) -> Estimate:
    """Work out one alternative of a draft as its survey, edition and choices stand now.

    Raises the core's Refusals. Boards are laid as well as is known by now; `layouts` tells the caller what
    may still be bettered.
    """
    layouts = layouts or LayFromStore()
    choices = choices or alternatives_of(revision)[alternative].choices
    choices = for_customer(choices, revision.quote.property.customer)
    worked = estimate(
        survey_as_measured(revision.quote.survey),
        as_price_book(revision.edition),
        replace(choices, store=boards_at_hand() if revision.use_store else ()),
        lay=layouts,
    )
    layouts.ask_for_proofs(worked.design)
    return worked
