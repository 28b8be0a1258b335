"""What the open quotes would cost at another edition of the price book, worked out by the core."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from django.db.models import QuerySet

from estimating.estimate import estimate
from estimating.json_forms import survey_from_json
from estimating.price_book import PriceBook
from estimating.refusals import Refusal
from jobs.layouts.store import LayFromStore
from jobs.price_books.as_price_book import as_price_book
from jobs.price_books.models import Edition
from jobs.quotes.alternatives import alternatives_of
from jobs.quotes.drafts.terms import for_customer
from jobs.quotes.frozen import alternative_names, frozen_choices, price_with
from jobs.quotes.models import Revision
from jobs.store.at_hand import boards_at_hand
from jobs.surveys.as_measured import requirement_in_words, survey_as_measured

OPEN = (Revision.State.DRAFT, Revision.State.ISSUED)


@dataclass(frozen=True, slots=True)
class WayAtEdition:
    """One alternative's price now and at another edition, with VAT; `why_not` says why one is missing."""

    name: str
    now: Decimal | None
    then: Decimal | None
    why_not: str = ""

    @property
    def difference(self) -> Decimal | None:
        """What it would cost more, or less."""
        return self.then - self.now if self.now is not None and self.then is not None else None


@dataclass(frozen=True, slots=True)
class AtEdition:
    """One open quote with each of its alternatives; an only one has no name of its own."""

    revision: Revision
    ways: tuple[WayAtEdition, ...]


def open_revisions() -> QuerySet[Revision]:
    """Return the drafts and the offers that nobody has settled, newest first."""
    found = Revision.objects.filter(state__in=OPEN).order_by("-made_at", "-pk")
    return found.select_related("quote__survey", "quote__property__customer", "edition")


def in_pages(*, ways_a_page: int) -> list[list[int]]:
    """Part the open revisions into pages by their keys, so that no page has to price more ways than that."""
    pages: list[list[int]] = []
    room = 0
    for key, others in open_revisions().values_list("pk", "alternatives"):
        ways = 1 + len(others)
        if not pages or ways > room:
            pages.append([])
            room = ways_a_page
        pages[-1].append(key)
        room -= ways
    return pages


def at_edition(revisions: list[Revision], edition: Edition) -> list[AtEdition]:
    """Work out each revision at an edition, and drafts at their own too; an offer's price stands frozen."""
    books = {edition.pk: as_price_book(edition)}
    found = []
    for revision in revisions:
        names = alternative_names(revision)
        ways = tuple(_way(revision, each, name, edition, books) for each, name in enumerate(names))
        found.append(AtEdition(revision, ways if len(ways) > 1 else (replace(ways[0], name=""),)))
    return found


def _way(
    revision: Revision, alternative: int, name: str, edition: Edition, books: dict[int, PriceBook]
) -> WayAtEdition:
    now = None if revision.is_draft else _as_offered(revision, alternative)
    try:
        if revision.is_draft:
            own = revision.edition
            if own.pk not in books:
                books[own.pk] = as_price_book(own)
            now = _gross(revision, alternative, books[own.pk])
            if own == edition:
                return WayAtEdition(name, now, now)
        return WayAtEdition(name, now, _gross(revision, alternative, books[edition.pk]))
    except Refusal as refused:
        why_not = "; ".join(requirement_in_words(each) for each in refused.each)
        return WayAtEdition(name, now, None, why_not)


def _as_offered(revision: Revision, alternative: int) -> Decimal:
    """Return what an offer asks for one alternative with the options it was offered with."""
    return price_with(revision, frozen_choices(revision, alternative).taken_parts, alternative).totals.gross


def _gross(revision: Revision, alternative: int, book: PriceBook) -> Decimal:
    """Price a draft as it stands, or an offer from what it froze, with the same options taken."""
    if revision.is_draft:
        survey = survey_as_measured(revision.quote.survey)
        choices = for_customer(
            alternatives_of(revision)[alternative].choices, revision.quote.property.customer
        )
        choices = replace(choices, store=boards_at_hand() if revision.use_store else ())
    else:
        survey = survey_from_json(revision.issued["survey"])
        choices = frozen_choices(revision, alternative)
    return estimate(survey, book, choices, lay=LayFromStore()).price.totals.gross
