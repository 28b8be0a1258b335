"""What landed is taken as it is; anything else is laid at once, and its proof asked for once."""

from __future__ import annotations

from datetime import timedelta
from types import SimpleNamespace

import pytest
import time_machine
from django.db import DatabaseError, connection, transaction
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from estimating.deck_json import deck_task_as_json, deck_task_digest, deck_task_from_json
from estimating.design.boards.lay import Effort
from estimating.estimate import LAID_WHILE_SOMEONE_TYPES
from jobs.layouts.models import StoredLayout
from jobs.layouts.services import prove_wanted_layouts
from jobs.layouts.store import Awaited, LayFromStore
from tests.jobs.layouts.conftest import small_task

pytestmark = pytest.mark.django_db
NOTHING_SHOWN = SimpleNamespace(zones=())
State = StoredLayout.State


@pytest.fixture
def ask(django_capture_on_commit_callbacks):
    """Lay as one estimate does, and let its transaction end."""

    def lay(*tasks, shown=None):
        layouts = LayFromStore()
        zones = [SimpleNamespace(problem=problem) for problem in shown.zones] if shown else []
        with django_capture_on_commit_callbacks(execute=True):
            laid = [layouts(task) for task in tasks]
            layouts.ask_for_proofs(SimpleNamespace(zones=zones))
        return layouts, laid

    return lay


def test_a_task_never_seen_is_laid_at_once_and_its_proof_asked_for(task, solver, ask):
    asked = solver()
    layouts, (laid,) = ask(task)
    assert asked == [(task, Effort.FIRST)]
    assert laid.bound is None
    row = StoredLayout.objects.get()
    assert row.state == State.PROOF_WANTED
    assert deck_task_from_json(row.task) == task
    assert layouts.awaited == Awaited(others=(row.digest,))


def test_a_layout_that_landed_is_read_and_not_laid_again(task, solver, ask):
    asked = solver()
    ask(task)
    prove_wanted_layouts()
    del asked[:]
    layouts, (laid,) = ask(task)
    assert asked == []
    assert laid.proved
    assert not layouts.awaited


def test_beyond_a_few_decks_an_answer_leaves_the_others_to_the_worker(solver, ask):
    asked = solver()
    tasks = [small_task(length_mm) for length_mm in (3000, 3600, 4200, 4800)]
    layouts, laid = ask(*tasks)
    assert [each is None for each in laid] == [False, False, False, True]
    assert [task for task, _ in asked] == tasks[:LAID_WHILE_SOMEONE_TYPES]
    assert len(layouts.awaited.others) == 4
    prove_wanted_layouts()
    assert all(ask(*tasks)[1])


def test_asking_twice_asks_once(task, solver, ask):
    solver()
    ask(task)
    layouts, _ = ask(task, small_task(5400), task)
    assert StoredLayout.objects.count() == 2
    assert set(layouts.awaited.others) == set(StoredLayout.objects.values_list("digest", flat=True))


def test_looking_costs_one_query_a_task_and_nothing_is_written_when_all_is_there(task, solver, ask):
    solver()
    other = small_task(5400)
    ask(task, other)
    prove_wanted_layouts()
    with CaptureQueriesContext(
        connection,
    ) as queries:
        ask(task, other)
    assert len(queries) == 2


def test_a_page_asked_for_again_comes_before_those_asked_for_since(task, solver, ask):
    asked = solver()
    later = small_task(5400)
    with time_machine.travel(timezone.now(), tick=False) as clock:
        ask(task)
        clock.shift(20)
        ask(later)
        clock.shift(20)
        ask(task)
        del asked[:]
        prove_wanted_layouts()
    assert [laid for laid, _ in asked] == [task, later]


def test_the_deck_that_is_shown_is_proved_before_those_it_was_compared_with(solver, ask):
    asked = solver()
    tasks = [small_task(length_mm) for length_mm in (4800, 5400, 6000)]
    layouts, _ = ask(*tasks, shown=tasks[1])
    digests = [deck_task_digest(deck_task_as_json(task)) for task in tasks]
    assert layouts.awaited == Awaited(shown=(digests[1],), others=(digests[0], digests[2]))
    del asked[:]
    prove_wanted_layouts()
    assert [laid for laid, _ in asked] == [tasks[1], tasks[0], tasks[2]]


def test_a_gap_left_by_the_proof_is_searched_for_once_and_awaited(task, solver, ask):
    solver(proof=1)
    ask(task)
    prove_wanted_layouts()
    layouts, (laid,) = ask(task, shown=task)
    assert laid.cost - laid.bound.least == 1
    assert layouts.awaited == Awaited(searches=(StoredLayout.objects.get().digest,))


def test_what_was_given_up_is_laid_at_once_and_waited_for_no_more(task, solver, ask):
    solver()
    ask(task)
    StoredLayout.objects.update(state=State.GIVEN_UP)
    layouts, (laid,) = ask(task)
    assert laid.bound is None
    assert not layouts.awaited


def test_a_layout_of_another_shape_is_as_good_as_none(task, solver, ask):
    solver()
    ask(task)
    prove_wanted_layouts()
    StoredLayout.objects.update(laid={"zones": "of another program"})
    _, (laid,) = ask(task)
    assert laid.bound is None
    assert StoredLayout.objects.get().state == State.PROOF_WANTED
    prove_wanted_layouts()
    _, (laid,) = ask(task)
    assert laid.proved


def test_the_day_it_was_last_shown_is_kept_so_that_it_is_not_swept(task, solver, ask):
    solver()
    ask(task)
    prove_wanted_layouts()
    StoredLayout.objects.update(used_on=timezone.localdate() - timedelta(days=3))
    ask(task)
    assert StoredLayout.objects.get().used_on == timezone.localdate()


def test_whoever_may_not_write_still_gets_a_layout(
    task, solver, monkeypatch, django_capture_on_commit_callbacks, caplog
):
    def refuse(*_, **__):
        raise DatabaseError("cannot execute INSERT in a read-only transaction")

    solver()
    monkeypatch.setattr(StoredLayout.objects, "bulk_create", refuse)
    layouts = LayFromStore()
    with django_capture_on_commit_callbacks(execute=True):
        laid = layouts(task)
        layouts.ask_for_proofs(NOTHING_SHOWN)
    assert laid.boards > 0
    assert not StoredLayout.objects.exists()
    assert "Error calling" in caplog.text


def test_a_transaction_that_is_rolled_back_asks_for_nothing(task, solver, django_capture_on_commit_callbacks):
    solver()
    layouts = LayFromStore()
    with django_capture_on_commit_callbacks(execute=True), transaction.atomic():
        layouts(task)
        layouts.ask_for_proofs(NOTHING_SHOWN)
        transaction.set_rollback(True)
    assert not StoredLayout.objects.exists()


def test_a_task_and_its_digest_belong_together(task, solver, ask):
    solver()
    ask(task)
    row = StoredLayout.objects.get()
    assert row.task == deck_task_as_json(task)
    assert len(row.digest) == 32
