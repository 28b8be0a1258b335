"""The demo as a person meets it: a firm with its jobs, papers on disk, log-ins, and a site that answers."""

from __future__ import annotations

import json
import os
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from django.conf import settings
from django.core.management import call_command
from django.db import OperationalError, connection, connections, transaction
from django.db.migrations.executor import MigrationExecutor
from gunicorn.app.base import BaseApplication

from contractor_site.first_run.cannot_start import CannotStart
from contractor_site.first_run.demo_folder import DEMO_MARK, FOLDER
from contractor_site.wsgi import application
from jobs.demo import DemoSummary, build_demo

ACCOUNT = FOLDER / "log-ins.json"
"""The log-ins of the demo, readable by whoever ran it: the database keeps only what passwords hash to."""


def prepare(papers_folder: Path) -> str:
    """Make whatever of the demo is not there yet, and return what to tell the person."""
    try:
        _refuse_a_foreign_database()
        executor = MigrationExecutor(connection)
        if executor.migration_plan(executor.loader.graph.leaf_nodes()):
            call_command("migrate", verbosity=0, interactive=False)
        # Together or not at all: a firm whose log-ins were never written down is of no use to anyone.
        with transaction.atomic():
            summary = build_demo(papers_folder, settings.BASE_URL, tell=_say)
            account = _read_account() if summary.already_there else _keep_account(summary)
    except OperationalError as error:
        if "full" in str(error):
            raise CannotStart("The disk is full. Free some space and run the command again.") from error
        raise
    return _told(account, summary.papers)


def _say(words: str) -> None:
    print(words, file=sys.stderr, flush=True)


def refuse_a_taken_port(port: int) -> None:
    """Find out before any work is done, and say it in one line."""
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind(("127.0.0.1", port))
        except (OSError, OverflowError) as error:
            raise CannotStart(
                f"Port {port} cannot be used ({getattr(error, 'strerror', error)}): "
                "stop what uses it, or choose another with --port."
            ) from error


def serve(port: int) -> None:
    """Serve with the server of production until Ctrl-C, a worker beside it."""
    connections.close_all()  # the server forks, and a connection must not be shared across that
    with _worker_beside():
        DemoServer(port).run()


@contextmanager
def _worker_beside() -> Iterator[None]:
    """Run the worker as production does, in a process of its own, so that it takes no time from the pages."""
    command = [sys.executable, str(settings.ROOT / "manage.py"), "worker", "--with-parent"]
    started_by, worker = os.getpid(), subprocess.Popen(command, stdin=subprocess.DEVNULL)
    try:
        yield
    finally:
        if os.getpid() == started_by:  # a process that the server forked leaves by this way too
            worker.terminate()
            worker.wait()


class DemoServer(BaseApplication):
    """gunicorn without its command line."""

    def __init__(self, port: int) -> None:
        self.port = port
        super().__init__()

    def load_config(self) -> None:
        for name, value in {
            "bind": f"127.0.0.1:{self.port}",
            "worker_class": "gthread",
            "workers": 1,
            "threads": 8,
            "control_socket_disable": True,
            "loglevel": "warning",
        }.items():
            self.cfg.set(name, value)

    def load(self) -> Any:
        return application


def _refuse_a_foreign_database() -> None:
    """Look again through Django's own eyes: its settings could name another file than the marked one."""
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA application_id")
            if cursor.fetchone()[0] == DEMO_MARK:
                return
    raise CannotStart("This database was not made by the demo, so the demo leaves it alone.")


def _keep_account(summary: DemoSummary) -> dict[str, Any]:
    account = {
        "log_ins": [list(log_in) for log_in in summary.log_ins],
        "customer_link": summary.customer_link,
    }
    draft = ACCOUNT.with_suffix(".draft")
    draft.unlink(missing_ok=True)
    with os.fdopen(os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w") as file:
        json.dump(account, file, indent=2)
    draft.replace(ACCOUNT)
    return account


def _read_account() -> dict[str, Any]:
    try:
        return json.loads(ACCOUNT.read_text())  # type: ignore[no-any-return]
    except (FileNotFoundError, ValueError):
        raise CannotStart(
            f"The demo's log-ins are lost; remove the folder {FOLDER} and run the demo again."
        ) from None


def _told(account: dict[str, Any], papers: list[Path]) -> str:
    link = urlsplit(account["customer_link"])
    customer_link = f"{settings.BASE_URL}{link.path}"
    rows = [("", "user name", "password"), *account["log_ins"]]
    lines = [
        "Papers:",
        *(f"  {paper}" for paper in papers),
        "",
        f"Sign in at {settings.BASE_URL}/",
        *(f"  {role:<9}  {name:<12}  {password}" for role, name, password in rows),
        "",
        "What the customer sees:",
        f"  {customer_link}",
        "",
    ]
    return "\n".join(lines)
