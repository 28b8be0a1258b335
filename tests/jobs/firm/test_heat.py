"""Targets by nation and day, fuel prices, and how a quote takes them."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from django.urls import reverse

from estimating.nations import Nation
from estimating.published.surface_resistances import RoofSpace
from jobs.firm.heat import fuel_prices, pence_for_kwh, set_fuel_prices, target_of
from jobs.firm.heat_models import NationTarget
from jobs.surveys.as_measured import wishes_as_choices
from tests.jobs.surveys.lofts import TRUSSED, changed

pytestmark = pytest.mark.django_db

TODAY = date(2026, 11, 25)


def test_englands_target_is_shipped_and_the_others_are_to_be_confirmed():
    england = target_of("England", on=TODAY)
    assert (england.u_w_m2k, england.confirmed) == (Decimal("0.16"), True)
    for nation in ("Wales", "Scotland", "Northern Ireland"):
        assert str(target_of(nation, on=TODAY)).endswith(", to be confirmed")


def test_a_target_holds_from_its_day_on():
    NationTarget.objects.create(
        nation="England", u_w_m2k="0.13", from_day=date(2027, 3, 24), source="The next one"
    )
    assert target_of("England", on=date(2027, 3, 23)).u_w_m2k == Decimal("0.16")
    assert target_of("England", on=date(2027, 3, 24)).u_w_m2k == Decimal("0.13")
    assert target_of("England", on=date(2000, 1, 1)).u_w_m2k == Decimal("0.16")


@pytest.mark.parametrize("nation", list(Nation))
def test_what_is_shipped_is_what_is_published_and_stands_in_for_a_target_taken_away(nation):
    shipped = target_of(nation.value, on=TODAY)
    told = str(shipped), shipped.u_w_m2k, shipped.from_day
    NationTarget.objects.all().delete()
    published = target_of(nation.value, on=TODAY)
    assert (str(published), published.u_w_m2k, published.from_day) == told


def test_a_quote_takes_the_target_of_the_propertys_nation_on_its_tax_point(survey, firm):
    survey.answers = TRUSSED
    choices = wishes_as_choices(survey, tax_point=TODAY)
    assert choices.target_u_w_m2k == Decimal("0.16")
    assert choices.target_source.startswith("England: Approved Document L")
    survey.property.nation = "Scotland"
    choices = wishes_as_choices(survey, tax_point=TODAY)
    assert choices.target_u_w_m2k == Decimal("0.15")
    assert choices.target_source.endswith("to be confirmed")


def test_a_quote_takes_the_firms_headroom_and_the_price_of_the_fuel_that_heats_the_house(survey, firm):
    firm.least_headroom_mm = 1200
    firm.save()
    survey.answers = changed(TRUSSED, "services", heating_fuel="mains gas")
    choices = wishes_as_choices(survey, tax_point=TODAY)
    assert (choices.least_headroom_mm, choices.energy_price_pence_kwh) == (1200, None)
    set_fuel_prices({"mains gas": Decimal("6.29"), "electricity": Decimal(27)})
    assert wishes_as_choices(survey, tax_point=TODAY).energy_price_pence_kwh == Decimal("6.29")


def test_a_quote_counts_the_roof_space_as_the_firm_does(survey, firm):
    survey.answers = TRUSSED
    assert wishes_as_choices(survey, tax_point=TODAY).roof_space is RoofSpace.COUNTED
    firm.roof_space = RoofSpace.VENTILATED.value
    firm.save()
    assert wishes_as_choices(survey, tax_point=TODAY).roof_space is RoofSpace.VENTILATED


def test_a_fuel_price_taken_away_is_gone():
    set_fuel_prices({"mains gas": Decimal("6.29"), "electricity": None})
    set_fuel_prices({"mains gas": None})
    assert fuel_prices() == {}
    assert pence_for_kwh("mains gas") is None


def test_the_owner_sets_fuel_prices_and_adds_a_target(owner, firm, logged_in):
    client = logged_in(owner)
    assert client.post(reverse("heat"), {"fuel_0": "6.29", "fuel_3": "26.1"}).status_code == 302
    assert fuel_prices() == {"mains gas": Decimal("6.29"), "electricity": Decimal("26.10")}
    wales = {"nation": "Wales", "u_w_m2k": "0.15", "from_day": "2027-01-01", "source": "Read there"}
    assert client.post(reverse("target_new"), wales).status_code == 302
    assert target_of("Wales", on=date(2027, 1, 1)).u_w_m2k == Decimal("0.15")
    page = client.get(reverse("heat")).content.decode()
    assert "Read there" in page
    assert 'value="6.29"' in page


def test_what_cannot_be_a_target_or_a_price_is_refused_by_its_label(owner, firm, logged_in):
    client = logged_in(owner)
    answer = client.post(reverse("heat"), {"fuel_0": "cheap"})
    assert answer.status_code == 422
    assert "Mains gas, pence per kWh must be a number." in answer.content.decode()
    again = {"nation": "England", "u_w_m2k": "3", "from_day": "2022-06-15", "source": "x"}
    assert client.post(reverse("target_new"), again).status_code == 422


@pytest.mark.parametrize("who", ["office", "surveyor", "crew"])
def test_only_the_owner_sets_them(who, request, firm, logged_in):
    client = logged_in(request.getfixturevalue(who))
    first = NationTarget.objects.first()
    pages = (reverse("heat"), reverse("target_new"), reverse("target", args=[first.pk]))
    assert [client.get(page).status_code for page in pages] == [403, 403, 403]
