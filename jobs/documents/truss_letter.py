"""The letter to the designer of trussed rafters: what is to be laid on them, and what we ask."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from django.utils import timezone

from estimating.checks.structure.truss_designer import told_to_the_truss_designer
from estimating.survey import RoofKind
from jobs.documents.render import pdf_from_template
from jobs.firm.as_printed import firm_as_printed
from jobs.firm.models import Firm
from jobs.quotes.drafts.services import estimate_draft
from jobs.quotes.frozen import frozen_estimate
from jobs.quotes.models import Revision


class NotTrussed(Exception):
    """The roof has no trussed rafters, so that there is no designer to ask; the message says so."""


def truss_letter_pdf(revision: Revision, *, made_by: str, alternative: int | None = None) -> bytes:
    """Return the letter as a paper; a draft is worked out as it stands now."""
    context = truss_letter_context(revision, made_by=made_by, alternative=alternative)
    return pdf_from_template("documents/truss_letter.html", context)


def truss_letter_context(
    revision: Revision, *, made_by: str, alternative: int | None = None
) -> dict[str, Any]:
    """Return what the letter says of one alternative: every line with where it came from, under its part."""
    worked = (
        estimate_draft(revision, alternative=alternative or 0)
        if revision.is_draft
        else frozen_estimate(revision, alternative)
    )
    if worked.survey.roof.kind is not RoofKind.TRUSSED:
        raise NotTrussed("This is a cut roof: it has no trussed rafters, so there is no designer to ask.")
    told = told_to_the_truss_designer(worked.survey, worked.price_book, worked.design)
    quote, today = revision.quote, timezone.localdate()
    return {
        "firm": revision.issued["firm"] if revision.issued else firm_as_printed(Firm.ours(), on=today),
        "number": quote.number,
        "letter": revision.letter,
        "place": quote.property,
        "visited_on": worked.survey.visited_on,
        "made_on": timezone.localdate(revision.issued_at) if revision.issued_at else today,
        "made_by": made_by,
        "to_store": quote.survey.answers.get("wishes", {}).get("to_store", ""),
        "parts": [(part, list(lines)) for part, lines in groupby(told, key=lambda each: each.part)],
    }
