from __future__ import annotations

import threading
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from contractor_site import worker


class Command(BaseCommand):
    help = "Do the work that waits for no visitor, round after round, until stopped."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--once", action="store_true", help="one round, then end")
        parser.add_argument("--pause", type=float, default=30, metavar="SECONDS", help="between rounds (30)")
        parser.add_argument(
            "--with-parent", action="store_true", help="end when the program that started it has ended"
        )

    def handle(self, *, once: bool, pause: float, with_parent: bool, **_: Any) -> None:
        if once:
            worker.work_once(timezone.now())
            worker.work_off_what_is_wanted(timezone.now())
            return
        worker.give_way_to_pages()
        stopped = threading.Event()
        worker.stop_on_signals(stopped)
        if with_parent:
            worker.stop_with_parent(stopped)
        worker.work_until_stopped(pause_seconds=pause, stopped=stopped)
