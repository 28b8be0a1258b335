from __future__ import annotations

import pytest

pytestmark = pytest.mark.django_db


def test_the_working_is_for_those_who_may_see_costs(offer, office, surveyor, crew, logged_in):
    address = f"/quotes/{offer.quote.number}/A/working/"
    assert logged_in(office).get(address)["Content-Type"] == "application/pdf"
    for person in (surveyor, crew):
        assert logged_in(person).get(address).status_code == 403


def test_the_button_is_there_for_those_who_may_press_it(offer, office, surveyor, logged_in):
    page = f"/quotes/{offer.quote.number}/"
    address = f"{page}A/working/"
    assert address in logged_in(office).get(page).content.decode()
    assert address not in logged_in(surveyor).get(page).content.decode()
