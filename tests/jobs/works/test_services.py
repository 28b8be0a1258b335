from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from jobs.documents.papers import read_paper
from jobs.surveys.models import Clearance, Finding
from jobs.works.models import Job
from jobs.works.services import (
    JobRefused,
    book_job,
    call_off_job,
    close_job,
    complete_job,
    hand_over_job,
    start_job,
    what_holds_work,
)

pytestmark = pytest.mark.django_db
State = Job.State
DAYS = {"starts_on": date(2026, 12, 7), "ends_on": date(2026, 12, 8)}


@pytest.fixture(autouse=True)
def quick_sheets(monkeypatch) -> None:
    monkeypatch.setattr("jobs.works.services.job_sheet_pdf", lambda job: f"sheet {job.starts_on}".encode())


def move(job: Job, state: str, *, crew, office) -> None:
    {
        State.BOOKED: lambda: book_job(job, **DAYS, crew=[crew], note="", by=office),
        State.UNDER_WAY: lambda: start_job(job),
        State.COMPLETE: lambda: complete_job(job, hours_taken=Decimal(14), note=""),
        State.HANDED_OVER: lambda: hand_over_job(job, to="Odile Pemberwick"),
        State.CLOSED: lambda: close_job(job),
        State.CALLED_OFF: lambda: call_off_job(job),
    }[State(state)]()


LEGAL = {
    (State.ACCEPTED, State.BOOKED), (State.BOOKED, State.BOOKED), (State.BOOKED, State.UNDER_WAY),
    (State.UNDER_WAY, State.COMPLETE), (State.COMPLETE, State.HANDED_OVER), (State.HANDED_OVER, State.CLOSED),
    (State.ACCEPTED, State.CALLED_OFF), (State.BOOKED, State.CALLED_OFF), (State.UNDER_WAY, State.CALLED_OFF),
}  # fmt: skip


@pytest.mark.parametrize("now", State)
@pytest.mark.parametrize("wanted", [state for state in State if state != State.ACCEPTED])
def test_a_job_moves_only_one_step_on_or_is_called_off_before_it_is_done(job, crew, office, now, wanted):
    Job.objects.filter(pk=job.pk).update(state=now)
    if (now, wanted) in LEGAL:
        move(job, wanted, crew=crew, office=office)
        assert Job.objects.get(pk=job.pk).state == wanted
    else:
        with pytest.raises(JobRefused, match=job.number):
            move(job, wanted, crew=crew, office=office)
        assert Job.objects.get(pk=job.pk).state == now


def test_booking_keeps_the_sheet_the_crew_was_given_and_booking_anew_makes_another(job, crew, office):
    book_job(job, **DAYS, crew=[crew], note="Ring twice", by=office)
    job.refresh_from_db()
    first = job.sheet_sha256
    assert read_paper(first) == b"sheet 2026-12-07"
    assert (list(job.crew.all()), job.note, job.booked_by) == ([crew], "Ring twice", office)
    later = date(2026, 12, 14)
    book_job(job, starts_on=later, ends_on=later, crew=[crew], note="", by=office)
    job.refresh_from_db()
    assert job.sheet_sha256 != first
    assert read_paper(first) == b"sheet 2026-12-07"


def test_days_cannot_end_before_they_begin(job, crew, office):
    with pytest.raises(JobRefused, match="last day"):
        book_job(job, starts_on=DAYS["ends_on"], ends_on=DAYS["starts_on"], crew=[crew], note="", by=office)


def see_a_stop(job: Job, words: str = "Grey board behind the tank") -> Finding:
    return Finding.objects.create(
        survey=job.revision.quote.survey, hazard="asbestos", seen="yes", severity="stop", words=words
    )


def clear(finding: Finding, by) -> None:
    Clearance.objects.create(
        finding=finding, cleared_by="A. Analyst", qualification="Surveyor of asbestos", document="Report 12",
        dated=date(2026, 11, 20), recorded_by=by,
    )  # fmt: skip


def test_a_stop_found_after_the_quote_holds_booking_until_it_is_cleared(job, crew, office):
    finding = see_a_stop(job)
    with pytest.raises(JobRefused, match="Suspected asbestos: Grey board"):
        book_job(job, **DAYS, crew=[crew], note="", by=office)
    clear(finding, office)
    book_job(job, **DAYS, crew=[crew], note="", by=office)


def test_a_stop_found_after_booking_holds_the_start(job, crew, office):
    book_job(job, **DAYS, crew=[crew], note="", by=office)
    see_a_stop(job)
    with pytest.raises(JobRefused, match="not cleared"):
        start_job(job)


def test_a_stop_in_the_frozen_survey_counts_even_when_its_row_says_otherwise(job, office):
    frozen = job.revision.issued
    frozen["survey"]["findings"] = [
        {"hazard": "bats", "severity": "stop", "words": "Droppings at the ridge", "clearance": None}
    ]
    job.revision.save(update_fields=["issued"])
    assert what_holds_work(job) == ["Bats, or signs of a roost: Droppings at the ridge"]
    bats = Finding.objects.create(
        survey=job.revision.quote.survey, hazard="bats", seen="yes", severity="stop", words="Droppings"
    )
    clear(bats, office)
    assert what_holds_work(job) == []


def test_completing_keeps_hours_and_what_was_found(job):
    Job.objects.filter(pk=job.pk).update(state=State.UNDER_WAY)
    complete_job(job, hours_taken=Decimal("13.5"), note="Joist 7 is 20 mm out.")
    job.refresh_from_db()
    assert (job.hours_taken, job.completion_note) == (Decimal("13.5"), "Joist 7 is 20 mm out.")
    assert job.completed_at
