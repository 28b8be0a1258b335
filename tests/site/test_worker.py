from __future__ import annotations

import threading
from datetime import timedelta

import pytest
from django.contrib.sessions.models import Session
from django.core.management import call_command
from django.utils import timezone

from contractor_site import worker

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def heartbeat(settings, tmp_path, monkeypatch):
    settings.WORKER_HEARTBEAT = tmp_path / "worker_seen"
    monkeypatch.setattr(worker, "close_old_connections", lambda: None)  # the test's transaction lives on them
    monkeypatch.setattr(worker, "run_due", lambda _now: None)
    monkeypatch.setattr(worker, "BESIDE", ())
    return settings.WORKER_HEARTBEAT


def test_a_round_ends_old_sessions_and_leaves_the_others():
    now = timezone.now()
    Session.objects.create(session_key="old", session_data="", expire_date=now - timedelta(minutes=1))
    Session.objects.create(session_key="open", session_data="", expire_date=now + timedelta(hours=1))
    worker.work_once(now)
    assert Session.objects.get().session_key == "open"


def test_a_round_is_a_sign_of_life(heartbeat):
    worker.work_once(timezone.now())
    assert heartbeat.exists()


def test_a_task_that_fails_is_logged_and_holds_up_no_other(monkeypatch, heartbeat, caplog):
    def fail(_now):
        raise ValueError("broken")

    done = []
    monkeypatch.setattr(worker, "end_old_sessions", fail)
    monkeypatch.setattr(worker, "run_due", done.append)
    worker.work_once(timezone.now())
    assert len(done) == 1
    assert heartbeat.exists()
    assert caplog.records[0].figures == {"task": "fail"}


def test_told_to_stop_it_ends_after_the_round_in_hand(monkeypatch):
    stopped = threading.Event()
    rounds = []

    def one_round(now):
        rounds.append(now)
        if len(rounds) == 3:
            stopped.set()

    monkeypatch.setattr(worker, "work_once", one_round)
    worker.work_until_stopped(pause_seconds=0, stopped=stopped)
    assert len(rounds) == 3


def test_proofs_and_long_searches_go_on_beside_the_rounds(monkeypatch):
    """A long search holds up no proof, and neither of them the rounds."""
    stopped, searching, proved = threading.Event(), threading.Event(), []

    def search(_now):
        searching.set()
        assert stopped.wait(10)

    def prove(now):
        proved.append(now)
        if len(proved) == 3:
            assert searching.wait(10)
            stopped.set()

    monkeypatch.setattr(worker, "work_once", lambda _now: None)
    monkeypatch.setattr(worker, "BESIDE", ((search, 0.0), (prove, 0.0)))
    worker.work_until_stopped(pause_seconds=0.01, stopped=stopped)
    assert len(proved) == 3


def test_once_does_what_is_wanted_too(monkeypatch):
    done = []
    monkeypatch.setattr(worker, "BESIDE", ((done.append, 1.0),))
    call_command("worker", "--once")
    assert len(done) == 1


def test_it_ends_soon_after_the_program_that_started_it(monkeypatch):
    stopped = threading.Event()
    parents = iter([41, 41, 1])
    monkeypatch.setattr(worker.os, "getppid", lambda: next(parents, 1))
    worker.stop_with_parent(stopped, pause_seconds=0.001)
    assert stopped.wait(10)


def test_a_worker_that_goes_on_gives_way_to_the_pages(monkeypatch):
    nice, stopped = [], []
    monkeypatch.setattr(worker.os, "nice", nice.append)
    monkeypatch.setattr(worker, "stop_on_signals", stopped.append)
    monkeypatch.setattr(worker, "work_until_stopped", lambda **_: stopped[0].set())
    call_command("worker")
    assert len(nice) == 1
    assert nice[0] > 0
