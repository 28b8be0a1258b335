from __future__ import annotations

import re
from decimal import Decimal

import pytest
from django.urls import reverse

from estimating.choices import Part
from estimating.price.offer import offer
from estimating.price_book import Role
from jobs.surveys.figures import figures_of
from jobs.surveys.models import Finding, Survey
from tests.jobs.surveys.lofts import LOFTS, TRUSSED, changed

pytestmark = pytest.mark.django_db


@pytest.fixture
def typed(survey, edition) -> Survey:
    survey.answers = TRUSSED
    survey.save()
    return survey


@pytest.mark.parametrize("name", LOFTS)
def test_each_loft_comes_to_a_deck_a_count_and_a_price(typed, name):
    typed.answers = LOFTS[name]
    figures = figures_of(typed)
    assert figures.refusals == []
    worked = figures.estimate
    assert figures.boards == sum(
        bought.packs.value for bought in worked.quantities.purchases if bought.role is Role.BOARD
    )
    assert figures.boards > 0
    assert figures.deck_m2 == worked.design.deck_area_m2.value
    assert figures.plan_svg.startswith("<svg")


def test_a_price_is_told_to_ten_pounds_because_it_still_moves(typed):
    typed.answers = changed(TRUSSED, "wishes", ladder="in", light="in")
    figures = figures_of(typed)
    assert figures.price.is_one
    assert figures.price.about % 10 == 0
    assert abs(figures.price.about - figures.estimate.price.totals.gross) <= Decimal(5)


def test_with_options_the_price_is_a_range_from_none_taken_to_all(typed):
    typed.answers = changed(TRUSSED, "wishes", ladder="option", light="option", lights="1")
    figures = figures_of(typed)
    lines, rules = figures.estimate.price.lines, figures.estimate.price_book.pricing
    least, most = (
        offer(lines, taken, rules).totals.gross for taken in (frozenset(), {Part.LADDER, Part.LIGHT})
    )
    assert least == figures.estimate.price.totals.gross < most
    assert figures.price.price_from <= least < figures.price.price_from + 10
    assert figures.price.price_to - 10 < most <= figures.price.price_to


def test_the_count_in_sight_names_everything_that_will_be_bought_and_the_range_with_vat(
    typed, surveyor, crew, logged_in
):
    typed.answers = changed(TRUSSED, "wishes", ladder="option")
    typed.save()
    figures, address = figures_of(typed), reverse("survey", args=[typed.number])
    counts = _counts(logged_in(surveyor).get(address).content.decode())
    assert [name for name, _ in counts][:5] == ["Deck", "Boards", "Pedestals", "Rolls", "Price with VAT"]
    assert dict(counts)["Rolls"] == str(figures.rolls)
    price = figures.price
    assert dict(counts)["Price with VAT"] == f"£{price.price_from:,} to £{price.price_to:,}"
    assert dict(counts)["Care"].startswith(f"{len(figures.cautions)} caution")
    assert "£" not in str(_counts(logged_in(crew).get(address).content.decode()))


def _counts(page: str) -> list[tuple[str, str]]:
    """Return the name and the value of each cell of the running count."""
    cells = re.findall(r"<dt[^>]*>(.*?)</dt><dd[^>]*>(.*?)</dd>", page.partition('id="counts"')[2])
    return [(name, re.sub(r"<[^>]*>", "", value)) for name, value in cells]


def test_gaps_come_before_figures(typed):
    typed.answers = changed(TRUSSED, "roof", span="")
    figures = figures_of(typed)
    assert figures.estimate is None
    assert ("roof", "Span of the roof, wall plate to wall plate") in figures.missing


def test_a_zone_outside_the_loft_is_said_in_the_words_of_its_page(typed):
    typed.answers = changed(TRUSSED, "plan", **{"zones-0-left": "6 m"})
    assert (
        "plan",
        "Deck zone 1: corners, instead of four lengths: must lie inside the loft outline",
    ) in figures_of(typed).missing


def test_without_a_price_book_the_survey_still_opens_and_says_so(survey):
    survey.answers = TRUSSED
    figures = figures_of(survey)
    assert figures.estimate is None
    assert "No edition of the price book" in figures.refusals[0]


def test_only_those_who_may_see_prices_see_one(typed, surveyor, crew, logged_in):
    address = reverse("survey", args=[typed.number])
    assert "Price with VAT" in logged_in(surveyor).get(address).content.decode()
    page = logged_in(crew).get(address).content.decode()
    assert "Pedestals" in page
    assert "£" not in page


def test_costs_and_margin_are_nowhere_on_the_surveyors_sheet(typed, surveyor, logged_in):
    page = logged_in(surveyor).get(reverse("survey", args=[typed.number])).content.decode()
    assert "margin" not in page.lower()
    assert str(figures_of(typed).estimate.price.cost.value) not in page


def test_the_sheet_reads_back_what_was_looked_for_and_not_there(typed, surveyor, logged_in):
    Finding.objects.create(survey=typed, hazard="bats", seen="no", severity="stop")
    Finding.objects.create(survey=typed, hazard="tank", seen="yes", severity="caution", words="No lid")
    page = logged_in(surveyor).get(reverse("survey", args=[typed.number])).content.decode()
    assert "Looked for and not there: Bats" in page
    assert "Water tank and pipes: No lid" in page


def test_a_survey_typed_in_later_keeps_the_day_it_was_measured(typed, surveyor, logged_in):
    address = reverse("survey_day", args=[typed.number])
    assert logged_in(surveyor).post(address, {"visited_on": "soon"}).status_code == 422
    assert logged_in(surveyor).post(address, {"visited_on": "2026-11-17"}).status_code == 302
    typed.refresh_from_db()
    assert typed.visited_on.isoformat() == "2026-11-17"
