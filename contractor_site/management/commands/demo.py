from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand

from contractor_site import demo


class Command(BaseCommand):
    help = "Show the main job on an invented firm, in a database of its own, and serve it on this machine."
    requires_system_checks = ()  # a second run should not wait for them

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--no-serve", action="store_true", help="end once the papers are written")
        parser.add_argument("--port", type=int, default=8000, help="to serve on (8000)")

    def handle(self, *, no_serve: bool, port: int, **_: Any) -> None:
        if not no_serve:
            demo.refuse_a_taken_port(port)
        self.stdout.write(demo.prepare(settings.ROOT / "demo-papers"))
        self.stdout.flush()
        if not no_serve:
            self.stdout.write(f"Serving on {settings.BASE_URL} - stop with Ctrl-C.")
            self.stdout.flush()
            demo.serve(port)
