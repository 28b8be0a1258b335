"""What a tablet carries out."""

from __future__ import annotations

from datetime import date

import pytest

from jobs.surveys.form_version import FORM_VERSION
from jobs.surveys.models import Finding, Survey
from jobs.surveys.services import open_survey
from tests.jobs.surveys.tablet.sending import answers, digest, envelope, picture, send, upload

pytestmark = pytest.mark.django_db


def test_a_survey_is_carried_as_it_stands(tablet, survey):
    content = picture()
    send(tablet, survey.number, answers(span=("", "7.6m")))
    send(tablet, survey.number, envelope("hazards", fields={"words_bats": ("", "Droppings")}))
    Finding.objects.create(survey=survey, hazard="tank", seen="yes", severity="caution", words="No lid")
    upload(tablet, survey.number, content)
    words = {"shows": "Hatch", "hazard": "bats", "left_mm": 1, "front_mm": 2}
    send(tablet, survey.number, envelope("photograph", digest=digest(content), **words))
    told = tablet.get(f"/surveys/{survey.number}/carried/").json()
    assert told["answers"] == {"roof": {"span": "7.6m"}}
    assert told["hazards"] == {"words_bats": "Droppings", "seen_tank": "yes", "words_tank": "No lid"}
    (photograph,) = told["photographs"]
    assert photograph == {
        "id": photograph["id"], "sent_sha256": digest(content), **words,
        "url": f"/photographs/{photograph['id']}/",
    }  # fmt: skip
    assert {name: told[name] for name in ("number", "state", "quoted", "form", "person", "address")} == {
        "number": survey.number, "state": "open", "quoted": False, "form": FORM_VERSION,
        "person": "Mirren Oxleigh", "address": "14 Larkfield Rise",
    }  # fmt: skip
    assert {"town", "postcode", "customer", "changed_at", "unit"} <= told.keys()


def test_a_person_carries_their_open_surveys_the_newest_first(tablet, building, surveyor, office, survey):
    newer = open_survey(building, by=surveyor, visited_on=date(2026, 11, 1))
    open_survey(building, by=office, visited_on=date(2026, 11, 20))
    assert tablet.get("/surveys/carried/").json() == [newer.number, survey.number]
    Survey.objects.filter(pk=newer.pk).update(state=Survey.State.COMPLETE)
    assert tablet.get("/surveys/carried/").json() == [survey.number]


def test_nothing_is_carried_by_those_who_may_not_measure(survey, crew, client, logged_in):
    for address in ("/surveys/carried/", f"/surveys/{survey.number}/carried/"):
        assert client.get(address).status_code == 401
        answer = logged_in(crew).get(address)
        assert (answer.status_code, answer["Cache-Control"]) == (403, "private, no-store")


def test_a_new_survey_knows_the_form_it_was_opened_with(survey):
    assert survey.form_version == FORM_VERSION
