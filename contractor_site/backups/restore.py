"""Put an archive in the place of what is there: prove it whole, then swap, then keep the old beside."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from contextlib import ExitStack
from datetime import UTC, datetime
from pathlib import Path

from django.conf import settings
from django.core.management import call_command
from django.db import connection, connections

from contractor_site.backups.archive import FOLDERS, unpack_proved
from contractor_site.backups.database import (
    POSTGRESQL_MEMBER,
    SQLITE_MEMBER,
    holds_something,
    load_postgresql,
    processes_using,
    refuse_unusable,
)
from contractor_site.backups.manifest import CannotRestore, Manifest


def restore(archive: Path, *, replace: bool) -> tuple[Manifest, str]:
    """Restore an archive and return its manifest and where what was there before is kept, if anything was.

    Raises:
        CannotRestore: The archive or the site is not fit for it; nothing has been touched.
    """
    if not archive.is_file():
        raise CannotRestore(f"There is no file {archive}.")
    something_there = holds_something() or any(_has_files(settings.DATA_DIR / folder) for folder in FOLDERS)
    if something_there and not replace:
        raise CannotRestore(
            "This site holds records already: add --replace to put the archive in their place."
        )
    settings.DATA_DIR.mkdir(parents=True, exist_ok=True, mode=0o700)
    with tempfile.TemporaryDirectory(prefix="restore-", dir=settings.DATA_DIR) as scratch:
        folder = Path(scratch)
        manifest = unpack_proved(archive, folder)
        refuse_unusable(manifest, folder)
        stamp = datetime.now(UTC).strftime("%Y%m%d-%H%M%S")
        if connection.vendor == "sqlite":
            _restore_sqlite(folder, stamp)
        else:
            _restore_postgresql(folder, stamp, replace=holds_something())
    return manifest, f"before-restore-{stamp}" if something_there else ""


def _restore_sqlite(folder: Path, stamp: str) -> None:
    database = Path(settings.DATABASES["default"]["NAME"])
    connections.close_all()
    others = sorted(set(processes_using(database)))
    if others:
        raise CannotRestore(
            f"The site is running (process {others[0]}): stop it and its worker, then restore."
        )
    # An older archive is brought up to date before the swap, so that a failure there changes nothing.
    _migrate_copy(folder / SQLITE_MEMBER)
    fresh = database.with_name(f"{database.name}.restored")
    shutil.move(folder / SQLITE_MEMBER, fresh)  # across disks, if the database has one of its own
    with ExitStack() as undo:
        for suffix in ("", "-wal", "-shm"):
            current = database.with_name(database.name + suffix)
            _put_aside(current, database.with_name(f"{database.name}.before-restore-{stamp}{suffix}"), undo)
        _swap_folders(folder, stamp, undo)
        fresh.replace(database)
        undo.pop_all()


def _restore_postgresql(folder: Path, stamp: str, *, replace: bool) -> None:
    kept_as = f"before_restore_{stamp.replace('-', '_')}" if replace else ""
    with ExitStack() as undo:
        _swap_folders(folder, stamp, undo)
        connections.close_all()
        load_postgresql(folder / POSTGRESQL_MEMBER, kept_as=kept_as)
        undo.pop_all()
    call_command("migrate", verbosity=0, interactive=False)


def _swap_folders(folder: Path, stamp: str, undo: ExitStack) -> None:
    kept = settings.DATA_DIR / f"before-restore-{stamp}"
    for name in FOLDERS:
        current = settings.DATA_DIR / name
        _put_aside(current, kept / name, undo)
        (folder / name).mkdir(exist_ok=True, mode=0o700)
        (folder / name).rename(current)
        undo.callback(current.rename, folder / name)


def _put_aside(current: Path, kept: Path, undo: ExitStack) -> None:
    if current.exists():
        kept.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        current.rename(kept)
        undo.callback(kept.rename, current)


def _migrate_copy(copy: Path) -> None:
    """Bring a copy up to date in a process of its own: the settings of this one name the site's database."""
    command = [sys.executable, str(settings.ROOT / "manage.py"), "migrate", "--verbosity", "0", "--no-input"]
    variables = {**os.environ, "DATABASE_URL": f"sqlite:///{copy.resolve()}"}
    outcome = subprocess.run(command, env=variables, capture_output=True, text=True, check=False)
    if outcome.returncode != 0:
        raise CannotRestore(f"The archive's database could not be brought up to date:\n{outcome.stderr}")


def _has_files(folder: Path) -> bool:
    return any(path.is_file() for path in folder.rglob("*"))
