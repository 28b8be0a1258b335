"""Copies of what was agreed and said, to the customer and to the firm, through the outbox."""

from __future__ import annotations

import logging
from collections.abc import Iterable
from datetime import date, datetime
from decimal import Decimal

from django.conf import settings
from django.urls import reverse
from django.utils import timezone

from estimating.days import day_in_words
from jobs.documents.papers import read_paper
from jobs.firm.models import Firm
from jobs.kept_files import FileDamaged
from jobs.mail.models import OutgoingMail
from jobs.mail.services import Attachment, MailRefused, Recipient, queue_mail
from jobs.quotes.customer.models import CustomerQuestion, Decision
from jobs.quotes.frozen import alternative_names
from jobs.quotes.models import Revision
from jobs.quotes.rights.models import Cancellation, EarlyStart
from jobs.quotes.rights.period import time_to_cancel

logger = logging.getLogger("eavesbook.mail")


def mail_acceptance(decision: Decision) -> None:
    """Send what was accepted, with the papers, to both sides."""
    revision = decision.revision
    ways = alternative_names(revision)
    lines = [
        f"Quote {revision} for {_place(revision)} was accepted.",
        "",
        f"Accepted by: {decision.name_typed}",
        f"When: {_moment(decision.decided_at)}",
        f"Price with every charge in it: £{decision.total:,.2f}",
        *([f"Alternative taken: {ways[decision.alternative]}"] if len(ways) > 1 else []),
        f"Options taken: {', '.join(decision.taken_parts) or 'none'}",
        "",
        "These words were ticked:",
        *(f"- {words}" for words in decision.statements),
        *_early_start_lines(decision),
        *_cancel_lines(decision),
        "",
        f"The quote's paper has the SHA-256 {decision.paper_sha256}.",
    ]
    papers = [(f"Quote {revision}.pdf", decision.paper_sha256)]
    papers += [(f"Your rights {revision}.pdf", decision.rights_sha256)] if decision.rights_sha256 else []
    _to_both(revision, f"Quote {revision} is accepted", lines, once=f"accepted {decision.pk}", papers=papers)


def mail_declined(decision: Decision) -> None:
    """Tell the firm that an offer was declined."""
    lines = [
        f"{decision.name_typed} declined quote {decision.revision}.",
        f"Reason: {decision.reason or 'none was given'}",
    ]
    _to_firm(
        decision.revision, f"Quote {decision.revision} is declined", lines, once=f"declined {decision.pk}"
    )


def mail_early_start(asked: EarlyStart) -> None:
    """Send the request to start early to both sides."""
    revision = asked.decision.revision
    lines = [
        f"An early start was asked for, for quote {revision}, {_place(revision)}.",
        "",
        f"By: {asked.name_typed}",
        f"When: {_moment(asked.said_at)}",
        f"In these words: {asked.words}",
    ]
    _to_both(revision, f"Quote {revision}: start early", lines, once=f"early start {asked.pk}")


def mail_cancellation(said: Cancellation) -> None:
    """Confirm to both sides that the contract is cancelled, and say what is owed as far as it is known."""
    revision = said.decision.revision
    lines = [
        f"The contract of quote {revision} for {_place(revision)} is cancelled.",
        "",
        f"By: {said.name_typed}",
        f"When: {_moment(said.said_at)}",
        f"In these words: {said.words}",
        *([f"Reason: {said.reason}"] if said.reason else []),
        "",
        *settlement_lines(said),
    ]
    _to_both(revision, f"Quote {revision} is cancelled", lines, once=f"cancelled {said.pk}")


def mail_settlement(said: Cancellation) -> None:
    """Send what is owed on both sides, worked out."""
    revision = said.decision.revision
    lines = [f"What is owed after quote {revision} was cancelled:", "", *settlement_lines(said)]
    once = f"settled {said.pk} {timezone.now():%Y%m%d%H%M%S%f}"
    _to_both(revision, f"Quote {revision}: what is owed", lines, once=once)


def mail_question(question: CustomerQuestion) -> None:
    """Tell the firm what a customer asks."""
    quote = question.quote
    lines = [f"{quote.property.customer} asks about quote {quote.number}:", "", question.words]
    # Never about a draft: it could then not be thrown away any more.
    revision = quote.revisions.exclude(state=Revision.State.DRAFT).order_by("-pk").first()
    if revision is not None:
        _to_firm(revision, f"A question about quote {quote.number}", lines, once=f"asked {question.pk}")


def settlement_lines(said: Cancellation) -> list[str]:
    """Say what is owed in sentences."""
    kept = said.settlement
    if not kept:
        return [
            "Work had begun. We now work out what part of it was done, and write to you with the amounts.",
        ]
    refund_by = day_in_words(date.fromisoformat(kept["refund_by"]))
    payable = Decimal(kept["payable"])
    lines = [f"For what was done £{payable:,.2f} is owed ({kept['how']})."]
    if not said.work_had_begun and not payable:
        lines = ["Nothing had been begun, so nothing is owed for it."]
    if "to_refund" not in kept:
        return [*lines, f"Whatever was paid comes back by {refund_by}, in the way in which it was paid."]
    back, rest = Decimal(kept["to_refund"]), Decimal(kept["still_to_pay"])
    lines.append(f"Paid until then: £{said.paid:,.2f}.")
    if back:
        lines.append(f"£{back:,.2f} comes back by {refund_by}, in the way in which it was paid.")
    elif rest:
        lines.append(f"£{rest:,.2f} is still to be paid.")
    else:
        lines.append("Nothing is owed on either side.")
    return lines


def _early_start_lines(decision: Decision) -> list[str]:
    asked = getattr(decision, "early_start", None)
    return ["", f"And apart from that, an early start was asked for: {asked.words}"] if asked else []


def _cancel_lines(decision: Decision) -> list[str]:
    time = time_to_cancel(decision)
    if time is None:
        return []
    sure = time.how_it_may_move
    return [
        "",
        f"The contract may be cancelled until {time.last_day_in_words}, the whole of that day included, "
        "without a reason.",
        *([sure] if sure else []),
        time.rights.how_to_cancel,
    ]


def _moment(at: datetime) -> str:
    local = timezone.localtime(at)
    return f"{day_in_words(local.date())}, {local:%H:%M:%S %Z}"


def _to_both(
    revision: Revision,
    subject: str,
    lines: Iterable[str],
    *,
    once: str,
    papers: Iterable[tuple[str, str]] = (),
) -> None:
    """Send each side a message of its own; the firm is told where there is no address for the customer's."""
    lines, papers, to = list(lines), list(papers), _customer_of(revision)
    if to is not None:
        text = [f"Dear {to.name},", "", *lines, "", "Kind regards", revision.issued["firm"]["name"]]
        _queue(to, subject, text, about=revision, once=f"{once} customer", papers=papers)
    told = [] if to else ["", "The customer has no e-mail address here: give them a copy of this on paper."]
    _to_firm(revision, subject, [*lines, *told], once=once, papers=papers)


def _customer_of(revision: Revision) -> Recipient | None:
    """Return where the customer's copy goes: to their record's address, or to whom the link was mailed."""
    customer = revision.quote.property.customer
    if customer.email:
        return Recipient(customer.name, customer.email)
    mailed = OutgoingMail.objects.filter(about__quote=revision.quote, link__isnull=False)
    last = mailed.exclude(state=OutgoingMail.State.WITHDRAWN).order_by("-pk").first()
    return Recipient(last.to_name, last.to_address) if last else None


def _place(revision: Revision) -> str:
    """Return the house as the quote was issued for, whatever its record says now."""
    lines: list[str] = revision.issued["customer"]["address"]
    return ", ".join(lines[:2])


def _to_firm(
    revision: Revision,
    subject: str,
    lines: Iterable[str],
    *,
    once: str,
    papers: Iterable[tuple[str, str]] = (),
) -> None:
    firm = Firm.ours()
    page = settings.BASE_URL + reverse("quote", args=[revision.quote.number])
    to = Recipient(firm.name, firm.email)
    _queue(to, subject, [*lines, "", page], about=revision, once=f"{once} firm", papers=papers)


def _queue(  # noqa: PLR0913 - a letter's parts, and all are named
    to: Recipient,
    subject: str,
    lines: list[str],
    *,
    about: Revision,
    once: str,
    papers: Iterable[tuple[str, str]],
) -> None:
    """Queue a copy. One that cannot be written is logged: what the customer did stands without it."""
    attached = [Attachment(name, digest) for name, digest in papers if _can_be_read(digest)]
    try:
        queue_mail(
            to=to, subject=subject, text="\n".join(lines), attachments=attached, about=about, once=once
        )
    except MailRefused as refused:
        logger.warning("no copy", extra={"figures": {"what": once, "field": refused.field}})


def _can_be_read(digest: str) -> bool:
    try:
        read_paper(digest)
    except FileDamaged:
        return False
    return True
