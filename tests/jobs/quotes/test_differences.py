"""What a newer revision offers otherwise is told once and in words; what did not change is not."""

from __future__ import annotations

import copy
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from django.template.loader import render_to_string
from django.urls import reverse

from jobs.documents.quote import quote_context
from jobs.firm.models import Firm
from jobs.quotes.changed import changed_in
from jobs.quotes.differences import Difference, differences
from jobs.quotes.frozen import freeze
from jobs.quotes.models import Revision
from tests.jobs.offers import NOT_A_PAPER, make_offer, worked_loft


@pytest.fixture
def issued(offer) -> dict[str, Any]:
    return offer.issued


def changed_copy(issued: dict[str, Any]) -> dict[str, Any]:
    return copy.deepcopy(issued)


def subjects(earlier: dict[str, Any], later: dict[str, Any]) -> list[str]:
    return [each.subject for each in differences(earlier, later)]


def test_nothing_is_told_of_two_that_are_the_same(issued):
    assert differences(issued, changed_copy(issued)) == ()


def test_a_price_is_told_as_it_was_and_as_it_is(issued):
    later = changed_copy(issued)
    later["estimate"]["price"]["totals"]["gross"] = "2000.00"
    was = f"£{Decimal(issued['estimate']['price']['totals']['gross']):,.2f}"
    assert differences(issued, later) == (Difference("Price, everything included", was, "£2,000.00"),)


def test_options_added_taken_away_and_dearer_are_told_apart(issued):
    later = changed_copy(issued)
    lines = {line["part"]: line for line in later["estimate"]["price"]["lines"]}
    lines["ladder"]["net"]["value"] = "300.00"
    lines["light"]["counted"] = True
    lines["edge trim"]["optional"] = True
    later["estimate"]["price"]["lines"] = [
        line for part, line in lines.items() if part != "draught strip"
    ] + [lines["ladder"] | {"part": "shelves"}]
    found = {each.subject: each for each in differences(issued, later)}
    assert set(found) == {"Ladder", "Light", "Edge trim", "Draught strip", "Shelves"}
    assert found["Ladder"].after == "£360.00, option, not in the price"
    assert found["Light"].after.endswith("option, taken")
    assert found["Draught strip"].after == "not offered"
    assert found["Shelves"].before == "not offered"


def test_deck_boards_heat_and_words_are_told(issued):
    later = changed_copy(issued)
    later["estimate"]["design"]["deck_area_m2"]["value"] = "12.04"
    later["estimate"]["checks"]["heat"]["as_proposed"]["value"] = "0.1312"
    for purchase in later["estimate"]["quantities"]["purchases"]:
        if purchase["role"] == "board":
            purchase["description"] = "chipboard 1220 × 320 × 18 mm"
    later["introduction"] = "As we spoke on the telephone."
    later["firm"]["terms"] = "New terms."
    later["firm"]["bank_account_number"] = "11111111"
    found = {each.subject: (each.before, each.after) for each in differences(issued, later)}
    assert found == {
        "Deck laid": ("15.2 m²", "12.0 m²"),
        "Boards": ("chipboard 2400 × 600 × 22 mm", "chipboard 1220 × 320 × 18 mm"),
        "U-value under the deck, W/m²K": ("0.16", "0.13"),
        "Opening words": ("", "These are new."),
        "Our terms": ("", "These are written anew."),
        "Where to pay": ("", "Another account. Ring us before you pay, to be sure it is ours."),
    }


def test_until_when_each_holds_is_told(issued):
    days = date(2026, 12, 1), date(2027, 1, 5)
    found = differences(issued, issued, held_until=days[0], holds_until=days[1])
    assert found == (Difference("Holds until", "1 December 2026", "5 January 2027"),)


def test_what_an_older_copy_did_not_keep_is_not_told_as_changed(issued):
    older = changed_copy(issued)
    for name in ("alternatives", "name", "introduction", "changed", "rights"):
        older.pop(name, None)
    older["firm"] = {"name": issued["firm"]["name"], "address": issued["firm"]["address"]}
    del older["estimate"]["price"]["stages"]
    del older["estimate"]["checks"]["heat"]["as_proposed"]
    assert subjects(older, issued) == []
    assert subjects(issued, older) == ["Our terms", "Where to pay"] or subjects(issued, older) == [
        "Our terms"
    ]


def test_ways_to_do_the_job_are_compared_by_name(issued):
    way = {name: issued[name] for name in ("choices", "estimate", "drawings")}
    two = {**changed_copy(issued), "name": "Whole middle", "alternatives": [{"name": "Smaller", **way}]}
    assert subjects(two, changed_copy(two)) == []
    three = changed_copy(two)
    three["alternatives"][0]["estimate"]["design"]["deck_area_m2"]["value"] = "9.00"
    three["alternatives"].append({"name": "Warmer", **way})
    told = {each.subject: (each.before, each.after) for each in differences(two, three)}
    price = f"£{Decimal(issued['estimate']['price']['totals']['gross']):,.2f}"
    assert told == {"Smaller: Deck laid": ("15.2 m²", "9.0 m²"), "Warmer": ("not offered", price)}
    assert [each.after for each in differences(three, two)][-1] == "not offered"
    assert subjects(issued, two) == ["Smaller"]
    assert subjects(two, issued) == ["Smaller"]


@pytest.fixture
def second(offer, office) -> Revision:
    """Return revision B of the offer, of another loft's deck, frozen as the service does it."""
    Revision.objects.filter(pk=offer.pk).update(state=Revision.State.SUPERSEDED)
    revision = Revision(
        quote=offer.quote, letter="B", edition=offer.edition, made_by=office, issued_by=office
    )
    revision.issued_at, revision.valid_until = offer.issued_at, offer.valid_until
    worked = worked_loft("bungalow")
    revision.issued = freeze(revision, worked, Firm.ours())
    revision.total, revision.paper_sha256 = worked.price.totals.gross, NOT_A_PAPER
    revision.state = Revision.State.ISSUED
    revision.save()
    return revision


def test_what_changed_is_kept_with_the_revision_that_changed_it(offer, second):
    assert offer.issued["changed"] is None
    kept = changed_in(second)
    assert kept is not None
    assert kept.since == "A"
    assert kept.differences == differences(offer.issued, second.issued)
    assert {"Price, everything included", "Deck laid"} <= {each.subject for each in kept.differences}
    Revision.objects.filter(pk=offer.pk).update(issued={})
    assert quote_context(second)["changed"]["differences"][0]["subject"] == "Price, everything included"


def test_the_first_revision_has_nothing_to_tell(offer):
    assert changed_in(offer) is None
    assert "What changed" not in render_to_string("documents/quote.html", quote_context(offer))


def test_the_customer_reads_on_the_paper_what_changed(offer, second):
    paper = render_to_string("documents/quote.html", quote_context(second))
    assert "What changed since revision A" in paper
    assert "<td>15.2 m²</td>" in paper


def test_the_office_reads_on_the_page_what_changed(offer, second, office, logged_in):
    address = reverse("revision", args=[offer.quote.number, "B"])
    page = logged_in(office).get(address).content.decode()
    assert "what changed since revision A" in page
    assert "15.2 m²" in page
    first = logged_in(office).get(reverse("revision", args=[offer.quote.number, "A"])).content.decode()
    assert "what changed since" not in first


def test_an_older_revision_without_what_changed_is_compared_when_it_is_looked_at(offer, second):
    del second.issued["changed"]
    second.save()
    found = changed_in(second)
    assert found is not None
    assert found.since == "A"
    assert found.differences


def test_another_quote_is_never_compared_with(offer, survey, office):
    other = make_offer(survey, office, worked=worked_loft("bungalow"))
    assert other.issued["changed"] is None
