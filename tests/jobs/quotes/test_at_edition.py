"""What an open quote would cost at another edition, told for each of its alternatives."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from django.urls import reverse

from jobs.price_books.models import Edition
from jobs.price_books.services import copy_edition
from jobs.quotes.alternatives import alternatives_of
from jobs.quotes.at_edition import WayAtEdition, at_edition, in_pages
from jobs.quotes.drafts.alternatives import add_alternative, rename_alternative
from jobs.quotes.drafts.services import change_draft, draft_quote, estimate_draft
from jobs.quotes.models import Revision
from jobs.quotes.services import issue_revision
from jobs.templatetags.shown import pounds

pytestmark = pytest.mark.django_db


def deeper_and_smaller(draft: Revision) -> None:
    """Give a draft a second way to do the job, dearer in wool, and a third without any."""
    for name, changes in (
        ("More wool", {"target_u_w_m2k": Decimal("0.14")}),
        ("No wool", dict.fromkeys(("parts", "optional_parts", "taken_parts"), frozenset())),
    ):
        number = add_alternative(draft, name=name)
        draft.refresh_from_db()
        change_draft(
            draft,
            choices=replace(alternatives_of(draft)[number].choices, **changes),
            introduction="",
            alternative=number,
        )
        draft.refresh_from_db()
    rename_alternative(draft, 0, name="As advised")
    draft.refresh_from_db()


@pytest.fixture
def three_ways(draft) -> Revision:
    deeper_and_smaller(draft)
    return draft


@pytest.fixture
def following(edition) -> Edition:
    return copy_edition(edition, name="Winter", dated=date(2026, 12, 1))


def ways_of(revision: Revision, edition: Edition) -> tuple[WayAtEdition, ...]:
    (row,) = at_edition([revision], edition)
    return row.ways


def test_each_alternative_of_a_draft_or_an_offer_is_priced(three_ways, following, office):
    following.products.filter(role="insulation roll").update(pack_cost=Decimal("60.00"))
    as_draft = ways_of(three_ways, following)
    for number, way in enumerate(as_draft):
        assert way.now == estimate_draft(three_ways, alternative=number).price.totals.gross
    issue_revision(three_ways, by=office)
    three_ways.refresh_from_db()
    ways = ways_of(three_ways, following)
    assert ways == as_draft
    assert [way.name for way in ways] == ["As advised", "More wool", "No wool"]
    assert ways[0].now == three_ways.total
    assert ways[1].difference > ways[0].difference > ways[2].difference == 0


def test_a_page_holds_as_many_quotes_as_there_is_room_for_their_alternatives(three_ways, office):
    ones = [draft_quote(three_ways.quote.survey, by=office).pk for _ in range(4)]
    newest_first = [*reversed(ones), three_ways.pk]
    assert in_pages(ways_a_page=7) == [newest_first]
    assert in_pages(ways_a_page=6) == [newest_first[:4], [three_ways.pk]]
    assert in_pages(ways_a_page=3) == [newest_first[:3], newest_first[3:4], [three_ways.pk]]
    assert in_pages(ways_a_page=1) == [[key] for key in newest_first]
    Revision.objects.all().delete()
    assert in_pages(ways_a_page=7) == []


def test_the_page_tells_each_alternative_apart_and_says_of_each_why_not(
    three_ways, following, office, logged_in
):
    following.products.filter(role="insulation roll").delete()
    shown = logged_in(office).get(
        reverse("edition_against_quotes", args=[three_ways.edition_id, following.pk])
    )
    page = shown.content.decode()
    ways = shown.context["quotes"][0].ways
    assert [bool(way.why_not) for way in ways] == [True, True, False]
    assert f"{three_ways}, More wool, cannot be worked out: " in page
    for way in ways:
        assert f">{way.name}</th>" in page
        assert pounds(way.now) in page
