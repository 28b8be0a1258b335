"""Two editions line by line, and what every open quote would cost at the other one."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from django.urls import reverse

from jobs.price_books.comparing import A_PIECE, Change, compare_editions
from jobs.price_books.models import Edition
from jobs.price_books.services import copy_edition
from jobs.quotes.at_edition import WayAtEdition, at_edition, open_revisions
from jobs.quotes.drafts.services import draft_quote
from jobs.quotes.models import Revision
from tests.jobs.offers import make_offer, worked_loft

pytestmark = pytest.mark.django_db


@pytest.fixture
def following(edition) -> Edition:
    return copy_edition(edition, name="Winter", dated=date(2026, 12, 1))


def in_words(change: Change) -> str:
    return f"{change.label}: {change.before} → {change.after} {change.per_cent_in_words}".strip()


def lines_of(edition: Edition, following: Edition) -> dict[str, dict[str, tuple[str, ...]]]:
    return {
        part.title: {
            line.name: (line.outcome, *(in_words(change) for change in line.changes)) for line in part.lines
        }
        for part in compare_editions(edition, following)
    }


def ways_of(revision: Revision, edition: Edition) -> tuple[WayAtEdition, ...]:
    (row,) = at_edition([revision], edition)
    return row.ways


def test_a_copy_differs_in_nothing(edition, following):
    assert compare_editions(edition, following) == []


def test_what_was_added_is_gone_or_changed_is_told_line_by_line(edition, following):
    wool = following.products.get(code="WOOL-100")
    wool.pack_cost, wool.checked_on = Decimal("25.93"), date(2026, 11, 20)
    wool.dimensions |= {"conductivity_w_mk": "0.040"}
    wool.save()
    following.products.filter(code="LADDER-2").delete()
    added = following.products.get(code="LADDER-3")
    added.pk, added.code, added.description = None, "LADDER-4", "A better ladder"
    added.save()
    following.products.filter(code="PED-125").update(code="P-125-NEW")
    following.products.filter(code="SCR-BOARD").update(pack_size=100)
    following.labour_rates.filter(task="saw boards").update(hours=Decimal("0.06"))
    following.condition_rates.filter(condition="crawling height").delete()
    following.charges.filter(code="VAN").update(amount=Decimal("0.66"))
    following.percent = Decimal(30)
    following.save()
    for each in (edition, following):
        each.refresh_from_db()
    assert lines_of(edition, following) == {
        "Pricing": {"How it prices": ("changed", "Per cent: 32.00 → 30.00")},
        "Pedestal": {"Pedestal 125 mm, box of 12": ("changed", "Code: PED-125 → P-125-NEW")},
        "Screw": {
            "Board screw 4.2 × 45 mm, box of 200": (
                "changed", "Pieces in a pack: 200 → 100 −50 %", f"{A_PIECE}: 0.0430 → 0.0860 +100 %",
            )
        },
        "Insulation roll": {
            "Glass wool roll 100 mm": (
                "changed", "Cost of one pack, £: 23.90 → 25.93 +8.5 %",
                "Price checked on: 1 Nov 2026 → 20 Nov 2026",
                "Conductivity, W/mK: 0.044 → 0.040 −9.1 %",
            )
        },
        "Ladder": {"Two-section sliding ladder with handrail": ("gone",), "A better ladder": ("added",)},
        "Labour": {"saw boards": ("changed", "Person-hours for one: 0.080 → 0.060 −25 %")},
        "What makes work slower": {"crawling height": ("gone",)},
        "Charges": {"Van and travel": ("changed", "Amount, £: 0.55 → 0.66 +20 %")},
    }  # fmt: skip


def test_a_dimension_that_an_older_row_never_had_is_no_change(edition, following):
    for row in following.products.filter(role="pedestal"):
        row.dimensions.pop("top_plate_mm", None)
        row.save()
    assert compare_editions(edition, following) == []


def test_the_earlier_edition_is_asked_for_first_and_the_page_names_the_changes(
    edition, following, office, logged_in
):
    following.products.filter(code="WOOL-100").update(pack_cost=Decimal("25.93"))
    client = logged_in(office)
    chosen = client.get(reverse("edition_against_chosen", args=[following.pk]), {"other": edition.pk})
    assert chosen.url == reverse("edition_against", args=[edition.pk, following.pk])
    shown = client.get(chosen.url).content.decode()
    assert "+8.5 %" in shown
    for nonsense in ("", "x", "²", "99999"):
        address = reverse("edition_against_chosen", args=[edition.pk])
        assert client.get(address, {"other": nonsense}).status_code == 404


@pytest.fixture
def offered(edition, survey, office) -> Revision:
    """An offer frozen at the core's own price book, and by its rows at the edition."""
    return make_offer(survey, office, worked=worked_loft())


def test_an_offer_is_worked_out_from_what_it_froze_with_the_same_options(offered, following):
    row = ways_of(offered, following)[0]
    assert row.now == offered.total
    following.hourly_cost += 10
    following.save()
    dearer = ways_of(offered, following)[0]
    assert dearer.now == offered.total
    assert dearer.then > row.then
    assert dearer.difference == dearer.then - offered.total


def test_only_open_quotes_are_listed_and_the_newest_first(offered, survey, office):
    second = make_offer(survey, office)
    third = make_offer(survey, office)
    assert list(open_revisions()) == [third, second, offered]
    Revision.objects.filter(pk=second.pk).update(state=Revision.State.DECLINED)
    assert list(open_revisions()) == [third, offered]


def test_a_draft_that_cannot_be_worked_out_says_why(edition, following, survey, office, logged_in):
    draft = draft_quote(survey, by=office)
    row = ways_of(draft, following)[0]
    assert (row.now, row.then, row.difference) == (None, None, None)
    assert row.why_not
    address = reverse("edition_against_quotes", args=[edition.pk, following.pk])
    assert "cannot be worked out" in logged_in(office).get(address).content.decode()


def test_an_edition_that_cannot_be_read_says_what_it_lacks(edition, following, offered, office, logged_in):
    wool = following.products.get(code="WOOL-100")
    wool.dimensions.pop("thickness_mm")
    wool.save()
    address = reverse("edition_against_quotes", args=[edition.pk, following.pk])
    shown = logged_in(office).get(address).content.decode()
    assert "Glass wool roll 100 mm: thickness, mm is missing" in shown


def test_open_quotes_come_in_pages_of_ten(offered, following, office, logged_in, monkeypatch):
    for _ in range(10):
        make_offer(offered.quote.survey, office)
    asked: list[int] = []
    monkeypatch.setattr(
        "jobs.price_books.comparing_views.at_edition", lambda rows, _edition: asked.append(len(rows)) or []
    )
    client = logged_in(office)
    address = reverse("edition_against_quotes", args=[offered.edition_id, following.pk])
    client.get(address)
    client.get(address, {"page": 2})
    assert asked == [10, 1]


def test_surveyor_and_crew_compare_nothing(edition, following, surveyor, crew, logged_in):
    for person in (surveyor, crew):
        client = logged_in(person)
        for name in ("edition_against", "edition_against_quotes"):
            assert client.get(reverse(name, args=[edition.pk, following.pk])).status_code == 403
        assert client.get(reverse("edition_against_chosen", args=[edition.pk])).status_code == 403
