"""Draft, issue, withdraw and supersede quotes."""

from __future__ import annotations

from dataclasses import replace
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
from jobs.layouts.store import LayFromStore
from jobs.price_books.as_price_book import as_price_book
from jobs.price_books.services import current_edition
from jobs.quotes.frozen import freeze
from jobs.quotes.links import make_link, revoke_links
from jobs.quotes.models import CustomerQuestion, Quote, Revision
from jobs.store.at_hand import boards_at_hand
from jobs.surveys.as_measured import survey_as_measured, wishes_as_choices
from jobs.surveys.models import Survey
from jobs.surveys.tablet.keeping import SEEN_ELSEWHERE, stops_kept_aside

STANDING = (Revision.State.ISSUED, Revision.State.ACCEPTED)


class CannotIssue(Exception):
    """The revision may not be offered; every reason at once, in words for the office."""

    def __init__(self, reasons: list[str]) -> None:
        super().__init__(" ".join(reasons))
        self.reasons = reasons


class NotADraft(Exception):
    """Only a draft can be changed; an issued revision never is."""


class CannotRevise(Exception):
    """The quote takes no further revision now; the message tells the office why."""


class NotOnOffer(Exception):
    """The revision does not stand, so nothing about its offer can be done."""


_WHO_OFFERS = {"address": "its address", "phone": "its phone", "email": "its e-mail"}
VARIATION = "A change to accepted work is a variation of the job."


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
    latest = _locked_revisions(quote)[-1]
    if latest.is_draft:
        raise CannotRevise(f"{latest} is a draft already: change that one.")
    accepted = _accepted(quote)
    if accepted:
        raise CannotRevise(f"{accepted} was accepted. {VARIATION}")
    return Revision.objects.create(
        quote=quote,
        letter=_letter_after(latest.letter),
        edition=current_edition(),
        choices={**latest.choices, "tax_point": timezone.localdate().isoformat()},
        use_store=latest.use_store,
        introduction=latest.introduction,
        made_by=by,
    )


def _locked_revisions(quote: Quote) -> list[Revision]:
    """Lock a quote's revisions in the order they were made, so that no two services wait for each other."""
    return list(quote.revisions.select_for_update().defer("issued").order_by("pk"))


def _accepted(quote: Quote) -> Revision | None:
    return quote.revisions.filter(state=Revision.State.ACCEPTED).defer("issued").first()


def _letter_after(letter: str) -> str:
    """Return B after A, AA after Z and BA after AZ."""
    if letter[-1] != "Z":
        return letter[:-1] + chr(ord(letter[-1]) + 1)
    return (_letter_after(letter[:-1]) if letter[:-1] else "A") + "A"


@transaction.atomic
def change_draft(revision: Revision, *, choices: Choices, introduction: str, use_store: bool = False) -> None:
    """Change what a draft offers."""
    _require_draft(revision)
    revision.choices = choices_as_json(choices)
    revision.introduction, revision.use_store = introduction, use_store
    revision.save(update_fields=["choices", "introduction", "use_store", "changed_at"])


@transaction.atomic
def price_at_current_edition(revision: Revision) -> None:
    """Move a draft to the price book in use today; an issued revision stays at the one it was priced with."""
    _require_draft(revision)
    revision.edition = current_edition()
    revision.save(update_fields=["edition", "changed_at"])


@transaction.atomic
def discard_draft(revision: Revision) -> None:
    """Throw away a draft that follows an issued revision; nobody outside has seen it."""
    _require_draft(revision)
    if not revision.quote.revisions.exclude(pk=revision.pk).exists():
        raise NotADraft(f"{revision} is the quote's only revision: change it instead.")
    revision.delete()


def _require_draft(revision: Revision) -> None:
    """Lock a revision for the rest of the transaction, and refuse it unless it is still a draft."""
    locked = Revision.objects.select_for_update().get(pk=revision.pk)
    if not locked.is_draft:
        raise NotADraft(f"{locked} is {locked.state}: make a new revision to change it.")


def estimate_draft(
    revision: Revision, *, choices: Choices | None = None, layouts: LayFromStore | None = None
) -> Estimate:
    """Work out a draft as its survey, edition and choices stand now; raises the core's Refusals.

    Boards are laid as well as is known by now; `layouts` tells the caller what may still be bettered.
    """
    layouts = layouts or LayFromStore()
    choices = choices or choices_from_json(revision.choices)
    worked = estimate(
        survey_as_measured(revision.quote.survey),
        as_price_book(revision.edition),
        replace(choices, store=boards_at_hand() if revision.use_store else ()),
        lay=layouts,
    )
    layouts.ask_for_proofs(worked.design)
    return worked


def why_not_issue(revision: Revision, worked: Estimate) -> list[str]:
    """Say everything that keeps a draft from being offered."""
    reasons = [] if revision.is_draft else [f"{revision} is already {revision.state}."]
    accepted = _accepted(revision.quote)
    if accepted and accepted != revision:
        reasons.append(f"{accepted} was accepted meanwhile. {VARIATION}")
    survey = revision.quote.survey
    if survey.state != Survey.State.COMPLETE:
        reasons.append(f"Survey {survey.number} is not complete: a hazard may not have been asked for.")
    reasons += [f"{verdict.subject}: {verdict.words}" for verdict in worked.checks.stops]
    reasons += [f"{title}: {SEEN_ELSEWHERE}" for title in stops_kept_aside(survey)]
    reasons += [
        f"{zone.zone}: {zone.no_layout.why}" for zone in worked.design.zones if zone.no_layout is not None
    ]
    firm = Firm.ours()
    lacking = [words for name, words in _WHO_OFFERS.items() if not getattr(firm, name).strip()]
    if lacking:
        reasons.append(f"The firm's particulars lack {' and '.join(lacking)}: a quote says who offers it.")
    return reasons


@transaction.atomic
def issue_revision(revision: Revision, *, by: User) -> str:
    """Freeze a draft, make its paper, supersede what stood before, and return the customer's new link token.

    Everything the revision says is copied into it here: later changes of the price book, the firm's
    settings or the code's defaults cannot reach it.
    """
    _locked_revisions(revision.quote)
    revision = Revision.objects.select_related("quote__survey", "edition").get(pk=revision.pk)
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
    revision.quote.revisions.filter(state=Revision.State.ISSUED).update(
        state=Revision.State.SUPERSEDED, changed_at=timezone.now()
    )
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
        raise NotOnOffer(f"{locked} is {locked.state}: only an issued revision can be withdrawn.")
    locked.state = Revision.State.WITHDRAWN
    locked.save(update_fields=["state", "changed_at"])


@transaction.atomic
def resend_link(quote: Quote, *, by: User) -> str:
    """Make a new link to the standing offer; the old one ends."""
    return make_link(standing_revision(quote), by=by)


def standing_revision(quote: Quote) -> Revision:
    """Return the revision on offer or accepted."""
    standing = quote.revisions.filter(state__in=STANDING).first()
    if standing is None:
        raise NotOnOffer(f"{quote.number} has no revision on offer to link to.")
    return standing


def end_links(quote: Quote) -> int:
    """End the customer's links to a quote."""
    return revoke_links(quote)


@transaction.atomic
def lapse_offers(today: date) -> int:
    """Let offers lapse whose last day has passed, and return how many did."""
    return Revision.objects.filter(state=Revision.State.ISSUED, valid_until__lt=today).update(
        state=Revision.State.LAPSED, changed_at=timezone.now()
    )


def answer_question(question: CustomerQuestion) -> None:
    """Mark a customer's question as answered."""
    question.answered_at = timezone.now()
    question.save(update_fields=["answered_at"])
