"""What the demo's lofts show: one within every table, one whose joists govern, one held by a stop."""

from __future__ import annotations

import pytest

from estimating.survey import Severity
from jobs.demo.lofts import BUNGALOW, CUT_ROOF, HELD, LOFTS, TRUSSED, DemoLoft
from jobs.demo.visits import survey_loft
from jobs.quotes.drafts.services import draft_quote, estimate_draft
from jobs.quotes.services import CannotIssue, issue_revision
from jobs.surveys.models import Clearance
from jobs.surveys.progress import unmeasured
from jobs.surveys.services import clear_finding

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("edition")]


@pytest.fixture
def verdicts(office, surveyor):
    def checked(loft: DemoLoft):
        survey = survey_loft(loft, surveyor=surveyor, office=office, days_ago=1)
        return estimate_draft(draft_quote(survey, by=office)).checks.verdicts

    return checked


def test_the_bungalow_passes_everything_and_its_boards_go_up_in_twos(verdicts):
    told = [verdict for verdict in verdicts(BUNGALOW) if verdict.severity is not Severity.NOTE]
    assert [(verdict.subject, verdict.severity) for verdict in told] == [("lifting", Severity.CAUTION)]


@pytest.mark.parametrize("loft", [TRUSSED, BUNGALOW, HELD], ids=lambda loft: loft.address)
def test_nothing_is_taken_as_usual_in_a_loft_that_was_measured_wholly(loft, office, surveyor, firm):
    assert unmeasured(survey_loft(loft, surveyor=surveyor, office=office, days_ago=1)) == []


def test_the_old_joists_govern_in_the_cut_roof(verdicts):
    told = [verdict for verdict in verdicts(CUT_ROOF) if verdict.subject == "ceiling joists"]
    assert [verdict.severity for verdict in told] == [Severity.CAUTION]
    assert "governs" in told[0].words
    assert "structural engineer" in told[0].words


def test_the_held_loft_cannot_be_issued_until_its_stop_is_cleared(office, surveyor):
    survey = survey_loft(HELD, surveyor=surveyor, office=office, days_ago=1)
    revision = draft_quote(survey, by=office)
    with pytest.raises(CannotIssue):
        issue_revision(revision, by=office)
    clear_finding(
        survey.findings.get(hazard="structure"),
        clearance=Clearance(
            cleared_by="Aske Thornbury", qualification="Structural engineer", document="Letter 88",
            dated=survey.visited_on,
        ),
        by=office,
    )  # fmt: skip
    assert issue_revision(revision, by=office)


def test_every_person_and_address_of_the_demo_is_a_different_one():
    for name in ("customer", "email", "phone", "address", "postcode"):
        assert len({getattr(loft, name) for loft in LOFTS}) == len(LOFTS)
