"""The whole working of a quote as a paper for the office: every figure with its numbers, costs among them."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from django.utils import timezone

from estimating.estimate import Estimate
from estimating.working_in_steps import working_in_steps
from jobs.documents.render import pdf_from_template
from jobs.firm.models import Firm
from jobs.quotes.drafts.services import estimate_draft
from jobs.quotes.frozen import frozen_estimate, price_with, taken_parts
from jobs.quotes.models import Revision


def working_pdf(revision: Revision, *, made_by: str, alternative: int | None = None) -> bytes:
    """Return the working as a paper; a draft is worked out as it stands now."""
    context = working_context(revision, made_by=made_by, alternative=alternative)
    return pdf_from_template("documents/working.html", context)


def working_context(revision: Revision, *, made_by: str, alternative: int | None = None) -> dict[str, Any]:
    """Return every figure of one alternative of a revision under the steps of the work."""
    worked = (
        estimate_draft(revision, alternative=alternative or 0)
        if revision.is_draft
        else _as_issued(revision, alternative)
    )
    quote = revision.quote
    return {
        "firm": revision.issued["firm"] if revision.issued else Firm.ours(),
        "number": quote.number,
        "letter": revision.letter,
        "state": revision.get_state_display(),
        "place": quote.property,
        "survey": quote.survey,
        "edition": revision.edition,
        "made_on": timezone.localdate(revision.issued_at) if revision.issued_at else timezone.localdate(),
        "made_by": made_by,
        "steps": working_in_steps(worked),
    }


def _as_issued(revision: Revision, alternative: int | None) -> Estimate:
    """Return what was frozen, with the options that count now."""
    price = price_with(revision, taken_parts(revision, alternative), alternative)
    return replace(frozen_estimate(revision, alternative), price=price)
