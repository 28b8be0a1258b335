from __future__ import annotations

import json

import pytest
from django.test import Client
from django.urls import reverse

from jobs.surveys.models import Finding, Survey
from jobs.surveys.sections import SECTIONS
from tests.jobs.surveys.lofts import BUNGALOW, LOFTS, TRUSSED, rows

pytestmark = pytest.mark.django_db


@pytest.fixture
def measuring(surveyor, logged_in) -> Client:
    return logged_in(surveyor)


def address(survey: Survey, section: str) -> str:
    return reverse("survey_section", args=[survey.number, section])


def htmx(client: Client, where: str, typed: dict[str, str], trigger: str = "answers"):
    return client.post(where, typed, headers={"HX-Request": "true", "HX-Trigger": trigger})


@pytest.mark.parametrize("name", LOFTS)
def test_a_whole_visit_is_typed_section_by_section_and_kept_exactly_as_typed(survey, measuring, name):
    for section, typed in LOFTS[name].items():
        answer = measuring.post(address(survey, section), {**typed, "act": "next"})
        assert answer.status_code == 302, answer.content.decode()
    survey.refresh_from_db()
    assert survey.answers == LOFTS[name]


def test_next_and_back_walk_the_order_of_the_visit(survey, measuring):
    keys = [section.key for section in SECTIONS]
    for here, after in zip(keys, [*keys[1:], None], strict=True):
        wanted = address(survey, after) if after else reverse("survey", args=[survey.number])
        assert measuring.post(address(survey, here), {"act": "next"}).url == wanted
    assert measuring.post(address(survey, "roof"), {"act": "back"}).url == address(survey, "hazards")
    assert measuring.post(address(survey, "roof"), {"act": "save"}).url == address(survey, "roof")


def test_an_unreadable_answer_comes_back_with_everything_typed_and_is_not_lost(survey, measuring):
    typed = {
        "kind": "cut roof",
        "span": "5.2",
        "ridge_height": "2.6 m",
        "roof_notes": "Felt <torn> & patched",
    }
    answer = measuring.post(address(survey, "roof"), {**typed, "act": "next"})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "&quot;5.2&quot; needs its unit: write 5.2 m, 5.2 cm or 5.2 mm" in page
    assert 'value="5.2"' in page
    assert 'value="2.6 m"' in page
    assert "Felt &lt;torn&gt; &amp; patched" in page
    survey.refresh_from_db()
    assert survey.answers["roof"] == typed


def test_a_length_says_what_it_was_read_as(survey, measuring):
    measuring.post(address(survey, "plan"), {"hatch_left": "3.73m", "act": "save"})
    page = measuring.get(address(survey, "plan")).content.decode()
    assert "read as 3\N{NO-BREAK SPACE}730\N{NO-BREAK SPACE}mm" in page


def test_one_section_is_saved_without_touching_another(survey, measuring):
    measuring.post(address(survey, "roof"), {"span": "6 m"})
    measuring.post(address(survey, "services"), {"downlights": "3"})
    survey.refresh_from_db()
    assert survey.answers == {"roof": {"span": "6 m"}, "services": {"downlights": "3"}}


def test_answers_of_other_names_are_not_kept(survey, measuring):
    measuring.post(address(survey, "roof"), {"span": "6 m", "csrfmiddlewaretoken": "x", "state": "complete"})
    survey.refresh_from_db()
    assert survey.answers["roof"] == {"span": "6 m"}


def test_another_row_comes_without_scripts_and_keeps_what_was_typed(survey, measuring):
    typed = {"outline_length": "8.4 m", **rows("zones", {"name": "Deck", "left": "900"})}
    page = measuring.post(address(survey, "plan"), {**typed, "act": "add zones"}).content.decode()
    assert 'name="zones-1-left"' in page
    assert 'value="8.4 m"' in page
    survey.refresh_from_db()
    assert survey.answers["plan"]["zones-0-left"] == "900"


def test_a_removed_row_goes_and_the_others_keep_their_numbers(survey, measuring):
    measuring.post(address(survey, "plan"), rows("zones", {"name": "A"}, {"name": "B"}, {"name": "C"}))
    measuring.post(
        address(survey, "plan"), rows("zones", {"name": "A"}, {"name": "B", "DELETE": "on"}, {"name": "C"})
    )
    survey.refresh_from_db()
    assert survey.answers["plan"] == {"zones-0-name": "A", "zones-1-name": "", "zones-2-name": "C"}
    page = measuring.get(address(survey, "plan")).content.decode()
    assert 'name="zones-1-name"' not in page
    assert "Deck zone 2" in page


def test_the_number_of_a_removed_row_is_not_given_again(survey, measuring):
    measuring.post(address(survey, "plan"), rows("zones", {"name": "A"}))
    measuring.post(address(survey, "plan"), rows("zones", {"name": "A", "DELETE": "on"}))
    page = measuring.get(address(survey, "plan")).content.decode()
    assert 'name="zones-0-name"' not in page
    assert 'name="zones-1-name"' in page


def test_an_empty_row_is_not_kept(survey, measuring):
    measuring.post(address(survey, "plan"), {"zones-0-name": "", "zones-0-left": ""})
    survey.refresh_from_db()
    assert survey.answers["plan"] == {}


@pytest.mark.parametrize("number", ["-1", "many", "", "9" * 13])
def test_a_row_number_that_was_tampered_with_does_no_harm(survey, measuring, number):
    typed = {f"zones-{number}-name": "Deck", "zones-0-name": "Deck"}
    assert measuring.post(address(survey, "plan"), {**typed, "act": "add zones"}).status_code == 200
    assert measuring.get(address(survey, "plan")).status_code == 200
    survey.refresh_from_db()
    assert survey.answers["plan"] == {"zones-0-name": "Deck"}


def test_a_change_is_written_through_and_answered_with_the_figures(survey, measuring):
    answer = htmx(measuring, address(survey, "roof"), {"span": "6.2 m", "ridge_height": "1.9"})
    page = answer.content.decode()
    assert answer.status_code == 200
    assert 'id="figures"' in page
    assert 'id="counts" hx-swap-oob="true"' in page
    assert "read as 6\N{NO-BREAK SPACE}200\N{NO-BREAK SPACE}mm" in page
    assert "&quot;1.9&quot; needs its unit" in page
    survey.refresh_from_db()
    assert survey.answers["roof"]["span"] == "6.2 m"


def test_hazards_become_findings_and_a_stop_cannot_be_missed(survey, measuring):
    typed = {"seen_bats": "yes", "words_bats": "Droppings by the chimney", "seen_wasps": "no"}
    assert measuring.post(address(survey, "hazards"), {**typed, "act": "next"}).status_code == 302
    bats = survey.findings.get(hazard="bats")
    assert (bats.severity, bats.holds_work) == ("stop", True)
    for section in ("roof", "photographs", "hazards"):
        page = measuring.get(address(survey, section)).content.decode()
        assert "verdict--stop" in page
        assert "Droppings by the chimney" in page
        assert "steps__stop" in page


def test_a_stop_without_words_is_kept_and_asked_about(survey, measuring):
    answer = measuring.post(address(survey, "hazards"), {"seen_bats": "yes"})
    assert answer.status_code == 422
    assert "say what was seen, and where" in answer.content.decode()
    assert survey.findings.get(hazard="bats").holds_work


def test_a_hazard_answered_again_changes_its_one_finding(survey, measuring):
    measuring.post(address(survey, "hazards"), {"seen_tank": "yes"})
    measuring.post(address(survey, "hazards"), {"seen_tank": "not seen", "words_tank": "Behind a wall"})
    tank = Finding.objects.get(survey=survey, hazard="tank")
    assert (tank.seen, tank.words, tank.severity) == ("not seen", "Behind a wall", "caution")


def test_a_wing_with_its_own_joists_is_read_back_as_understood(survey, measuring):
    for section, typed in BUNGALOW.items():
        measuring.post(address(survey, section), typed)
    page = measuring.get(reverse("survey", args=[survey.number])).content.decode()
    assert "Joist field 2: first joist" in page
    assert "122\N{NO-BREAK SPACE}mm" in page


def test_the_sheet_says_what_a_price_waits_for(survey, measuring):
    for section, typed in TRUSSED.items():
        if section != "insulation":
            measuring.post(address(survey, section), typed)
    page = measuring.get(reverse("survey", args=[survey.number])).content.decode()
    assert "Missing for a price" in page
    assert "Insulation on the ceiling" in page


def test_what_somebody_else_wrote_meanwhile_is_kept_beside_what_is_sent(survey, measuring):
    shown = json.dumps({"span": "6 m", "ridge_height": "1.9 m"})
    measuring.post(address(survey, "roof"), {"span": "6 m", "ridge_height": "1.9 m"})
    measuring.post(address(survey, "roof"), {"span": "6.4 m", "ridge_height": "1.9 m", "as_shown": shown})
    measuring.post(address(survey, "roof"), {"span": "6.2 m", "ridge_height": "2 m", "as_shown": shown})
    survey.refresh_from_db()
    assert survey.answers["roof"] == {"span": "6.4 m", "ridge_height": "2 m"}
    assert [(aside.name, aside.other) for aside in survey.kept_aside.all()] == [("span", "6.2 m")]
