"""A quote by mail: the link in the text, the paper beside it."""

from __future__ import annotations

import secrets
from collections.abc import Sequence

from django.contrib.auth.models import User
from django.db import transaction

from jobs.firm.models import Firm
from jobs.mail.models import OutgoingMail
from jobs.mail.services import (
    LINK_PLACE,
    Attachment,
    LinkInText,
    Recipient,
    queue_mail,
    withdraw_earlier,
)
from jobs.quotes.customer.links import derived_token, make_link, token_digest
from jobs.quotes.customer.models import CustomerLink
from jobs.quotes.drafts.services import locked_revisions
from jobs.quotes.models import Quote, Revision
from jobs.quotes.services import standing_revision


def suggested_subject(revision: Revision, firm: Firm) -> str:
    """Return the subject that the office may change."""
    return f"Your quote {revision} from {firm.name}"


def suggested_text(revision: Revision, firm: Firm, *, by: User) -> str:
    """Return the words that the office may change."""
    place = revision.quote.property
    held = revision.valid_until
    until = f"It holds until {held.day} {held:%B %Y}." if held else ""
    rights = ", and another tells you your rights" if revision.rights_sha256 else ""
    signed = "\n".join(line for line in (by.get_full_name(), firm.name, firm.phone) if line)
    return f"""Dear {place.customer.name},

Here is our quote {revision} for {place}:

{LINK_PLACE}

The page shows the price with everything in it, the drawings and the options. You can ask us questions \
there, and accept or decline. {until} The same quote is attached as a PDF{rights}.

The link is meant for you alone: whoever has it can read and accept the quote.

Kind regards
{signed}
"""


@transaction.atomic
def mail_quote(  # noqa: PLR0913 - a letter's parts, and all are named
    quote: Quote, *, to: Sequence[Recipient], subject: str, text: str, by: User, once: str
) -> list[OutgoingMail]:
    """Queue the standing revision for each recipient, with one new link for all of them; older links end.

    `once` names the act: pressed twice, the second finds what the first queued, and its link still opens.
    """
    locked_revisions(quote)  # before anything of the quote itself, as every service that moves one
    queued = list(OutgoingMail.objects.filter(once__startswith=f"{once} ", about__quote=quote))
    if queued:
        return queued
    revision = standing_revision(quote)
    withdraw_earlier(quote)
    seed = secrets.token_hex(16)
    token = make_link(revision, by=by, token=derived_token(seed))
    link = LinkInText(CustomerLink.objects.get(digest=token_digest(token)), seed)
    papers = [Attachment(f"Quote {revision}.pdf", revision.paper_sha256)]
    if revision.rights_sha256:
        papers.append(Attachment(f"Your rights {revision}.pdf", revision.rights_sha256))
    return [
        queue_mail(
            to=recipient,
            subject=subject,
            text=text,
            attachments=papers,
            about=revision,
            by=by,
            link=link,
            once=f"{once} {place}",
        )
        for place, recipient in enumerate(to, start=1)
    ]
