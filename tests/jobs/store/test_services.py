"""What is at hand is promised to one job only, and what a job leaves is kept once."""

from __future__ import annotations

import pytest

from estimating.stored_boards import StoredBoards
from jobs.store.at_hand import boards_at_hand, counted_on
from jobs.store.models import StoredBoard
from jobs.store.services import (
    StoreRefused,
    keep_offcuts,
    offcuts_of,
    take_for_job,
    take_out,
    what_job_counts_on,
)
from tests.jobs.offers import make_job
from tests.jobs.store.conftest import PUT_IN

pytestmark = pytest.mark.django_db


def in_store() -> list[tuple[str, int, int]]:
    return [(each.board_code, each.length_mm, each.count) for each in boards_at_hand()]


def test_like_boards_are_told_together_and_cut_ones_apart(put_in):
    put_in(count=2)
    put_in(count=3)
    put_in(count=1, length_mm=1830, cut=True)
    assert boards_at_hand() == (
        StoredBoards(board_code="B22", length_mm=1830, count=1, cut=True),
        StoredBoards(board_code="B22", length_mm=2400, count=5),
    )


def test_taking_some_out_leaves_the_rest_and_taking_all_leaves_nothing(put_in):
    row = put_in(count=3)
    take_out(row, count=1)
    assert in_store() == [("B22", 2400, 2)]
    take_out(row, count=2)
    assert in_store() == []


def test_no_more_is_taken_out_than_is_there(put_in):
    row = put_in(count=3)
    with pytest.raises(StoreRefused, match="only 3"):
        take_out(row, count=4)
    assert in_store() == [("B22", 2400, 3)]


def test_an_issued_quote_keeps_what_it_counts_on(offer_from_store):
    assert counted_on(offer_from_store) == (PUT_IN,)


def test_an_accepted_quote_takes_its_boards_out_so_that_nobody_else_counts_on_them(put_in, offer_from_store):
    put_in(count=1)
    put_in(count=3, note="by the door")
    job = make_job(offer_from_store)
    assert in_store() == [("B22", 2400, 2)]
    assert sum(row.count for row in job.boards_taken.all()) == 2
    (told,) = what_job_counts_on(job)
    assert (told.count, told.missing, told.description) == (2, 0, "chipboard 2400 × 600 × 22 mm")


def test_what_is_no_longer_there_is_missing_until_it_is_put_in_and_taken_out(put_in, offer_from_store):
    put_in(count=1)
    job = make_job(offer_from_store)
    assert [each.missing for each in what_job_counts_on(job)] == [1]
    assert take_for_job(job) == 0
    put_in(count=4)
    assert take_for_job(job) == 1
    assert [each.missing for each in what_job_counts_on(job)] == [0]
    assert take_for_job(job) == 0
    assert in_store() == [("B22", 2400, 3)]


def test_a_job_that_counts_on_nothing_takes_nothing(put_in, job):
    put_in()
    assert what_job_counts_on(job) == []
    assert take_for_job(job) == 0


def test_the_offcuts_of_a_finished_job_go_into_the_store_once(finished, office):
    left = offcuts_of(finished)
    assert left
    kept = keep_offcuts(finished, by=office)
    assert kept == sum(each.count for each in left)
    rows = StoredBoard.objects.filter(left_by=finished)
    assert {row.length_mm for row in rows} == {each.length_mm for each in left}
    assert all(row.cut for row in rows)
    with pytest.raises(StoreRefused, match="already"):
        keep_offcuts(finished, by=office)


def test_only_offcuts_that_keep_their_width_go_into_the_store(finished):
    assert all(each.full_width for each in offcuts_of(finished))


def test_a_job_that_is_not_complete_still_needs_its_offcuts(job, office):
    with pytest.raises(StoreRefused, match="not complete"):
        keep_offcuts(job, by=office)
