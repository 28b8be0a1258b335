"""A deck zone proposed on the plan's page."""

from __future__ import annotations

import pytest
from django.urls import reverse

from estimating.amounts import read_length_mm
from estimating.plane import overlap_area_mm2
from jobs.surveys.reading import read_section
from jobs.surveys.services import save_section
from jobs.surveys.typed.lengths import rectangle
from tests.jobs.surveys.lofts import BUNGALOW, TRUSSED

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("firm")]


@pytest.fixture
def measuring(survey, surveyor, logged_in):
    for section in ("arrive", "roof"):
        save_section(survey, section=section, typed=TRUSSED[section])
    return logged_in(surveyor)


def plan_without_zones(plan: dict[str, str]) -> dict[str, str]:
    return {name: value for name, value in plan.items() if not name.startswith("zones-")}


def propose(client, survey, typed, **headers):
    where = reverse("survey_section", args=[survey.number, "plan"])
    return client.post(where, {**typed, "act": "propose zones"}, headers=headers)


def test_a_zone_is_proposed_under_headroom_clear_of_the_tank_and_can_be_changed(survey, measuring):
    answer = propose(measuring, survey, plan_without_zones(TRUSSED["plan"]))
    page = answer.content.decode()
    survey.refresh_from_db()
    plan = survey.answers["plan"]
    assert answer.status_code == 200
    assert "Proposed: " in page
    assert "of headroom or more over a deck" in page
    assert (plan["zones-0-left"], plan["zones-0-length"]) == ("0", "6500")  # up to the tank
    front, depth = int(plan["zones-0-front"]), int(plan["zones-0-depth"])
    assert front == pytest.approx(7600 - front - depth, abs=2)  # as far from either eaves
    assert f'value="{front}"' in page
    assert "It does not reach the hatch" in page  # which lies near the eaves


def test_a_second_zone_is_proposed_beside_the_first_row_and_nothing_is_lost(survey, measuring):
    propose(measuring, survey, TRUSSED["plan"])
    survey.refresh_from_db()
    plan = survey.answers["plan"]
    assert plan["zones-0-left"] == TRUSSED["plan"]["zones-0-left"]
    first, second = (_zone(plan, number) for number in (0, 1))
    assert overlap_area_mm2(first, second) == 0


def test_without_outline_and_hatch_it_says_what_it_waits_for(survey, measuring):
    answer = propose(measuring, survey, {"north": "90"})
    assert "A deck is proposed once the outline and the hatch are measured." in answer.content.decode()
    survey.refresh_from_db()
    assert survey.answers["plan"]["north"] == "90"


def test_without_the_roof_it_says_that_headroom_is_not_looked_at(survey, surveyor, logged_in):
    save_section(survey, section="arrive", typed=TRUSSED["arrive"])
    answer = propose(logged_in(surveyor), survey, plan_without_zones(TRUSSED["plan"]))
    assert "Headroom was not looked at: that needs pitch, span, ridge" in answer.content.decode()


def test_of_several_joist_fields_the_one_with_most_room_at_the_hatch_is_named(survey, surveyor, logged_in):
    for section in ("arrive", "roof"):
        save_section(survey, section=section, typed=BUNGALOW[section])
    propose(logged_in(surveyor), survey, plan_without_zones(BUNGALOW["plan"]))
    survey.refresh_from_db()
    joists = read_section(survey, "plan").rows["joists"]
    assert joists.is_valid()
    named = {row.cleaned_data["name"] for _, row in joists.filled}
    assert survey.answers["plan"]["zones-0-joist_field"] in named


def _zone(plan, number):
    sides = [read_length_mm(plan[f"zones-{number}-{name}"]) for name in ("left", "front", "length", "depth")]
    return rectangle(**dict(zip(("left_mm", "front_mm", "length_mm", "depth_mm"), sides, strict=True)))
