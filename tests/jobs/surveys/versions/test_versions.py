from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.urls import reverse

from jobs.customers.models import Enquiry, Property
from jobs.surveys.models import Photograph, Survey
from jobs.surveys.services import copy_survey, open_survey, save_section
from jobs.surveys.versions.differences import NOTHING, Difference, Said, differences
from jobs.surveys.versions.visits import newer_version_of, visits
from tests.jobs.offers import make_offer
from tests.jobs.surveys.lofts import TRUSSED

pytestmark = pytest.mark.django_db


@pytest.fixture
def measured(survey, edition) -> Survey:
    survey.answers = {section: dict(answers) for section, answers in TRUSSED.items()}
    survey.save()
    survey.findings.create(hazard="wasps", seen="no", severity="caution")
    return survey


@pytest.fixture
def version(measured, office) -> Survey:
    """A copy that was made to mend the same visit."""
    return copy_survey(measured, by=office, visited_on=measured.visited_on)


def changed(before: Survey, after: Survey) -> dict[str, Difference]:
    return {each.label: each for section in differences(before, after) for each in section.differences}


def change(survey: Survey, section: str, **answers: str) -> None:
    save_section(survey, section=section, typed={**survey.answers[section], **answers})
    survey.refresh_from_db()


def test_a_copy_of_the_same_visit_differs_in_nothing(measured, version):
    assert differences(measured, version) == []


def test_a_changed_answer_is_told_as_typed_and_as_understood(measured, version):
    change(version, "roof", span="7.8 m")
    (only,) = changed(measured, version).values()
    assert only.label == "Span of the roof, wall plate to wall plate"
    assert (only.before.typed, only.after) == (
        "7.6m",
        Said("7.8 m", "7\N{NO-BREAK SPACE}800\N{NO-BREAK SPACE}mm"),
    )
    assert only.word == "changed"
    assert not only.means_the_same


def test_the_same_length_in_another_unit_is_told_as_the_same(measured, version):
    change(version, "roof", span="7600 mm")
    (only,) = changed(measured, version).values()
    assert only.means_the_same


def test_an_answer_added_or_taken_out_is_said_in_a_word(measured, version):
    change(version, "arrive", present="The owner", over_stairs="")
    told = changed(measured, version)
    assert told["Who was present"].word == "added"
    assert told["Who was present"].before == NOTHING
    assert told["Hatch over the stairs"].word == "taken out"


def test_a_choice_is_told_in_its_own_words(measured, version):
    change(version, "roof", underlay="breathing")
    assert changed(measured, version)["Underlay (felt)"].after == Said("Breathing")


def test_a_row_of_the_plan_is_called_by_its_name(measured, version):
    change(version, "plan", **{"zones-0-name": "Over the landing", "zones-0-length": "3 m"})
    told = changed(measured, version)
    assert told["Deck zone 1 (Over the landing): length, left to right"].after.typed == "3 m"


def test_a_row_that_came_is_told_once_and_moves_no_other(measured, version):
    change(version, "plan", **{"zones-7-name": "Side", "zones-7-left": "5.4 m"})
    (only,) = changed(measured, version).values()
    assert only.label == "Deck zone 2 (Side)"
    assert only.word == "added"
    assert only.after.typed == "name Side; from left gable 5.4 m"


def test_a_row_that_went_is_told_once(measured, version):
    change(measured, "plan", **{"zones-7-name": "Side", "zones-7-left": "5.4 m"})
    assert changed(measured, version)["Deck zone 2 (Side)"].word == "taken out"


def test_hazards_are_compared_with_their_words(measured, version):
    version.findings.filter(hazard="wasps").update(seen="yes", words="Old nest")
    assert changed(measured, version)["Wasps or hornets"] == Difference(
        "Wasps or hornets", Said("No"), Said("Yes: Old nest")
    )


def test_photographs_added_are_told_by_what_they_show(measured, version, surveyor):
    Photograph.objects.create(
        survey=version, sha256="a" * 64, shows="The cut web", width=4, height=3, taken_by=surveyor
    )
    assert changed(measured, version)["A photograph"].after == Said("The cut web")


def test_another_day_is_a_difference_of_the_visit(measured, office):
    again = copy_survey(measured, by=office, visited_on=measured.visited_on + timedelta(days=30))
    assert changed(measured, again)["Day of the visit"].after == Said("18 December 2026")


def test_the_newest_version_is_found_through_copies_of_copies(measured, version, office):
    assert newer_version_of(measured) == version
    last = copy_survey(version, by=office, visited_on=version.visited_on)
    assert newer_version_of(measured) == last
    assert newer_version_of(last) is None


def test_visits_say_which_was_quoted_and_of_which_it_is_a_copy(firm, measured, version, office):
    make_offer(measured, office)
    told = {each.number: each for each in visits().filter(property=measured.property)}
    assert (told[measured.number].was_quoted, told[version.number].was_quoted) == (True, False)
    assert told[version.number].copied_from == measured


def test_the_sheet_of_a_copy_says_what_changed_and_the_older_one_leads_to_it(
    measured, version, office, logged_in
):
    change(version, "roof", span="7.8 m")
    browser = logged_in(office)
    newer = browser.get(reverse("survey", args=[version.number])).content.decode()
    assert f"Changed since {measured.number}" in newer
    assert '<del class="differences__before">7.6m</del>' in newer
    assert '<ins class="differences__after">7.8 m</ins>' in newer
    older = browser.get(reverse("survey", args=[measured.number])).content.decode()
    assert f"/surveys/{version.number}/against/{measured.number}/" in older
    assert "Other visits to this property" in older


def test_any_two_surveys_of_one_property_are_compared_and_of_two_none(measured, version, office, logged_in):
    elsewhere = Property.objects.create(
        customer=measured.property.customer, address="2 Elm Row", town="Wexcombe", postcode="WX4 7LR"
    )
    stranger = open_survey(elsewhere, by=office, visited_on=date(2026, 11, 20))
    browser = logged_in(office)
    assert browser.get(reverse("survey_against", args=[version.number, measured.number])).status_code == 200
    assert browser.get(reverse("survey_against", args=[measured.number, version.number])).status_code == 200
    assert browser.get(reverse("survey_against", args=[version.number, stranger.number])).status_code == 404


def test_a_quote_says_that_its_survey_has_a_newer_version(firm, measured, office, logged_in):
    offer = make_offer(measured, office)
    address, browser = reverse("quote", args=[offer.quote.number]), logged_in(office)
    assert "A newer version" not in browser.get(address).content.decode()
    version = copy_survey(measured, by=office, visited_on=measured.visited_on)
    page = browser.get(address).content.decode()
    assert "A newer version of this survey exists" in page
    assert f"/surveys/{version.number}/against/{measured.number}/" in page


def test_visits_are_listed_where_one_looks_for_them_with_a_way_to_the_next(
    measured, version, office, logged_in
):
    enquiry = Enquiry.objects.create(property=measured.property, taken_by=office)
    browser = logged_in(office)
    for address in (
        reverse("customer", args=[measured.property.customer_id]),
        reverse("enquiry", args=[enquiry.pk]),
    ):
        page = browser.get(address).content.decode()
        for words in (
            f"Survey {measured.number}", f"copy of {measured.number}",
            f"Survey again, from {version.number}", "Survey again, from nothing",
        ):  # fmt: skip
            assert words in page, words
    answer = browser.post(reverse("survey_copy", args=[version.number]), {"visit": "new"})
    assert answer.status_code == 302
    assert Survey.objects.latest("pk").copied_from == version
