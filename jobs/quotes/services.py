"""Draft, issue, withdraw and supersede quotes."""

from __future__ import annotations

from datetime import date, timedelta

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from estimating.choices import Choices
from estimating.estimate import Estimate, estimate
from estimating.json_forms import choices_as_json, choices_from_json
from estimating.price.vat import rate_changes_between
from jobs.documents.models import Paper
from jobs.documents.papers import keep_paper
from jobs.documents.quote import quote_pdf
from jobs.firm.models import Firm
from jobs.firm.numbers import next_number
from jobs.price_books.as_price_book import as_price_book
from jobs.price_books.services import current_edition
from jobs.quotes.frozen import freeze
from jobs.quotes.links import make_link, revoke_links
from jobs.quotes.models import CustomerQuestion, Quote, Revision
from jobs.surveys.as_measured import survey_as_measured, wishes_as_choices
from jobs.surveys.models import Survey

STANDING = (Revision.State.ISSUED, Revision.State.ACCEPTED)


class CannotIssue(Exception):
    """The revision may not be offered; every reason at once, in words for the office."""

    def __init__(self, reasons: list[str]) -> None:
        super().__init__(" ".join(reasons))
        self.reasons = reasons


class NotADraft(Exception):
    """Only a draft can be changed; an issued revision never is."""


@transaction.atomic
def draft_quote(survey: Survey, *, by: User) -> Revision:
    """Start a quote for a survey: revision A, at the current edition, with what the customer wished for."""
    quote = Quote.objects.create(number=next_number("Q"), property=survey.property, survey=survey, made_by=by)
    choices = wishes_as_choices(survey, tax_point=timezone.localdate())
    return Revision.objects.create(
        quote=quote,
        letter="A",
        edition=current_edition(),
        choices=choices_as_json(choices),
        made_by=by,
    )


@transaction.atomic
def next_revision(quote: Quote, *, by: User) -> Revision:
    """Draft the next revision from the latest one, at the current edition of the price book."""
    latest = quote.revisions.select_for_update().order_by("letter").last()
    if latest is None or latest.is_draft:
        raise NotADraft(f"{quote.number} already has a draft: change that one.")
    if latest.state == Revision.State.ACCEPTED:
        raise NotADraft(f"{latest} was accepted. A change to accepted work is a variation of the job.")
    return Revision.objects.create(
        quote=quote,
        letter=_letter_after(latest.letter),
        edition=current_edition(),
        choices={**latest.choices, "tax_point": timezone.localdate().isoformat()},
        introduction=latest.introduction,
        made_by=by,
    )


def _letter_after(letter: str) -> str:
    """Return B after A, and AA after Z."""
    if letter[-1] != "Z":
        return letter[:-1] + chr(ord(letter[-1]) + 1)
    return "A" * (len(letter) + 1)


@transaction.atomic
def change_draft(revision: Revision, *, choices: Choices, introduction: str) -> None:
    """Change what a draft offers."""
    locked = Revision.objects.select_for_update().get(pk=revision.pk)
    if not locked.is_draft:
        raise NotADraft(f"{locked} is {locked.state}. Make a new revision to change it.")
    revision.choices = choices_as_json(choices)
    revision.introduction = introduction
    revision.save(update_fields=["choices", "introduction", "changed_at"])


def estimate_draft(revision: Revision, *, choices: Choices | None = None) -> Estimate:
    """Work out a draft as its survey, edition and choices stand now; raises the core's Refusals."""
    return estimate(
        survey_as_measured(revision.quote.survey),
        as_price_book(revision.edition),
        choices or choices_from_json(revision.choices),
    )


def why_not_issue(revision: Revision, worked: Estimate) -> list[str]:
    """Say everything that keeps a draft from being offered."""
    reasons = [] if revision.is_draft else [f"{revision} is already {revision.state}."]
    survey = revision.quote.survey
    if survey.state != Survey.State.COMPLETE:
        reasons.append(f"Survey {survey.number} is not complete: a hazard may not have been asked for.")
    reasons += [f"Stop without clearance: {verdict.words}" for verdict in worked.checks.stops]
    reasons += [
        f"{zone.zone}: {zone.no_layout.why}" for zone in worked.design.zones if zone.no_layout is not None
    ]
    return reasons


@transaction.atomic
def issue_revision(revision: Revision, *, by: User) -> str:
    """Freeze a draft, make its paper, supersede what stood before, and return the customer's new link token.

    Everything the revision says is copied into it here: later changes of the price book, the firm's
    settings or the code's defaults cannot reach it.
    """
    revision = (
        Revision.objects.select_for_update().select_related("quote__survey", "edition").get(pk=revision.pk)
    )
    worked = estimate_draft(revision)
    reasons = why_not_issue(revision, worked)
    if reasons:
        raise CannotIssue(reasons)
    firm, today = Firm.ours(), timezone.localdate()
    revision.valid_until = _holds_until(worked, today, firm.quote_valid_days)
    revision.issued_at, revision.issued_by = timezone.now(), by
    revision.issued = freeze(revision, worked, firm)
    revision.total = worked.price.totals.gross
    paper = keep_paper(quote_pdf(revision), kind=Paper.Kind.QUOTE, title=f"Quote {revision}")
    revision.paper_sha256 = paper.sha256
    quote = revision.quote
    quote.revisions.filter(state=Revision.State.ISSUED).update(state=Revision.State.SUPERSEDED)
    revision.state = Revision.State.ISSUED
    revision.save()
    return make_link(revision, by=by)


def _holds_until(worked: Estimate, today: date, days: int) -> date:
    """Hold for the firm's days, but never past the last day of a VAT rate in the price."""
    last = today + timedelta(days=days)
    changes = rate_changes_between(today, last, worked.survey.nation)
    return min([last, *(change.on - timedelta(days=1) for change in changes)])


@transaction.atomic
def withdraw_revision(revision: Revision) -> None:
    """Take an offer back before it is accepted; its link shows that it is withdrawn."""
    locked = Revision.objects.select_for_update().get(pk=revision.pk)
    if locked.state != Revision.State.ISSUED:
        raise NotADraft(f"{locked} is {locked.state}: only an issued revision can be withdrawn.")
    locked.state = Revision.State.WITHDRAWN
    locked.save(update_fields=["state", "changed_at"])


@transaction.atomic
def resend_link(quote: Quote, *, by: User) -> str:
    """Make a new link to the standing offer; the old one ends."""
    return make_link(standing_revision(quote), by=by)


def standing_revision(quote: Quote) -> Revision:
    """Return the revision on offer or accepted; raises Revision.DoesNotExist."""
    return quote.revisions.get(state__in=STANDING)


def end_links(quote: Quote) -> int:
    """End the customer's links to a quote."""
    return revoke_links(quote)


@transaction.atomic
def lapse_offers(today: date) -> int:
    """Let offers lapse whose last day has passed, and return how many did."""
    return Revision.objects.filter(state=Revision.State.ISSUED, valid_until__lt=today).update(
        state=Revision.State.LAPSED
    )


def answer_question(question: CustomerQuestion) -> None:
    """Mark a customer's question as answered."""
    question.answered_at = timezone.now()
    question.save(update_fields=["answered_at"])
