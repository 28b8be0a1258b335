"""The paper of a customer's rights: how to cancel, the form for it, and what the law wants told."""

from __future__ import annotations

from typing import Any

from django.utils import timezone

from jobs.documents.render import pdf_from_template
from jobs.quotes.models import Revision
from jobs.quotes.rights.told import rights_of


def rights_pdf(revision: Revision) -> bytes:
    """Return the paper of a revision whose frozen copy is made."""
    return pdf_from_template("documents/rights.html", rights_context(revision))


def rights_context(revision: Revision) -> dict[str, Any]:
    """Return what the paper says, from the frozen copy alone."""
    issuer = revision.issued_by
    return {
        "firm": revision.issued["firm"],
        "customer": revision.issued["customer"],
        "number": revision.quote.number,
        "letter": revision.letter,
        "issued_on": timezone.localdate(revision.issued_at) if revision.issued_at else timezone.localdate(),
        "issued_by": (issuer.get_full_name() or issuer.username) if issuer else "",
        "rights": rights_of(revision),
    }
