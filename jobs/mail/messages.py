"""A row of the outbox as the message that goes out: plain text, kept papers, nothing that follows anyone."""

from __future__ import annotations

from email.headerregistry import Address
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import format_datetime, parseaddr

from django.conf import settings
from django.urls import reverse
from django.utils import timezone

from jobs.documents.papers import SUFFIX, read_paper
from jobs.firm.models import Firm
from jobs.mail.models import OutgoingMail
from jobs.mail.services import LINK_PLACE
from jobs.quotes.customer.links import derived_token, token_digest

ON_ANY_LINE = SMTP.clone(cte_type="7bit")
"""Not every server takes letters of eight bits, and a £ or a ŵ is in most messages."""


class LinkNotOurs(Exception):
    """The token worked out is not the link's: the site's secret key has changed since."""


def message_of(mail: OutgoingMail) -> EmailMessage:
    """Return the message, with the same words, papers and Message-ID at every try."""
    firm = Firm.ours()
    message = EmailMessage(policy=ON_ANY_LINE)
    message["From"] = Address(firm.name, addr_spec=sender())
    message["To"] = Address(mail.to_name, addr_spec=mail.to_address)
    if firm.email and firm.email != sender():
        message["Reply-To"] = Address(firm.name, addr_spec=firm.email)
    message["Subject"] = mail.subject
    message["Date"] = format_datetime(timezone.localtime(mail.made_at))
    message["Message-ID"] = mail.message_id
    message.set_content(_text(mail), cte="quoted-printable")
    for attachment in mail.attachments:
        message.add_attachment(
            read_paper(attachment["sha256"]),
            maintype="application",
            subtype=SUFFIX.removeprefix("."),
            filename=attachment["filename"],
        )
    message.as_bytes()  # what cannot be written must be found out before a server is spoken to
    return message


def sender() -> str:
    """Return the site's own address, which a bounce comes back to."""
    return parseaddr(settings.DEFAULT_FROM_EMAIL)[1]


def _text(mail: OutgoingMail) -> str:
    if mail.link is None:
        return mail.text
    token = derived_token(mail.link_seed)
    if token_digest(token) != mail.link.digest:
        raise LinkNotOurs
    return mail.text.replace(LINK_PLACE, settings.BASE_URL + reverse("customer_exchange", args=[token]))
