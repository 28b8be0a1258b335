from __future__ import annotations

import pytest

from tests.jobs.offers import make_offer, worked_loft

pytestmark = pytest.mark.django_db


def test_the_letter_is_for_those_who_may_see_the_quote(offer, office, crew, client, logged_in):
    address = f"/quotes/{offer.quote.number}/A/truss-designer/"
    assert logged_in(office).get(address)["Content-Type"] == "application/pdf"
    assert logged_in(crew).get(address).status_code == 403
    assert client.get(address).status_code == 302


def test_the_button_stands_on_the_quote_of_a_trussed_loft_only(offer, survey, office, logged_in):
    page = f"/quotes/{offer.quote.number}/"
    assert f"{page}A/truss-designer/" in logged_in(office).get(page).content.decode()
    cut = make_offer(survey, office, worked=worked_loft("cut roof"))
    page = f"/quotes/{cut.quote.number}/"
    assert "truss-designer" not in logged_in(office).get(page).content.decode()


def test_a_cut_roof_sends_back_to_the_quote_and_says_why(firm, survey, office, logged_in):
    cut = make_offer(survey, office, worked=worked_loft("cut roof"))
    answer = logged_in(office).get(f"/quotes/{cut.quote.number}/A/truss-designer/", follow=True)
    assert "no trussed rafters" in answer.content.decode()


def test_a_draft_has_its_letter_too(draft, office, logged_in):
    address = f"/quotes/{draft.quote.number}/{draft.letter}/truss-designer/"
    assert logged_in(office).get(address)["Content-Type"] == "application/pdf"
