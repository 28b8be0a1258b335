"""The quote as a paper: what is offered, what it costs all-in, and on what terms."""

from __future__ import annotations

from typing import Any

from django.utils import timezone

from estimating.drawing.plan import plan
from estimating.drawing.section import section
from estimating.estimate import Estimate
from jobs.documents import quote_words
from jobs.documents.drawing_sizes import IN_THE_TEXT, ON_ITS_OWN_SHEET
from jobs.documents.for_the_customer import heat_told, room_told, saving_in_words, what_to_know
from jobs.documents.render import pdf_from_template
from jobs.documents.warnings import warnings_of
from jobs.firm.as_printed import insurances_held
from jobs.quotes.frozen import frozen_estimate, price_with, taken_parts
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
    issuer = revision.issued_by
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
        "opening": issued["introduction"] or quote_words.opening_words(worked),
        "price": price,
        "shows_vat": worked.price_book.pricing.vat_registered,
        "lines": [line for line in price.lines if line.counted],
        "options": options_of(revision, taken),
        "plan": plan(worked.survey, worked.design, drawn_for=ON_ITS_OWN_SHEET),
        "section": section(worked.survey, worked.design, worked.checks, drawn_for=IN_THE_TEXT),
        "heat": worked.checks.heat,
        "heat_told": heat_told(worked.checks),
        "saving": saving_in_words(worked.checks),
        "room_told": room_told(worked.checks, worked.design.gap_above_insulation_mm),
        "to_know": [(question, warnings_of(found)) for question, found in what_to_know(worked.checks)],
        **_words(worked),
    }


def _words(worked: Estimate) -> dict[str, Any]:
    return {
        "what_we_do": quote_words.what_we_do(worked),
        "what_we_do_not": quote_words.what_we_do_not(worked),
        "what_the_customer_does": quote_words.WHAT_THE_CUSTOMER_DOES,
        "what_could_change": quote_words.WHAT_COULD_CHANGE_THE_PRICE,
        "who_else": quote_words.WHO_ELSE_MUST_BE_ASKED,
        "squashed_words": quote_words.SQUASHED,
    }
