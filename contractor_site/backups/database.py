"""The database of an archive: a consistent copy of it, a proof of the copy, and putting it in place."""

from __future__ import annotations

import os
import re
import sqlite3
import subprocess
from collections.abc import Iterable
from contextlib import closing
from pathlib import Path

from django.conf import settings
from django.db import DatabaseError, connection
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder

from contractor_site.backups.manifest import CannotBackUp, CannotRestore, Manifest, Refused

SQLITE_MEMBER = "database.sqlite3"
POSTGRESQL_MEMBER = "database.pgdump"
DATABASE_MEMBERS = (SQLITE_MEMBER, POSTGRESQL_MEMBER)


def take_snapshot(folder: Path) -> Path:
    """Copy the database as it is at one moment, while others go on writing."""
    if connection.vendor == "sqlite":
        snapshot = folder / SQLITE_MEMBER
        with closing(sqlite3.connect(settings.DATABASES["default"]["NAME"], timeout=20)) as database:
            database.execute("VACUUM INTO ?", [str(snapshot)])
        complaint = _sqlite_complaint(snapshot)
        if complaint:
            raise CannotBackUp(f"The database is damaged, so no backup was made: {complaint}")
        return snapshot
    snapshot = folder / POSTGRESQL_MEMBER
    try:
        _run_client(["pg_dump", "--format=custom", "--no-owner", "--no-privileges", f"--file={snapshot}"])
    except subprocess.CalledProcessError as error:
        raise CannotBackUp(f"pg_dump failed: {error.stderr.decode(errors='replace').strip()}") from error
    return snapshot


def migrations_applied(snapshot: Path) -> tuple[tuple[str, str], ...]:
    """Return which migrations the snapshot has had."""
    if snapshot.name == SQLITE_MEMBER:
        with closing(sqlite3.connect(f"file:{snapshot}?mode=ro", uri=True)) as database:
            return tuple(database.execute("SELECT app, name FROM django_migrations ORDER BY id"))
    return tuple(MigrationRecorder(connection).applied_migrations())


def refuse_unusable(manifest: Manifest, folder: Path) -> None:
    """Refuse a database that this site cannot take: another engine, damage, or a newer version."""
    if manifest.engine != connection.vendor:
        raise CannotRestore(
            f"The archive is of a {manifest.engine} database and this site uses {connection.vendor}: "
            "set DATABASE_URL to one of the archive's kind."
        )
    known = MigrationLoader(None).disk_migrations
    unknown = [f"{app}.{name}" for app, name in manifest.migrations if (app, name) not in known]
    if unknown:
        raise CannotRestore(f"The archive is of a newer version (with {unknown[0]}): upgrade this site.")
    if connection.vendor == "sqlite":
        complaint = _sqlite_complaint(folder / SQLITE_MEMBER)
        if complaint:
            raise CannotRestore(f"The archive's database is damaged: {complaint}")
        if migrations_applied(folder / SQLITE_MEMBER) != manifest.migrations:
            raise CannotRestore("The archive's database is not the one its manifest speaks of.")
    else:
        try:
            _run_client(["pg_restore", "--list", str(folder / POSTGRESQL_MEMBER)], connects=False)
        except subprocess.CalledProcessError as error:
            raise CannotRestore("The archive's database is damaged: pg_restore cannot read it.") from error


def load_postgresql(dump: Path, *, kept_as: str) -> None:
    """Put the dump in place in one transaction; tables that were there stay, in a schema called `kept_as`."""
    sql = _run_client(["pg_restore", "--no-owner", "--no-privileges", "--file=-", str(dump)], connects=False)
    # pg_restore may name a public schema of its own, depending on the version that dumped.
    sql = re.sub(rb"(?m)^CREATE SCHEMA public;$", b"", sql)
    swap = f'ALTER SCHEMA public RENAME TO "{kept_as}"; CREATE SCHEMA public;\n' if kept_as else ""
    command = ["psql", "--no-psqlrc", "--quiet", "--single-transaction", "--set=ON_ERROR_STOP=1", "--file=-"]
    try:
        _run_client(command, standard_input=swap.encode() + sql)
    except subprocess.CalledProcessError as error:
        words = error.stderr.decode(errors="replace").strip()
        raise CannotRestore(f"PostgreSQL refused the archive, and nothing was changed: {words}") from error


def holds_something() -> bool:
    """Tell whether the database in use has any tables."""
    name = settings.DATABASES["default"]["NAME"]
    if connection.vendor == "sqlite" and not Path(name).exists():
        return False
    try:
        return bool(connection.introspection.table_names())
    except DatabaseError:
        return True  # damaged beyond reading is not nothing


def processes_using(path: Path) -> Iterable[int]:
    """Yield the other processes that have a file open, as far as this user may see."""
    for link in Path("/proc").glob("[0-9]*/fd/*"):
        try:
            is_open = link.readlink() == path
        except OSError:  # ended meanwhile, or someone else's
            continue
        if is_open and int(link.parts[2]) != os.getpid():
            yield int(link.parts[2])


def _sqlite_complaint(path: Path) -> str:
    try:
        with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as database:
            answer = str(database.execute("PRAGMA integrity_check").fetchone()[0])
            broken = database.execute("PRAGMA foreign_key_check").fetchone()
    except sqlite3.DatabaseError as error:
        return str(error)
    if answer != "ok":
        return answer
    return f"a row of {broken[0]} refers to nothing" if broken else ""


def _run_client(command: list[str], *, connects: bool = True, standard_input: bytes | None = None) -> bytes:
    """Run one of PostgreSQL's own programs; the password goes where `ps` does not show it."""
    database = settings.DATABASES["default"]
    variables = {
        "PGHOST": database["HOST"], "PGPORT": database["PORT"], "PGUSER": database["USER"],
        "PGPASSWORD": database["PASSWORD"], "PGDATABASE": database["NAME"],
        "PGSSLMODE": database["OPTIONS"].get("sslmode", ""),
    }  # fmt: skip
    environment = {
        **os.environ,
        **{name: str(value) for name, value in variables.items() if value and connects},
    }
    try:
        return subprocess.run(
            command, env=environment, input=standard_input, capture_output=True, check=True
        ).stdout
    except FileNotFoundError:
        raise Refused(
            f"{command[0]} is missing: apt-get install --yes --no-install-recommends postgresql-client"
        ) from None
