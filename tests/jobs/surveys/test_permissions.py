from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.surveys.models import Finding, Survey

pytestmark = pytest.mark.django_db

READ = ("survey", "surveys")


def pages(survey: Survey) -> dict[str, str]:
    finding = Finding.objects.create(
        survey=survey, hazard="bats", seen="yes", severity="stop", words="Droppings"
    )
    return {
        "surveys": reverse("surveys"),
        "survey": reverse("survey", args=[survey.number]),
        "roof": reverse("survey_section", args=[survey.number, "roof"]),
        "hazards": reverse("survey_section", args=[survey.number, "hazards"]),
        "photographs": reverse("survey_section", args=[survey.number, "photographs"]),
        "clear": reverse("finding_clear", args=[survey.number, finding.pk]),
    }


ALLOWED = {
    "crew": {"surveys", "survey"},
    "surveyor": {"surveys", "survey", "roof", "hazards", "photographs"},
    "office": {"surveys", "survey", "roof", "hazards", "photographs", "clear"},
    "owner": {"surveys", "survey", "roof", "hazards", "photographs", "clear"},
}


def test_nothing_of_a_survey_is_shown_to_anyone_not_logged_in(survey, client):
    for page in pages(survey).values():
        assert client.get(page).url.startswith("/log-in/")


@pytest.mark.parametrize("role", ALLOWED)
def test_each_role_reaches_its_own_pages_only(survey, role, request, logged_in):
    client = logged_in(request.getfixturevalue(role))
    for name, page in pages(survey).items():
        assert client.get(page).status_code == (200 if name in ALLOWED[role] else 403), (role, name)


@pytest.mark.parametrize("act", ["survey_complete", "survey_reopen", "survey_copy"])
def test_what_changes_a_survey_is_posted_by_those_who_may(survey, crew, client, logged_in, act):
    address, surveyor = reverse(act, args=[survey.number]), survey.surveyor
    assert client.post(address).url.startswith("/log-in/")
    assert logged_in(crew).post(address).status_code == 403
    assert logged_in(surveyor).get(address).status_code == 405
    assert logged_in(surveyor).post(address).status_code == 302


def test_a_survey_starts_from_a_property_by_post_alone(survey, building, surveyor, crew, logged_in):
    address = f"{reverse('survey_new')}?property={building.pk}"
    assert logged_in(surveyor).get(address).status_code == 405
    assert logged_in(crew).post(address).status_code == 403
    answer = logged_in(surveyor).post(address)
    newest = Survey.objects.order_by("pk").last()
    assert answer.url == reverse("survey_section", args=[newest.number, "arrive"])
    assert logged_in(surveyor).post(reverse("survey_new")).status_code == 404


def test_the_office_clears_a_stop_with_who_and_which_paper(survey, office, logged_in):
    address = pages(survey)["clear"]
    client = logged_in(office)
    refused = client.post(address, {"cleared_by": "A. Sparrowhawk"})
    assert refused.status_code == 422
    assert "Their qualification is missing." in refused.content.decode()
    assert "A. Sparrowhawk" in refused.content.decode()
    typed = {
        "cleared_by": "A. Sparrowhawk", "qualification": "licensed ecologist", "document": "letter 7",
        "dated": "2026-11-20",
    }  # fmt: skip
    assert client.post(address, typed).status_code == 302
    assert not survey.findings.get().holds_work


def test_a_finding_is_cleared_only_under_its_own_survey(survey, office, logged_in):
    pages(survey)
    address = reverse("finding_clear", args=["S-2026-9999", survey.findings.get().pk])
    assert logged_in(office).get(address).status_code == 404
