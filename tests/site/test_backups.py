"""Whole sites in folders of their own, through the commands that a person runs."""

from __future__ import annotations

import gzip
import hashlib
import io
import json
import os
import sqlite3
import subprocess
import sys
import tarfile
import threading
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import psycopg
import pytest

from contractor_site.backups.archive import unpack_proved
from contractor_site.backups.manifest import CannotRestore
from tests.private_postgresql import private_cluster

ROOT = Path(__file__).resolve().parents[2]
PAPER = "papers/ab/" + "ab" * 32 + ".pdf"
PHOTOGRAPH = "photographs/cd/" + "cd" * 32 + ".jpg"
Change = Callable[[str, bytes], bytes | None]
LATER = "2099-01-01 00:00:00+00:00"


@dataclass
class Site:
    """A site with records, reached as its keeper reaches it."""

    folder: Path
    database_url: str = ""

    def manage(self, *arguments: str | Path) -> subprocess.CompletedProcess[str]:
        variables = {
            "PATH": os.environ["PATH"],
            "EAVESBOOK_DATA_DIR": str(self.folder),
            "EAVESBOOK_NO_SETUP": "1",
            "EAVESBOOK_SECRET_KEY": "of the tests",
            "DATABASE_URL": self.database_url,
        }
        command = [sys.executable, str(ROOT / "manage.py"), *map(str, arguments)]
        return subprocess.run(command, env=variables, capture_output=True, text=True, check=False)

    def done(self, *arguments: str | Path) -> str:
        outcome = self.manage(*arguments)
        assert outcome.returncode == 0, outcome.stderr
        return outcome.stdout

    def refused(self, *arguments: str | Path) -> str:
        outcome = self.manage(*arguments)
        assert outcome.returncode == 1, outcome.stdout
        assert "Traceback" not in outcome.stderr
        return outcome.stderr

    @property
    def database(self) -> Path:
        return self.folder / "eavesbook.sqlite3"

    def connect(self) -> sqlite3.Connection | psycopg.Connection:
        return (
            psycopg.connect(self.database_url)
            if self.database_url
            else sqlite3.connect(self.database, timeout=20)
        )

    def write(self, *names: str) -> None:
        """Store records together in one transaction: the log-in table needs nothing else to exist."""
        with closing(self.connect()) as database, database:
            for name in names:
                database.execute(f"INSERT INTO django_session VALUES ('{name}', 'x', '{LATER}')")  # noqa: S608

    def records(self) -> set[str]:
        with closing(self.connect()) as database:
            return {row[0] for row in database.execute("SELECT session_key FROM django_session").fetchall()}

    def keep_files(self, word: bytes) -> None:
        for name in (PAPER, PHOTOGRAPH):
            path = self.folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(word + name.encode())


@pytest.fixture(scope="module")
def empty_database(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    site = Site(tmp_path_factory.mktemp("empty"))
    site.done("migrate", "--verbosity", "0")
    return site.database.read_bytes()


@pytest.fixture
def second(tmp_path: Path, empty_database: bytes) -> Site:
    """Return a site that holds other records than the archive does."""
    site = Site(tmp_path / "second")
    site.folder.mkdir()
    site.database.write_bytes(empty_database)
    site.write("newer")
    site.keep_files(b"second ")
    return site


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory, empty_database: bytes) -> Path:
    """Return the archive of a first site: one record, one paper, one photograph."""
    site = Site(tmp_path_factory.mktemp("first"))
    site.database.write_bytes(empty_database)
    site.write("kept")
    site.keep_files(b"first ")
    path = site.folder / "book.tar.gz"
    site.done("backup", path)
    return path


@pytest.fixture(scope="module")
def postgresql_url() -> Iterator[str]:
    with private_cluster() as url:
        yield url


def snapshot(folder: Path) -> dict[str, bytes]:
    """Return every file under a folder, but for what SQLite keeps beside its database while it is open."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and not path.name.endswith(("-wal", "-shm"))
    }


def rebuilt(archive: Path, folder: Path, change: Change, extra: str = "") -> Path:
    """Return a copy of an archive with members changed or left out, or a stranger added."""
    path = folder / "changed.tar.gz"
    with tarfile.open(archive) as old, tarfile.open(path, "w:gz") as new:
        for entry in old:
            content = change(entry.name, old.extractfile(entry).read())
            if content is not None:
                entry.size = len(content)
                new.addfile(entry, io.BytesIO(content))
        if extra:
            new.addfile(tarfile.TarInfo(extra), io.BytesIO())
    return path


def test_a_site_comes_back_whole_in_an_empty_place(archive, tmp_path):
    fresh = Site(tmp_path / "fresh")
    fresh.done("restore", archive)
    assert fresh.records() == {"kept"}
    assert (fresh.folder / PAPER).read_bytes() == b"first " + PAPER.encode()
    assert (fresh.folder / PHOTOGRAPH).read_bytes() == b"first " + PHOTOGRAPH.encode()
    assert not list(fresh.folder.glob("restore-*"))


def test_only_its_owner_can_read_an_archive_and_none_is_ever_overwritten(archive, second):
    assert archive.stat().st_mode & 0o777 == 0o600
    before = archive.read_bytes()
    assert "already" in second.refused("backup", archive)
    assert archive.read_bytes() == before


def test_a_backup_is_one_moment_of_a_site_that_is_in_use(second, tmp_path):
    stopped = threading.Event()
    written: list[int] = []

    def write_pairs() -> None:
        while not stopped.is_set():
            number = len(written)
            second.write(f"left {number}", f"right {number}")
            written.append(number)

    writer = threading.Thread(target=write_pairs)
    writer.start()
    try:
        second.done("backup", tmp_path / "busy.tar.gz")
    finally:
        stopped.set()
        writer.join()
    fresh = Site(tmp_path / "fresh")
    fresh.done("restore", tmp_path / "busy.tar.gz")
    kept = fresh.records()
    lefts = {key.split()[1] for key in kept if key.startswith("left")}
    assert lefts == {key.split()[1] for key in kept if key.startswith("right")}
    assert 0 < len(lefts) <= len(written)


def test_records_are_replaced_only_when_told_to_and_the_old_ones_stay_beside(archive, second):
    before = snapshot(second.folder)
    assert "--replace" in second.refused("restore", archive)
    assert snapshot(second.folder) == before

    second.done("restore", archive, "--replace")
    assert second.records() == {"kept"}
    assert (second.folder / PAPER).read_bytes().startswith(b"first ")
    (old_database,) = second.folder.glob("eavesbook.sqlite3.before-restore-*")
    with closing(sqlite3.connect(old_database)) as database:
        assert database.execute("SELECT session_key FROM django_session").fetchall() == [("newer",)]
    (old_paper,) = second.folder.glob(f"before-restore-*/{PAPER}")
    assert old_paper.read_bytes().startswith(b"second ")


def test_a_running_site_is_not_swapped_under_its_feet(archive, second):
    with closing(second.connect()) as database:
        database.execute("SELECT 1 FROM django_session").fetchall()
        assert f"process {os.getpid()}" in second.refused("restore", archive, "--replace")


def _flip(content: bytes, at: int) -> bytes:
    return content[:at] + bytes([content[at] ^ 1]) + content[at + 1 :]


def _only(name: str, new: Callable[[bytes], bytes | None]) -> Change:
    return lambda member, content: new(content) if member == name else content


def _newer(manifest: bytes) -> bytes:
    return json.dumps(json.loads(manifest) | {"format": 99}).encode()


def _rewritten(folder: Path, content: bytes) -> Path:
    (folder / "changed.tar.gz").write_bytes(content)
    return folder / "changed.tar.gz"


def _with_stranger(name: str) -> Callable[[Path, Path], Path]:
    return lambda path, folder: rebuilt(path, folder, lambda _name, content: content, name)


def _with(name: str, new: Callable[[bytes], bytes | None]) -> Callable[[Path, Path], Path]:
    return lambda path, folder: rebuilt(path, folder, _only(name, new))


DAMAGE: dict[str, Callable[[Path, Path], Path]] = {
    "a bit of a paper": _with(PAPER, lambda content: _flip(content, 3)),
    "a bit of the database": _with("database.sqlite3", lambda content: _flip(content, 99)),
    "a paper left out": _with(PAPER, lambda _content: None),
    "no manifest": _with("manifest.json", lambda _content: None),
    "a manifest that is none": _with("manifest.json", lambda _content: b"[]"),
    "a newer format": _with("manifest.json", _newer),
    "a paper nobody listed": _with_stranger("papers/new.pdf"),
    "a path upwards": _with_stranger("papers/../../settings.py"),
    "an absolute path": _with_stranger("/tmp/stranger"),  # noqa: S108
    "cut short": lambda path, folder: _rewritten(folder, path.read_bytes()[:-200]),
    "no archive at all": lambda _path, folder: _rewritten(folder, gzip.compress(b"hello")),
}


@pytest.mark.parametrize("damage", DAMAGE)
def test_a_damaged_archive_is_known_for_one_before_it_is_used(archive, tmp_path, damage):
    folder = tmp_path / "unpacked"
    folder.mkdir()
    with pytest.raises(CannotRestore):
        unpack_proved(DAMAGE[damage](archive, tmp_path), folder)
    assert not [path for path in tmp_path.rglob("*") if path.name in ("settings.py", "stranger")]


def test_a_damaged_archive_is_refused_and_nothing_is_touched(archive, second, tmp_path):
    before = snapshot(second.folder)
    assert "damaged" in second.refused(
        "restore", DAMAGE["a bit of the database"](archive, tmp_path), "--replace"
    )
    assert snapshot(second.folder) == before


def test_an_archive_of_an_older_version_is_brought_up_to_date(archive, tmp_path):
    """The same archive as the version before the sessions' table would have made it."""
    older = tmp_path / "older.sqlite3"

    def without_sessions(content: bytes) -> bytes:
        older.write_bytes(content)
        with closing(sqlite3.connect(older)) as database, database:
            database.execute("DROP TABLE django_session")
            database.execute("DELETE FROM django_migrations WHERE app = 'sessions'")
            database.execute("PRAGMA user_version = 7")
        return older.read_bytes()

    def manifest_of_then(content: bytes) -> bytes:
        fields = json.loads(content)
        fields["migrations"] = [pair for pair in fields["migrations"] if pair[0] != "sessions"]
        database = older.read_bytes()
        fields["members"]["database.sqlite3"] = {
            "sha256": hashlib.sha256(database).hexdigest(),
            "size_bytes": len(database),
        }
        return json.dumps(fields).encode()

    changes = {"database.sqlite3": without_sessions, "manifest.json": manifest_of_then}
    path = rebuilt(archive, tmp_path, lambda name, content: changes.get(name, bytes)(content))
    fresh = Site(tmp_path / "fresh")
    fresh.done("restore", path)
    assert fresh.records() == set()
    with closing(sqlite3.connect(fresh.database)) as database:
        assert database.execute("PRAGMA user_version").fetchone() == (7,)


@pytest.mark.requires_postgresql
def test_postgresql_comes_back_whole_and_the_old_tables_stay_beside(tmp_path, postgresql_url):
    site = Site(tmp_path / "site", postgresql_url)
    site.done("migrate", "--verbosity", "0")
    site.write("kept")
    site.keep_files(b"first ")
    site.done("backup", tmp_path / "book.tar.gz")

    site.write("newer")
    assert "--replace" in site.refused("restore", tmp_path / "book.tar.gz")
    site.done("restore", tmp_path / "book.tar.gz", "--replace")
    assert site.records() == {"kept"}
    with closing(site.connect()) as database:
        schemas = database.execute(
            "SELECT nspname FROM pg_namespace WHERE nspname LIKE 'before_restore_%'"
        ).fetchall()
        kept = database.execute(f'SELECT session_key FROM "{schemas[0][0]}".django_session').fetchall()  # noqa: S608
    assert set(kept) == {("kept",), ("newer",)}
    assert site.done("migrate", "--check") is not None


def test_an_archive_of_the_other_kind_of_database_is_refused(archive, tmp_path):
    of_postgresql = _with("manifest.json", lambda content: content.replace(b'"sqlite"', b'"postgresql"'))
    refusal = Site(tmp_path / "fresh").refused("restore", of_postgresql(archive, tmp_path))
    assert "DATABASE_URL" in refusal
