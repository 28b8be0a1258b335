"""Work that waits for no visitor: old sessions, what is due, layouts to prove, and a sign of life."""

from __future__ import annotations

import logging
import os
import signal
import threading
from collections.abc import Callable
from datetime import datetime

from django.conf import settings
from django.contrib.sessions.models import Session
from django.db import close_old_connections
from django.utils import timezone

from jobs.tasks import prove_layouts, run_due, search_longer, send_mail

logger = logging.getLogger("eavesbook.worker")

Task = Callable[[datetime], object]

BESIDE: tuple[tuple[Task, float], ...] = ((prove_layouts, 1.0), (search_longer, 5.0), (send_mail, 5.0))
"""Tasks that somebody waits for, and their own pause in seconds: each in a thread, so that a long search
holds up no proof, a slow mail server no search, and none of them the rounds."""
LAST_WAIT_SECONDS = 2.0
"""What is not done by then is asked for again: a page that waits must not keep the machine from stopping."""


def work_until_stopped(*, pause_seconds: float, stopped: threading.Event) -> None:
    """Make round after round until told to stop; what fails is logged, and the next round still comes."""
    beside = [
        threading.Thread(target=_work_beside, args=(task, pause, stopped), daemon=True)
        for task, pause in BESIDE
    ]
    for thread in beside:
        thread.start()
    while not stopped.is_set():
        work_once(timezone.now())
        stopped.wait(pause_seconds)
    for thread in beside:
        thread.join(LAST_WAIT_SECONDS)


def work_once(now: datetime) -> None:
    """Run each task on its own, so that one that fails holds up no other."""
    close_old_connections()
    for task in (end_old_sessions, run_due):
        _attempt(task, now)
    close_old_connections()
    settings.WORKER_HEARTBEAT.touch()


def work_off_what_is_wanted(now: datetime) -> None:
    """Do once what a worker that goes on does beside its rounds."""
    for task, _pause in BESIDE:
        _attempt(task, now)


def end_old_sessions(now: datetime) -> None:
    """Forget sessions that have ended."""
    Session.objects.filter(expire_date__lt=now).delete()


def give_way_to_pages() -> None:
    """Take what the pages leave of the machine: a proof may come a little later, a page may not."""
    os.nice(10)


def stop_on_signals(stopped: threading.Event) -> None:
    """Finish the round in hand on Ctrl-C or a service manager's stop, then end."""
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, lambda _number, _frame: stopped.set())


def stop_with_parent(stopped: threading.Event, *, pause_seconds: float = 1.0) -> None:
    """End soon after the program that started this one has, however that ended."""
    parent = os.getppid()

    def watch() -> None:
        while not stopped.wait(pause_seconds):
            if os.getppid() != parent:
                stopped.set()

    threading.Thread(target=watch, daemon=True).start()


def _work_beside(task: Task, pause_seconds: float, stopped: threading.Event) -> None:
    while not stopped.is_set():
        close_old_connections()
        _attempt(task, timezone.now())
        stopped.wait(pause_seconds)


def _attempt(task: Task, now: datetime) -> None:
    try:
        task(now)
    except Exception:  # whatever it is, the next task and the next round must still come
        logger.exception("task failed", extra={"figures": {"task": task.__name__}})
