"""Issue, withdraw, link to and lapse what is on offer."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from estimating.contracts.kind import HowAgreed
from estimating.estimate import Estimate
from estimating.price.taking import why_not_offered
from estimating.refusals import Refusal
from jobs.customers.models import Customer
from jobs.documents.models import Paper
from jobs.documents.papers import keep_paper
from jobs.documents.quote import quote_pdf
from jobs.documents.rights import rights_pdf
from jobs.firm.models import Firm
from jobs.quotes.alternatives import Alternative, alternatives_of
from jobs.quotes.approval import APPROVE, ASK_THE_OWNER, approval_of, note_approval
from jobs.quotes.customer.links import make_link, revoke_links
from jobs.quotes.customer.models import CustomerQuestion
from jobs.quotes.drafts.services import VARIATION, accepted_revision, estimate_draft, locked_revisions
from jobs.quotes.frozen import freeze
from jobs.quotes.holding import holds_until, why_rate_has_gone
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Quote, Revision
from jobs.quotes.rights.told import rights_of
from jobs.surveys.as_measured import requirement_in_words, wished_parts
from jobs.surveys.models import Survey
from jobs.surveys.tablet.keeping import SEEN_ELSEWHERE, stops_kept_aside

STANDING = (Revision.State.ISSUED, Revision.State.ACCEPTED)


class CannotIssue(Exception):
    """The revision may not be offered; every reason at once, in words for the office."""

    def __init__(self, reasons: list[str]) -> None:
        super().__init__(" ".join(reasons))
        self.reasons = reasons


class OwnerMustApprove(CannotIssue):
    """Nothing keeps the revision from being offered but the firm's least margin."""


class NotOnOffer(Exception):
    """The revision does not stand, so nothing about its offer can be done."""


_WHO_OFFERS = {"address": "its address", "phone": "its phone", "email": "its e-mail"}


def why_not_issue(revision: Revision, worked: Sequence[Estimate]) -> list[str]:
    """Say everything that keeps a draft from being offered with these alternatives, and which one it is."""
    reasons = [] if revision.is_draft else [f"{revision} is already {revision.state}."]
    accepted = accepted_revision(revision.quote)
    if accepted and accepted != revision:
        reasons.append(f"{accepted} was accepted meanwhile. {VARIATION}")
    survey = revision.quote.survey
    if survey.state != Survey.State.COMPLETE:
        reasons.append(f"Survey {survey.number} is not complete: a hazard may not have been asked for.")
    reasons += [f"{title}: {SEEN_ELSEWHERE}" for title in stops_kept_aside(survey)]
    reasons += _of_each([_why_not_this(revision, each) for each in worked], alternatives_of(revision))
    firm = Firm.ours()
    lacking = [words for name, words in _WHO_OFFERS.items() if not getattr(firm, name).strip()]
    if lacking:
        reasons.append(f"The firm's particulars lack {' and '.join(lacking)}: a quote says who offers it.")
    return reasons


def _why_not_this(revision: Revision, worked: Estimate) -> list[str]:
    """Say what is wrong with one way of doing the job."""
    reasons = [f"{verdict.subject}: {verdict.words}" for verdict in worked.checks.stops]
    reasons += [
        f"{zone.zone}: {zone.no_layout.why}" for zone in worked.design.zones if zone.no_layout is not None
    ]
    reasons += why_not_offered(worked.price.part_rules, worked.choices)
    not_asked_for = sorted(worked.choices.taken_parts - wished_parts(revision.quote.survey).keys())
    if not_asked_for:
        reasons.append(f"Offered as taken, and not asked for at the survey: {', '.join(not_asked_for)}.")
    return [*reasons, *_why_not_by_vat(revision, worked)]


def _of_each(found: list[list[str]], alternatives: Sequence[Alternative]) -> list[str]:
    """Say once what is wrong with every alternative, and name the alternative of anything else."""
    everywhere = [words for words in found[0] if all(words in each for each in found)]
    return everywhere + [
        f"{alternative.shown}: {words}"
        for alternative, each in zip(alternatives, found, strict=False)
        for words in each
        if words not in everywhere
    ]


def _why_not_by_vat(revision: Revision, worked: Estimate) -> list[str]:
    """Say what about VAT keeps a draft from being offered to this customer."""
    rules, reasons = worked.price_book.pricing, []
    business = revision.quote.property.customer.kind == Customer.Kind.BUSINESS
    if rules.vat_rounding.business_customers_only and rules.vat_registered and not business:
        reasons.append(
            f"“How VAT is rounded” in {revision.edition}, {rules.vat_rounding.in_words}, is for business "
            "customers only: a household is offered a price with VAT in it. Choose another way in the next "
            "edition, and price the draft with that."
        )
    said = worked.choices.reverse_charge
    if said is not None and rules.vat_registered and not said.is_settled and worked.price.totals.vat:
        reasons.append(
            "Reverse charge: nobody has said yet whether the customer accounts for the VAT. Answer the "
            "questions under “What a business customer is asked”."
        )
    gone = why_rate_has_gone(worked, timezone.localdate())
    return [*reasons, *([gone] if gone else [])]


@transaction.atomic
def issue_revision(revision: Revision, *, by: User, how_agreed: HowAgreed = HowAgreed.WITHOUT_MEETING) -> str:
    """Freeze a draft, make its papers, supersede what stood before, and return the customer's new link token.

    Everything the revision says is copied into it here, all its alternatives: later changes of the price
    book, the firm's settings or the code's defaults cannot reach it.
    """
    locked_revisions(revision.quote)
    revision = Revision.objects.select_related("quote__survey", "edition").get(pk=revision.pk)
    worked, *others = every = worked_out(revision)
    reasons = why_not_issue(revision, every)
    approval = approval_of(revision, every)
    if approval and not approval.stands and not by.has_perm(APPROVE):
        words = f"{approval.in_words} {ASK_THE_OWNER}"
        if not reasons:
            raise OwnerMustApprove([words])
        reasons.append(words)
    if reasons:
        raise CannotIssue(reasons)
    if approval and not approval.stands:
        note_approval(revision, approval, by=by, note="Issued by the owner.")
    firm, today = Firm.ours(), timezone.localdate()
    revision.valid_until = min(holds_until(each, today, firm.quote_valid_days).until for each in every)
    revision.issued_at, revision.issued_by = timezone.now(), by
    revision.how_agreed = how_agreed.name
    revision.issued = freeze(revision, worked, firm, others)
    revision.total = worked.price.totals.gross
    paper = keep_paper(quote_pdf(revision), kind=Paper.Kind.QUOTE, title=f"Quote {revision}")
    revision.paper_sha256 = paper.sha256
    if rights_of(revision).is_consumer:
        told = keep_paper(rights_pdf(revision), kind=Paper.Kind.RIGHTS, title=f"Rights with quote {revision}")
        revision.rights_sha256 = told.sha256
    revision.quote.revisions.filter(state=Revision.State.ISSUED).update(
        state=Revision.State.SUPERSEDED, changed_at=timezone.now()
    )
    revision.state = Revision.State.ISSUED
    revision.save()
    keep_standing(revision.quote)
    return make_link(revision, by=by)


def worked_out(revision: Revision) -> list[Estimate]:
    """Work out every alternative; where there are several, say of which one something is refused."""
    alternatives = alternatives_of(revision)
    worked, refusals = [], []
    for each in alternatives:
        try:
            worked.append(estimate_draft(revision, alternative=each.number))
        except Refusal as refused:
            if len(alternatives) == 1:
                raise
            refusals.append([requirement_in_words(one) for one in refused.each])
        else:
            refusals.append([])
    if any(refusals):
        raise CannotIssue(_of_each(refusals, alternatives))
    return worked


@transaction.atomic
def withdraw_revision(revision: Revision) -> None:
    """Take an offer back before it is accepted; its link shows that it is withdrawn."""
    locked = Revision.objects.select_for_update().get(pk=revision.pk)
    if locked.state != Revision.State.ISSUED:
        raise NotOnOffer(f"{locked} is {locked.state}: only an issued revision can be withdrawn.")
    locked.state = Revision.State.WITHDRAWN
    locked.save(update_fields=["state", "changed_at"])
    keep_standing(locked.quote)


@transaction.atomic
def resend_link(quote: Quote, *, by: User) -> str:
    """Make a new link to the standing offer; the old one ends."""
    locked_revisions(quote)
    return make_link(standing_revision(quote), by=by)


def standing_revision(quote: Quote) -> Revision:
    """Return the revision on offer or accepted."""
    standing = quote.revisions.filter(state__in=STANDING).first()
    if standing is None:
        raise NotOnOffer(f"{quote.number} has no revision on offer to link to.")
    return standing


@transaction.atomic
def end_links(quote: Quote) -> int:
    """End the customer's links to a quote."""
    locked_revisions(quote)
    return revoke_links(quote)


@transaction.atomic
def lapse_offers(today: date) -> int:
    """Let offers lapse whose last day has passed, and return how many did."""
    past = Revision.objects.filter(state=Revision.State.ISSUED, valid_until__lt=today)
    found = list(past.select_for_update().only("quote").order_by("pk"))
    Revision.objects.filter(pk__in=[each.pk for each in found]).update(
        state=Revision.State.LAPSED, changed_at=timezone.now()
    )
    for each in found:
        keep_standing(each.quote)
    return len(found)


@transaction.atomic
def answer_question(question: CustomerQuestion) -> None:
    """Mark a customer's question as answered; pressed again, the first time stands."""
    if question.answered_at is None:
        question.answered_at = timezone.now()
        question.save(update_fields=["answered_at"])
    keep_standing(question.quote)
