"""The quote as a paper: what is offered, what it costs all-in, and on what terms."""

from __future__ import annotations

from typing import Any

from django.utils import timezone

from estimating.drawing.plan import plan
from estimating.drawing.section import section
from jobs.documents.drawing_sizes import IN_THE_TEXT, ON_ITS_OWN_SHEET, UNDER_A_CAPTION
from jobs.documents.for_the_customer import what_to_know
from jobs.documents.quote_alternatives import alternatives_context
from jobs.documents.quote_told import named_drawing
from jobs.documents.render import pdf_from_template
from jobs.documents.warnings import warnings_of
from jobs.firm.as_printed import insurances_held
from jobs.quotes.frozen import frozen_estimate, frozen_told, price_with, taken_parts
from jobs.quotes.models import Revision
from jobs.quotes.options import options_of
from jobs.quotes.rights.told import rights_of


def quote_pdf(revision: Revision) -> bytes:
    """Return the paper of a revision whose frozen copy is made."""
    return pdf_from_template("documents/quote.html", quote_context(revision))


def quote_context(revision: Revision) -> dict[str, Any]:
    """Return what a quote says, from the frozen copy alone."""
    issued, taken = revision.issued, taken_parts(revision)
    worked, price = frozen_estimate(revision), price_with(revision, taken)
    told, issuer, others = frozen_told(revision), revision.issued_by, alternatives_context(revision)
    sheet = UNDER_A_CAPTION if others.get("alternatives") else ON_ITS_OWN_SHEET
    return {
        "firm": issued["firm"],
        "insurances": insurances_held(issued["firm"]),
        "customer": issued["customer"],
        "rights": rights_of(revision),
        "changed": issued.get("changed"),
        "number": revision.quote.number,
        "letter": revision.letter,
        "issued_on": timezone.localdate(revision.issued_at) if revision.issued_at else timezone.localdate(),
        "issued_by": (issuer.get_full_name() or issuer.username) if issuer else "",
        "holds_until": revision.valid_until,
        "price": price,
        "shows_vat": worked.price_book.pricing.vat_registered,
        "with_vat": worked.price_book.pricing.vat_registered and price.reverse_charge is None,
        "lines": [line for line in price.lines if line.counted],
        "options": options_of(revision, taken),
        "plan": named_drawing(plan(worked.survey, worked.design, drawn_for=sheet), told["plan_in_words"]),
        "section": named_drawing(
            section(worked.survey, worked.design, worked.checks, drawn_for=IN_THE_TEXT),
            told["section_in_words"],
        ),
        "heat": worked.checks.heat,
        "to_know": [(question, warnings_of(found)) for question, found in what_to_know(worked.checks)],
        **told,
        **others,
        "opening": issued["introduction"] or told["opening"],
    }
