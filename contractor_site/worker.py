"""Work that waits for no visitor: old sessions, whatever the jobs say is due, and a sign of life."""

from __future__ import annotations

import logging
import signal
import threading
from collections.abc import Callable
from datetime import datetime

from django.conf import settings
from django.contrib.sessions.models import Session
from django.db import close_old_connections
from django.utils import timezone

from jobs.tasks import run_due

logger = logging.getLogger("eavesbook.worker")

Task = Callable[[datetime], object]


def work_until_stopped(*, pause_seconds: float, stopped: threading.Event) -> None:
    """Make round after round until told to stop; what fails is logged, and the next round still comes."""
    while not stopped.is_set():
        work_once(timezone.now())
        stopped.wait(pause_seconds)


def work_once(now: datetime) -> None:
    """Run each task on its own, so that one that fails holds up no other."""
    close_old_connections()
    for task in (end_old_sessions, run_due):
        _attempt(task, now)
    close_old_connections()
    settings.WORKER_HEARTBEAT.touch()


def end_old_sessions(now: datetime) -> None:
    """Forget sessions that have ended."""
    Session.objects.filter(expire_date__lt=now).delete()


def stop_on_signals(stopped: threading.Event) -> None:
    """Finish the round in hand on Ctrl-C or a service manager's stop, then end."""
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, lambda _number, _frame: stopped.set())


def _attempt(task: Task, now: datetime) -> None:
    try:
        task(now)
    except Exception:  # whatever it is, the next task and the next round must still come
        logger.exception("task failed", extra={"figures": {"task": task.__name__}})
