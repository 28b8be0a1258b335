"""The worker proves the newest first, one worker a task, and no task stops the others."""

from __future__ import annotations

import threading
from datetime import timedelta

import pytest
from django.db import IntegrityError, connection, connections, transaction
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from estimating.deck_json import deck_task_as_json, deck_task_digest, laid_deck_from_json
from estimating.design.boards.lay import Effort
from jobs.layouts import services
from jobs.layouts.models import StoredLayout
from jobs.layouts.services import (
    KEPT_UNUSED,
    LEASE,
    MOST_ATTEMPTS,
    WORTH_PROVING,
    forget_unused_layouts,
    prove_wanted_layouts,
    search_longer,
)
from tests.jobs.layouts.conftest import small_task

pytestmark = pytest.mark.django_db
State = StoredLayout.State


def want(length_mm: int, *, seconds_ago: float = 0, **fields) -> StoredLayout:
    form = deck_task_as_json(small_task(length_mm))
    now = timezone.now()
    wanted = {
        "digest": deck_task_digest(form),
        "task": form,
        "asked_at": now - timedelta(seconds=seconds_ago),
        "used_on": timezone.localdate(now),
    }
    return StoredLayout.objects.create(**wanted | fields)


def lengths(asked) -> list[int]:
    return [task.zones[0].outline[1][0] for task, _ in asked]


def test_the_newest_is_proved_first_and_so_many_a_round(solver):
    asked = solver()
    for length_mm, seconds_ago in ((4800, 30), (5400, 10), (6000, 20)):
        want(length_mm, seconds_ago=seconds_ago)
    assert prove_wanted_layouts(at_most=2) == 2
    assert lengths(asked) == [5400, 6000]
    assert prove_wanted_layouts() == 1
    assert prove_wanted_layouts() == 0


def test_what_landed_says_so_with_its_bound(solver):
    solver()
    row = want(4800)
    prove_wanted_layouts()
    row.refresh_from_db()
    assert row.state == State.LANDED
    assert row.landed_at is not None
    assert laid_deck_from_json(row.laid).proved


def test_a_gap_is_searched_for_longer_and_only_once(solver):
    asked = solver(proof=2, long=1)
    row = want(4800)
    prove_wanted_layouts()
    row.refresh_from_db()
    assert row.state == State.SEARCH_WANTED
    assert search_longer() == 1
    assert search_longer() == 0
    row.refresh_from_db()
    assert row.state == State.LANDED
    laid = laid_deck_from_json(row.laid)
    assert laid.cost - laid.bound.least == 1
    assert [effort for _, effort in asked] == [Effort.PROOF, Effort.LONG]


def test_a_longer_search_that_finds_less_loses_nothing(solver):
    solver(proof=1, long=3)
    row = want(4800)
    prove_wanted_layouts()
    search_longer()
    row.refresh_from_db()
    laid = laid_deck_from_json(row.laid)
    assert laid.cost - laid.bound.least == 1


def test_one_that_fails_holds_up_no_other_and_is_given_up(solver, monkeypatch, caplog):
    solver()
    lay = services.lay_deck

    def fail_at_5400(task, effort):
        if task.zones[0].outline[1][0] == 5400:
            raise ValueError("broken")
        return lay(task, effort)

    monkeypatch.setattr(services, "lay_deck", fail_at_5400)
    broken, good = want(5400), want(4800, seconds_ago=5)
    prove_wanted_layouts()
    for row in (broken, good):
        row.refresh_from_db()
    assert (broken.state, good.state) == (State.GIVEN_UP, State.LANDED)
    assert len(caplog.records) == MOST_ATTEMPTS
    assert prove_wanted_layouts() == 0


def test_a_longer_search_that_fails_leaves_the_proof(solver, monkeypatch):
    solver(proof=1)
    row = want(4800)
    prove_wanted_layouts()
    monkeypatch.setattr(services, "lay_deck", None)
    for _ in range(MOST_ATTEMPTS):
        search_longer()
    row.refresh_from_db()
    assert row.state == State.LANDED
    assert row.laid is not None


def test_a_task_that_another_worker_holds_is_left_until_its_lease_ends(solver):
    asked = solver()
    now, lease = timezone.now(), LEASE[State.PROOF_WANTED]
    row = want(4800, taken_at=now - lease / 2, attempts=1)
    assert prove_wanted_layouts() == 0
    StoredLayout.objects.update(taken_at=now - lease * 2)
    assert prove_wanted_layouts() == 1
    assert len(asked) == 1
    row.refresh_from_db()
    assert row.state == State.LANDED


def test_a_task_whose_workers_died_is_given_up(solver):
    asked = solver()
    row = want(4800, attempts=MOST_ATTEMPTS, taken_at=timezone.now() - 2 * LEASE[State.PROOF_WANTED])
    assert prove_wanted_layouts() == 0
    row.refresh_from_db()
    assert row.state == State.GIVEN_UP
    assert asked == []


def test_what_nobody_waits_for_any_longer_is_not_proved(solver):
    asked = solver()
    want(4800, seconds_ago=WORTH_PROVING.total_seconds() + 1)
    assert prove_wanted_layouts() == 0
    assert asked == []


def test_looking_when_nothing_is_wanted_is_one_query():
    with CaptureQueriesContext(connection) as queries:
        prove_wanted_layouts()
    assert len(queries) == 1


def test_what_nobody_used_is_forgotten_and_what_was_used_is_kept(solver):
    solver()
    today = timezone.localdate()
    old = want(4800, used_on=today - KEPT_UNUSED - timedelta(days=1), state=State.LANDED, laid={})
    used = want(5400, used_on=today, state=State.LANDED, laid={})
    passed_by = want(6000, seconds_ago=25 * 3600)
    waiting = want(6600)
    forget_unused_layouts(timezone.now())
    left = set(StoredLayout.objects.values_list("pk", flat=True))
    assert left == {used.pk, waiting.pk}
    assert {old.pk, passed_by.pk}.isdisjoint(left)


def test_nothing_lands_without_a_layout():
    with pytest.raises(IntegrityError), transaction.atomic():
        want(4800, state=State.LANDED)


@pytest.mark.skipif(connection.vendor == "sqlite", reason="SQLite has one writer and locks no rows")
@pytest.mark.django_db(transaction=True)
def test_two_workers_at_once_take_two_tasks(solver):
    """The second skips the row that the first has locked."""
    solver()
    for length_mm in (4800, 5400, 6000, 6600):
        want(length_mm)
    taken, begin = [], threading.Barrier(2)

    def work():
        begin.wait()
        for _ in range(2):
            row = services._take(State.PROOF_WANTED)
            if row is not None:
                taken.append(row.pk)
        connections.close_all()

    workers = [threading.Thread(target=work) for _ in range(2)]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
    assert len(taken) == len(set(taken)) == 4
