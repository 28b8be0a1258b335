from __future__ import annotations

from decimal import Decimal

import pytest
from django.urls import reverse

from jobs.works.models import Job

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def quick_sheets(monkeypatch) -> None:
    monkeypatch.setattr("jobs.works.services.job_sheet_pdf", lambda job: b"sheet")
    monkeypatch.setattr("jobs.works.views.job_sheet_pdf", lambda job: b"sheet")


READ = ("job", "job_sheet", "job_sheet_paper")
OFFICE_ONLY = ("job_book", "job_hand_over", "job_close")


@pytest.mark.parametrize("page", [*READ, *OFFICE_ONLY, "job_start", "job_complete"])
def test_nobody_reaches_a_job_without_logging_in(client, job, page):
    answer = client.post(reverse(page, args=[job.number]))
    assert answer.url.startswith("/log-in/")
    assert client.get(reverse("jobs")).url.startswith("/log-in/")


@pytest.mark.parametrize("page", READ)
def test_the_crew_reads_booked_jobs_and_no_earlier_ones(job, crew, logged_in, page):
    address = reverse(page, args=[job.number])
    assert logged_in(crew).get(address).status_code == 404
    Job.objects.filter(pk=job.pk).update(state=Job.State.BOOKED)
    assert logged_in(crew).get(address).status_code == 200


@pytest.mark.parametrize("page", OFFICE_ONLY)
def test_the_crew_does_not_book_hand_over_or_close(job, crew, logged_in, page):
    assert logged_in(crew).post(reverse(page, args=[job.number])).status_code == 403


@pytest.mark.parametrize("page", ["job_start", "job_complete"])
def test_a_surveyor_does_not_report_work(job, surveyor, logged_in, page):
    assert logged_in(surveyor).post(reverse(page, args=[job.number])).status_code == 403


@pytest.mark.parametrize("page", ["job_start", "job_complete", "job_hand_over", "job_close"])
def test_looking_changes_nothing(job, owner, logged_in, page):
    assert logged_in(owner).get(reverse(page, args=[job.number])).status_code == 405


def test_the_crew_takes_a_job_from_booked_to_complete(job, office, crew, logged_in):
    booked = logged_in(office).post(
        reverse("job_book", args=[job.number]),
        {"starts_on": "2026-12-07", "ends_on": "08/12/2026", "crew": [crew.pk], "note": ""},
    )
    assert booked.url == reverse("job", args=[job.number])
    client = logged_in(crew)
    client.post(reverse("job_start", args=[job.number]))
    unread = client.post(reverse("job_complete", args=[job.number]), {"hours_taken": "", "note": "All well"})
    assert unread.status_code == 422
    assert "Person-hours it took is missing." in unread.content.decode()
    assert "All well" in unread.content.decode()
    client.post(reverse("job_complete", args=[job.number]), {"hours_taken": "14", "note": "All well"})
    job.refresh_from_db()
    assert (job.state, job.hours_taken) == (Job.State.COMPLETE, Decimal(14))


def test_no_page_of_the_crew_shows_a_price(job, crew, logged_in):
    Job.objects.filter(pk=job.pk).update(state=Job.State.BOOKED)
    client = logged_in(crew)
    for page in (reverse("jobs"), *(reverse(name, args=[job.number]) for name in ("job", "job_sheet"))):
        assert "£" not in client.get(page).content.decode(), page


def test_a_booking_that_cannot_be_read_comes_back_with_what_was_typed(job, office, logged_in):
    answer = logged_in(office).post(
        reverse("job_book", args=[job.number]),
        {"starts_on": "2026-12-07", "ends_on": "", "note": "Key at no. 3"},
    )
    assert answer.status_code == 422
    words = answer.content.decode()
    assert "Last day is missing." in words
    assert "Crew is missing: tick at least one person." in words
    assert "Key at no. 3" in words
