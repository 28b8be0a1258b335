"""Alternatives on the quote's paper: side by side with their prices, and each whole with its own plan."""

from __future__ import annotations

import pytest

from estimating.choices import Part
from estimating.estimate import Estimate, estimate
from jobs.documents.quote import quote_context, quote_pdf
from jobs.documents.quote_words import what_we_do_not
from jobs.firm.models import Firm
from jobs.quotes.frozen import freeze
from jobs.quotes.models import Revision
from tests.documents.reading import pages
from tests.estimating import lofts
from tests.jobs.offers import make_offer

pytestmark = pytest.mark.django_db
NAMES = ["With a ladder", "On battens, lit"]


@pytest.fixture(scope="module")
def worked() -> list[Estimate]:
    survey, book = lofts.trussed_loft(), lofts.price_book()
    ladder = frozenset({Part.INSULATION, Part.LADDER, Part.HATCH, Part.DRAUGHT_STRIP})
    options = frozenset({Part.HATCH, Part.DRAUGHT_STRIP})
    return [
        estimate(survey, book, lofts.choices(parts=ladder, optional_parts=options)),
        estimate(
            survey, book, lofts.choices(parts=frozenset({Part.INSULATION, Part.LIGHT}), raise_with="battens")
        ),
    ]


@pytest.fixture
def offer(firm, survey, office, worked) -> Revision:
    made = make_offer(
        survey,
        office,
        worked=worked[0],
        alternative_name=NAMES[0],
        alternatives=[{"name": NAMES[1], "choices": {}}],
    )
    made.issued = freeze(made, worked[0], Firm.ours(), worked[1:])
    made.save()
    return made


def test_alternatives_stand_side_by_side_and_each_has_its_lines_and_its_plan(offer, worked):
    context = quote_context(offer)
    assert [each.picked.name for each in context["alternatives"]] == NAMES
    [other] = context["others"]
    assert other["price"].totals == worked[1].price.totals
    assert sum(line.net.value for line in other["lines"]) == other["price"].totals.net
    assert [each["names"] for each in context["plans"]] == [[NAMES[0]], [NAMES[1]]]
    assert other["section"] != context["section"]
    assert any("battens" in words for words in other["what_we_do"])


def test_the_paper_prints_both_prices_and_asks_to_mark_one(offer, worked):
    text = " ".join(" ".join(pages(quote_pdf(offer))).split())
    for name, each in zip(NAMES, worked, strict=True):
        assert f"the alternative “{name}” at £{each.price.totals.gross:,.2f}" in text
    assert "Mark one alternative only" in text
    assert "Plan of the alternative “On battens, lit”" in text
    assert "How the deck is raised in “On battens, lit”" in text
    assert "Of these only one can be taken: hatch, draught strip." in text


def test_a_quote_with_one_way_says_nothing_of_alternatives(firm, survey, office):
    context = quote_context(make_offer(survey, office))
    assert "alternatives" not in context
    assert "others" not in context


def test_a_part_of_the_loft_that_is_left_open_is_said_to_be_no_part_of_it():
    choices = lofts.choices(left_out_zones=frozenset({"B"}))
    worked = estimate(lofts.bungalow_loft(), lofts.price_book(), choices)
    assert "Boards over the part called B." in what_we_do_not(worked)


def test_a_plan_that_two_alternatives_share_is_printed_once_and_names_both(firm, survey, office, worked):
    """The second differs in a light alone, so the deck lies alike."""
    lit = estimate(
        lofts.trussed_loft(),
        lofts.price_book(),
        lofts.choices(
            parts=frozenset({Part.INSULATION, Part.LADDER, Part.HATCH, Part.DRAUGHT_STRIP, Part.LIGHT}),
            optional_parts=frozenset({Part.HATCH, Part.DRAUGHT_STRIP}),
        ),
    )
    made = make_offer(
        survey,
        office,
        worked=worked[0],
        alternative_name=NAMES[0],
        alternatives=[{"name": "Lit", "choices": {}}],
    )
    made.issued = freeze(made, worked[0], Firm.ours(), [lit])
    context = quote_context(made)
    [shared] = context["plans"]
    assert shared["names"] == [NAMES[0], "Lit"]
    [other] = context["others"]
    assert other["section"] == ""
    assert any("light" in words for words in other["what_we_do"])
    assert not set(other["what_we_do"]) & set(context["what_we_do"])
