from __future__ import annotations

from datetime import date

import pytest
from django.utils import timezone

from estimating.published.hazards import HAZARDS
from jobs.customers.models import Enquiry
from jobs.price_books.models import Edition
from jobs.quotes.models import Quote, Revision
from jobs.surveys.models import Clearance, Finding, Photograph, Survey
from jobs.surveys.services import (
    SurveyKept,
    answer_hazards,
    clear_finding,
    complete_survey,
    copy_survey,
    reopen_survey,
    save_section,
)
from tests.jobs.surveys.lofts import TRUSSED

pytestmark = pytest.mark.django_db


@pytest.fixture
def filled(survey) -> Survey:
    for section, typed in TRUSSED.items():
        save_section(survey, section=section, typed=typed)
    answer_hazards(survey, answers=[(hazard.key, "no", "") for hazard in HAZARDS])
    return survey


@pytest.fixture
def stop(filled) -> Finding:
    answer_hazards(filled, answers=[("wiring", "yes", "Bare ends")])
    return filled.findings.get(hazard="wiring")


def clearance() -> Clearance:
    return Clearance(
        cleared_by="A. Sparrowhawk",
        qualification="registered electrician",
        document="report 12",
        dated=date(2026, 11, 20),
    )


def give_a_price(survey, by) -> None:
    edition = Edition.objects.create(name="Autumn", dated=date(2026, 9, 1), hourly_cost=20)
    quote = Quote.objects.create(number="Q-1", property=survey.property, survey=survey, made_by=by)
    Revision.objects.create(
        quote=quote, letter="A", edition=edition, made_by=by, state="issued", issued_at=timezone.now(),
        paper_sha256="0" * 64,
    )  # fmt: skip


def test_a_survey_with_gaps_cannot_be_complete(survey):
    with pytest.raises(SurveyKept, match="still missing"):
        complete_survey(survey)


def test_completing_moves_the_enquiry_on_and_ends_changes_until_reopened(filled, office):
    filled.enquiry = Enquiry.objects.create(property=filled.property, taken_by=office)
    filled.save()
    complete_survey(filled)
    assert Enquiry.objects.get().state == Enquiry.State.SURVEYED
    with pytest.raises(SurveyKept, match="Open it again"):
        save_section(filled, section="roof", typed={})
    reopen_survey(filled)
    save_section(filled, section="roof", typed={"span": "6 m"})
    filled.refresh_from_db()
    assert filled.answers["roof"] == {**TRUSSED["roof"], "span": "6 m"}


def test_a_quoted_survey_is_kept_and_a_change_makes_a_copy(filled, office):
    give_a_price(filled, office)
    for change in (
        lambda: save_section(filled, section="roof", typed={}),
        lambda: answer_hazards(filled, answers=[("bats", "yes", "")]),
        lambda: reopen_survey(filled),
    ):
        with pytest.raises(SurveyKept, match="Copy it to change it"):
            change()
    copy = copy_survey(filled, by=office, visited_on=filled.visited_on)
    save_section(copy, section="roof", typed={**TRUSSED["roof"], "span": "8 m"})
    filled.refresh_from_db()
    assert filled.answers["roof"]["span"] == "7.6m"
    assert copy.copied_from == filled
    assert copy.number != filled.number


def test_a_draft_follows_its_survey_because_nobody_was_given_a_price(filled, office):
    Quote.objects.create(number="Q-1", property=filled.property, survey=filled, made_by=office)
    save_section(filled, section="roof", typed={"span": "6 m"})


def test_a_stop_holds_work_until_its_clearance_is_recorded(stop, office):
    assert stop.holds_work
    clear_finding(stop, clearance=clearance(), by=office)
    cleared = Finding.objects.get(pk=stop.pk)
    assert not cleared.holds_work
    assert cleared.clearance.recorded_by == office


def test_only_a_stop_that_holds_work_can_be_cleared_and_only_once(stop, office):
    clear_finding(stop, clearance=clearance(), by=office)
    with pytest.raises(SurveyKept):
        clear_finding(stop, clearance=clearance(), by=office)
    absent = stop.survey.findings.get(hazard="bats")
    with pytest.raises(SurveyKept):
        clear_finding(absent, clearance=clearance(), by=office)


def test_the_answer_to_a_cleared_stop_stays(stop, office):
    clear_finding(stop, clearance=clearance(), by=office)
    answer_hazards(stop.survey, answers=[("wiring", "no", ""), ("tank", "yes", "No lid")])
    stop.refresh_from_db()
    assert stop.seen == "yes"
    assert stop.survey.findings.get(hazard="tank").seen == "yes"


def add_photograph(finding, by) -> None:
    Photograph.objects.create(
        survey=finding.survey, finding=finding, sha256="0" * 64, width=1, height=1, taken_by=by
    )


def test_a_copy_of_the_same_visit_keeps_clearances_and_photographs(stop, office):
    clear_finding(stop, clearance=clearance(), by=office)
    add_photograph(stop, office)
    copy = copy_survey(stop.survey, by=office, visited_on=stop.survey.visited_on)
    assert not copy.findings.get(hazard="wiring").holds_work
    assert copy.photographs.get().finding == copy.findings.get(hazard="wiring")
    assert Finding.objects.get(pk=stop.pk).clearance


def test_on_another_day_an_old_clearance_proves_nothing(stop, office):
    clear_finding(stop, clearance=clearance(), by=office)
    add_photograph(stop, office)
    copy = copy_survey(stop.survey, by=office, visited_on=date(2027, 3, 1))
    assert copy.findings.get(hazard="wiring").holds_work
    assert not copy.photographs.exists()
