"""The demo lives in a folder and a database of its own, and touches no other."""

from __future__ import annotations

import argparse
import os
import sqlite3
from collections.abc import Sequence
from pathlib import Path

from contractor_site.first_run.cannot_start import CannotStart
from contractor_site.first_run.environment import ROOT

FOLDER = ROOT / ".eavesbook" / "demo"
DATABASE = FOLDER / "demo.sqlite3"
DEMO_MARK = 0x45424D4F
"""SQLite's application_id, "EBMO": written into the demo's database by the demo, and by nothing else."""


def take(options: Sequence[str]) -> None:
    """Point the settings at the demo's own folder, or refuse when what lies there is not the demo's."""
    if os.environ.get("DATABASE_URL", _url()) != _url():
        raise CannotStart(
            "DATABASE_URL names another database, and the demo uses only its own: unset DATABASE_URL."
        )
    FOLDER.mkdir(parents=True, exist_ok=True, mode=0o700)
    _mark_or_refuse(DATABASE)
    # Whatever the real site of this machine is set to, the demo stays on loopback and mails nobody.
    for name in ("EMAIL_URL", "EMAIL_FROM", "EAVESBOOK_SECRET_KEY", "EAVESBOOK_DEBUG"):
        os.environ.pop(name, None)
    os.environ.update(
        EAVESBOOK_DATA_DIR=str(FOLDER),
        EAVESBOOK_LOG_LEVEL="WARNING",
        DATABASE_URL=_url(),
        BASE_URL=f"http://127.0.0.1:{_port(options)}",
    )


def _port(options: Sequence[str]) -> int:
    """Read --port ahead of the command that will check it: the settings are fixed before a command runs."""
    reader = argparse.ArgumentParser(add_help=False, exit_on_error=False)
    reader.add_argument("--port", type=int, default=8000)
    try:
        port = int(reader.parse_known_args(list(options))[0].port)
    except argparse.ArgumentError:
        port = 0
    return port if 0 < port < 1 << 16 else 8000


def _mark_or_refuse(path: Path) -> None:
    is_new = not path.exists() or path.stat().st_size == 0
    try:
        database = sqlite3.connect(path, isolation_level=None)
        try:
            if is_new:
                database.execute(f"PRAGMA application_id = {DEMO_MARK}")
            mark = database.execute("PRAGMA application_id").fetchone()[0]
        finally:
            database.close()
    except sqlite3.DatabaseError as error:
        if "full" in str(error):
            raise CannotStart("The disk is full. Free some space and run the command again.") from error
        if "readonly" in str(error) or "unable to open" in str(error):
            raise CannotStart(
                f"No permission to write {path}. Run as its owner, or remove {FOLDER}."
            ) from error
        raise CannotStart(
            f"{path} is no database of the demo: move it away and run the demo again."
        ) from error
    if mark != DEMO_MARK:
        raise CannotStart(
            f"{path} was not made by the demo, so the demo leaves it alone: move it away first."
        )


def _url() -> str:
    return f"sqlite:///{DATABASE}"
