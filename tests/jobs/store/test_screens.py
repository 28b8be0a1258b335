"""The store's sheet, and where the store shows in quotes, on jobs and on the job sheet."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.documents.job_sheet import job_sheet_context
from jobs.store.models import StoredBoard
from jobs.works.models import Job
from tests.jobs.store.conftest import PUT_IN

pytestmark = pytest.mark.django_db
BOARD = "BRD-2400-22"


@pytest.fixture
def page(logged_in, office, edition):
    return logged_in(office)


def put(page, **typed: str):
    return page.post(reverse("store"), {"board_code": BOARD, "count": "2", **typed})


def test_boards_are_put_in_at_the_length_they_are_sold(page):
    put(page)
    row = StoredBoard.objects.get()
    assert (row.length_mm, row.count, row.cut) == (2400, 2, False)
    assert "Board 2400 × 600 × 22 mm" in page.get(reverse("store")).content.decode()


def test_offcuts_are_put_in_at_their_own_length(page):
    put(page, length_mm="1830", cut="on", note="by the door")
    row = StoredBoard.objects.get()
    assert (row.length_mm, row.cut, row.note) == (1830, True, "by the door")


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"length_mm": "2401"}, "must be at most 2400, as it is sold"),
        ({"length_mm": "1830"}, "Tick that it is cut"),
        ({"length_mm": "200", "cut": "on"}, "must be at least 300"),
        ({"count": "0"}, "must be at least 1"),
        ({"count": "two"}, "How many must be a number"),
        ({"board_code": "gone"}, "not one of the available choices"),
    ],
)
def test_what_cannot_be_in_the_store_comes_back_with_everything_typed(page, typed, words):
    answer = put(page, **{"note": "by the door", **typed})
    assert answer.status_code == 422
    assert words in answer.content.decode()
    assert "by the door" in answer.content.decode()
    assert not StoredBoard.objects.exists()


def test_boards_are_taken_out(page, put_in):
    row = put_in(count=3)
    page.post(reverse("store_take_out", args=[row.pk]), {"count": "1"})
    row.refresh_from_db()
    assert row.count == 2
    for count, words in (("9", "only 2"), ("", "missing"), ("none", "must be a number")):
        answer = page.post(reverse("store_take_out", args=[row.pk]), {"count": count}, follow=True)
        assert words in answer.content.decode()


def test_without_a_closed_edition_nothing_can_be_put_in(logged_in, office, firm):
    assert "must close an edition first" in logged_in(office).get(reverse("store")).content.decode()


def test_a_job_shows_what_it_counts_on_and_what_is_missing(page, put_in, job_from_store):
    address = reverse("job", args=[job_from_store.number])
    assert "2 missing" in page.get(address).content.decode()
    put_in(count=2)
    page.post(reverse("job_take_boards", args=[job_from_store.number]))
    shown = page.get(address).content.decode()
    assert "taken out" in shown
    assert "Take out what is missing" not in shown


def test_the_crews_page_of_a_job_says_nothing_of_the_store(logged_in, crew, job_from_store):
    Job.objects.filter(pk=job_from_store.pk).update(state=Job.State.BOOKED)
    shown = logged_in(crew).get(reverse("job", args=[job_from_store.number])).content.decode()
    assert "From the store" not in shown


def test_one_click_puts_a_finished_jobs_offcuts_into_the_store(page, finished):
    address = reverse("job", args=[finished.number])
    assert "Put them into the store" in page.get(address).content.decode()
    page.post(reverse("job_keep_offcuts", args=[finished.number]))
    assert "Put them into the store" not in page.get(address).content.decode()
    shown = page.get(reverse("store")).content.decode()
    assert finished.number in shown
    again = page.post(reverse("job_keep_offcuts", args=[finished.number]), follow=True)
    assert "in the store already" in again.content.decode()


def test_the_job_sheet_says_what_to_fetch_from_the_store(job_from_store):
    (told,) = job_sheet_context(job_from_store)["from_store"]
    assert (told["count"], told["length_mm"]) == (PUT_IN.count, PUT_IN.length_mm)
    assert "chipboard" in told["description"]
