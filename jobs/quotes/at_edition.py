"""What the open quotes would cost at another edition of the price book, worked out by the core."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from django.db.models import QuerySet

from estimating.estimate import estimate
from estimating.json_forms import choices_from_json, survey_from_json
from estimating.price_book import PriceBook
from estimating.refusals import Refusal
from jobs.layouts.store import LayFromStore
from jobs.price_books.as_price_book import as_price_book
from jobs.price_books.models import Edition
from jobs.quotes.drafts.terms import for_customer
from jobs.quotes.frozen import frozen_choices
from jobs.quotes.models import Revision
from jobs.store.at_hand import boards_at_hand
from jobs.surveys.as_measured import requirement_in_words, survey_as_measured

OPEN = (Revision.State.DRAFT, Revision.State.ISSUED)


@dataclass(frozen=True, slots=True)
class AtEdition:
    """The price of one open quote now and at another edition, with VAT; `why_not` says why one is missing."""

    revision: Revision
    now: Decimal | None
    then: Decimal | None
    why_not: str = ""

    @property
    def difference(self) -> Decimal | None:
        """What it would cost more, or less."""
        return self.then - self.now if self.now is not None and self.then is not None else None


def open_revisions() -> QuerySet[Revision]:
    """Return the drafts and the offers that nobody has settled, newest first."""
    found = Revision.objects.filter(state__in=OPEN).order_by("-made_at", "-pk")
    return found.select_related("quote__survey", "quote__property__customer", "edition")


def at_edition(revisions: list[Revision], edition: Edition) -> list[AtEdition]:
    """Work out each revision at an edition, and drafts at their own too; an offer's price stands frozen."""
    books = {edition.pk: as_price_book(edition)}
    return [_at_edition(revision, edition, books) for revision in revisions]


def _at_edition(revision: Revision, edition: Edition, books: dict[int, PriceBook]) -> AtEdition:
    now = revision.total
    try:
        if revision.is_draft:
            own = revision.edition
            if own.pk not in books:
                books[own.pk] = as_price_book(own)
            now = _gross(revision, books[own.pk])
            if own == edition:
                return AtEdition(revision, now, now)
        return AtEdition(revision, now, _gross(revision, books[edition.pk]))
    except Refusal as refused:
        return AtEdition(revision, now, None, "; ".join(requirement_in_words(each) for each in refused.each))


def _gross(revision: Revision, book: PriceBook) -> Decimal:
    """Price a draft as it stands, or an offer from what it froze, with the same options taken."""
    if revision.is_draft:
        survey = survey_as_measured(revision.quote.survey)
        choices = choices_from_json(revision.choices)
        choices = for_customer(choices, revision.quote.property.customer)
        choices = replace(choices, store=boards_at_hand() if revision.use_store else ())
    else:
        survey, choices = survey_from_json(revision.issued["survey"]), frozen_choices(revision)
    return estimate(survey, book, choices, lay=LayFromStore()).price.totals.gross
