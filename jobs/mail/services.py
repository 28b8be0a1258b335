"""Queue mail, try it again, withdraw it. Nothing here speaks to a mail server: the worker does."""

from __future__ import annotations

import logging
import secrets
import unicodedata
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from email.utils import parseaddr

from django.conf import settings
from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.core.validators import validate_email
from django.db import transaction
from django.db.models import QuerySet
from django.utils import timezone

from jobs.documents.papers import read_paper
from jobs.kept_files import FileDamaged
from jobs.mail.models import UNSENT, OutgoingMail
from jobs.quotes.customer.models import CustomerLink
from jobs.quotes.listing.standing import keep_standing
from jobs.quotes.models import Quote, Revision

LINK_PLACE = "[link]"
SHOWN = 8
State = OutgoingMail.State
logger = logging.getLogger("eavesbook.mail")


class MailRefused(Exception):
    """The message cannot be queued or changed so; the message tells the office why, `field` where."""

    def __init__(self, field: str, words: str) -> None:
        super().__init__(words)
        self.field = field


@dataclass(frozen=True, slots=True)
class Recipient:
    """Who one message goes to. Two people get two messages: a server may refuse one of them in silence."""

    name: str
    address: str


@dataclass(frozen=True, slots=True)
class Attachment:
    """A kept paper that goes with a message, read from the data folder when it is sent."""

    filename: str
    sha256: str


@dataclass(frozen=True, slots=True)
class LinkInText:
    """The customer's link that fills the text's place for one, and what its token is worked out from."""

    link: CustomerLink
    seed: str


@transaction.atomic
def queue_mail(  # noqa: PLR0913 - each is a part of a letter, and all are named
    *,
    to: Recipient,
    subject: str,
    text: str,
    attachments: Sequence[Attachment] = (),
    about: Revision | None = None,
    by: User | None = None,
    link: LinkInText | None = None,
    once: str | None = None,
) -> OutgoingMail:
    """Put a message into the outbox, within the caller's transaction: it goes only if that holds.

    With `once`, the second call of that name returns the first one's message and queues nothing.
    """
    if link is not None and text.count(LINK_PLACE) != 1:
        raise MailRefused("text", f"Keep {LINK_PLACE} once, where the address of the quote is to stand.")
    for attachment in attachments:
        _require_readable(attachment)
    now = timezone.now()
    written = {
        "to_name": one_line("name", to.name, blank=True),
        "to_address": _address(to.address),
        "subject": one_line("subject", subject),
        "text": _plain_text(text),
        "attachments": [asdict(attachment) for attachment in attachments],
        "about": about,
        "link": link.link if link else None,
        "link_seed": link.seed if link else "",
        "message_id": _new_message_id(),
        "next_try_at": now,
        "made_by": by,
        "made_at": now,
    }
    if once is None:
        return OutgoingMail.objects.create(**written)
    return OutgoingMail.objects.get_or_create(once=once, defaults=written)[0]


@transaction.atomic
def try_again(mail: OutgoingMail) -> None:
    """Let a message go at the worker's next look; one that failed for good begins its tries anew."""
    locked = _locked_unsent(mail)
    if locked.state == State.FAILED:
        locked.attempts = 0
    locked.state = State.WAITING
    locked.next_try_at = timezone.now()
    locked.save(update_fields=["attempts", "state", "next_try_at"])
    _keep_standing_of(locked)


@transaction.atomic
def note_arrival(mail: OutgoingMail) -> None:
    """Note that a message is known to have arrived, though its server's answer was lost."""
    locked = _locked_unsent(mail)
    if not locked.answers_lost:
        raise MailRefused("state", "No try of this message can have arrived: nothing was done.")
    locked.state, locked.sent_at, locked.last_error = State.SENT, timezone.now(), ""
    locked.save(update_fields=["state", "sent_at", "last_error"])
    _keep_standing_of(locked)


@transaction.atomic
def withdraw_mail(mail: OutgoingMail) -> None:
    """Take a message back that has not gone; the link in it ends unless another message carries it too."""
    locked = _locked_unsent(mail)
    locked.state = State.WITHDRAWN
    locked.save(update_fields=["state"])
    _keep_standing_of(locked)
    if locked.link_id and not OutgoingMail.objects.filter(link=locked.link_id).exclude(state=State.WITHDRAWN):
        CustomerLink.objects.filter(pk=locked.link_id, revoked_at=None).update(revoked_at=timezone.now())


def withdraw_earlier(quote: Quote) -> int:
    """Withdraw what still waits or failed with an older link to a quote; a newer message takes its place."""
    unsent = OutgoingMail.objects.filter(about__quote=quote, link__isnull=False, state__in=UNSENT)
    withdrawn = unsent.update(state=State.WITHDRAWN, last_error="A newer message took its place.")
    keep_standing(quote)
    return withdrawn


def mail_about(quote: Quote) -> QuerySet[OutgoingMail]:
    """Return the latest messages about a quote."""
    return (
        OutgoingMail.objects.filter(about__quote=quote)
        .select_related("about")
        .defer("text", "about__issued")[:SHOWN]
    )


def one_line(field: str, written: str, *, blank: bool = False) -> str:
    """Return a line of a message's head; a line break in one would begin another header."""
    line = written.strip()
    if any(unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp") for sign in line):
        raise MailRefused(field, f"The {field} must be one line, without control characters.")
    if not line and not blank:
        raise MailRefused(field, f"The {field} is missing.")
    longest = OutgoingMail._meta.get_field("to_name" if field == "name" else "subject").max_length
    if len(line) > longest:
        raise MailRefused(field, f"The {field} must be at most {longest} letters.")
    return line


def _address(written: str) -> str:
    """Return an address as every mail server takes it: its domain in the letters of the wire."""
    local, _, domain = written.strip().rpartition("@")
    try:
        address = f"{local}@{domain.encode('idna').decode('ascii')}"
        local.encode("ascii")
        validate_email(address)
    except (UnicodeError, ValidationError):
        raise MailRefused(
            "address", "The address must be one e-mail address such as name@example.com."
        ) from None
    return address


def _plain_text(written: str) -> str:
    text = "\n".join(line.rstrip() for line in written.splitlines()).strip()
    if not text:
        raise MailRefused("text", "The text is missing.")
    if any(unicodedata.category(sign) in ("Cc", "Cs") and sign not in "\n\t" for sign in text):
        raise MailRefused("text", "The text must be plain, without control characters.")
    return f"{text}\n"


def _require_readable(attachment: Attachment) -> None:
    one_line("subject", attachment.filename)
    try:
        read_paper(attachment.sha256)
    except FileDamaged as damaged:
        raise MailRefused("attachments", str(damaged)) from damaged


def _keep_standing_of(mail: OutgoingMail) -> None:
    """Whose turn it is on a quote hangs on whether the mail about it went."""
    if mail.about is not None:
        keep_standing(mail.about.quote)


def _locked_unsent(mail: OutgoingMail) -> OutgoingMail:
    locked = OutgoingMail.objects.select_for_update().get(pk=mail.pk)
    if locked.state not in UNSENT:
        raise MailRefused("state", f"This message is {locked.get_state_display().lower()}: nothing was done.")
    return locked


def _new_message_id() -> str:
    domain = parseaddr(settings.DEFAULT_FROM_EMAIL)[1].rpartition("@")[2] or "localhost"
    return f"<{secrets.token_hex(16)}@{domain.encode('idna').decode('ascii')}>"
