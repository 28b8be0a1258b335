"""Write an archive while the site is in use, and unpack one with every byte proved against its manifest."""

from __future__ import annotations

import hashlib
import io
import os
import shutil
import tarfile
import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path, PurePosixPath
from typing import IO, cast

from django.conf import settings
from django.db import connection

from contractor_site.backups.database import DATABASE_MEMBERS, migrations_applied, take_snapshot
from contractor_site.backups.manifest import (
    FORMAT,
    MANIFEST,
    CannotBackUp,
    CannotRestore,
    Manifest,
    Member,
    read_manifest,
    version_of_this_site,
)

FOLDERS = ("photographs", "papers", "logos")


def back_up(target: Path) -> Manifest:
    """Write an archive of the whole site to a new file. Never overwrites an earlier archive."""
    if target.exists():
        raise CannotBackUp(f"{target} is there already: give the new archive a name of its own.")
    draft = target.with_name(f".{target.name}.draft")
    descriptor = os.open(draft, os.O_RDWR | os.O_CREAT | os.O_TRUNC, 0o600)  # it holds customers' addresses
    try:
        with os.fdopen(descriptor, "wb") as file:
            manifest = _write(file)
            file.flush()
            os.fsync(file.fileno())
        try:
            target.hardlink_to(draft)  # unlike a rename, fails if someone made the target meanwhile
        except FileExistsError:
            raise CannotBackUp(f"{target} appeared meanwhile: give the archive another name.") from None
    finally:
        draft.unlink(missing_ok=True)
    return manifest


def _write(file: IO[bytes]) -> Manifest:
    members: dict[str, Member] = {}
    with (
        tempfile.TemporaryDirectory(prefix="backup-", dir=settings.DATA_DIR) as scratch,
        tarfile.open(fileobj=file, mode="w:gz", compresslevel=5) as tar,
    ):
        # The database first: whatever it cites was on disk before it was cited, so it is there still.
        snapshot = take_snapshot(Path(scratch))
        for name, path in [(snapshot.name, snapshot), *_files()]:
            members[name] = _add(tar, name, path)
        manifest = Manifest(
            format=FORMAT,
            made_at=datetime.now(UTC).isoformat(timespec="seconds"),
            version=version_of_this_site(),
            engine=connection.vendor,
            migrations=migrations_applied(snapshot),
            members=members,
        )
        written = manifest.to_json()
        entry = tarfile.TarInfo(MANIFEST)
        entry.size = len(written)
        tar.addfile(entry, io.BytesIO(written))
    return manifest


def _files() -> Iterator[tuple[str, Path]]:
    for folder in FOLDERS:
        root = settings.DATA_DIR / folder
        for path in sorted(root.rglob("*")):
            # Half-written files carry the name of a temporary file until they are whole.
            if path.is_file() and not path.is_symlink() and not path.name.startswith("tmp"):
                yield path.relative_to(settings.DATA_DIR).as_posix(), path


def _add(tar: tarfile.TarFile, name: str, path: Path) -> Member:
    with path.open("rb") as source:
        entry = tarfile.TarInfo(name)
        entry.size = os.fstat(source.fileno()).st_size
        entry.mtime = int(os.fstat(source.fileno()).st_mtime)
        reader = _DigestingReader(source)
        tar.addfile(entry, reader)
    return Member(sha256=reader.digest.hexdigest(), size_bytes=entry.size)


class _DigestingReader(io.RawIOBase):
    """Digest exactly the bytes that go into the archive, not those of a second reading."""

    def __init__(self, source: IO[bytes]) -> None:
        self.source = source
        self.digest = hashlib.sha256()

    def read(self, size: int = -1) -> bytes:
        block = self.source.read(size)
        self.digest.update(block)
        return block


def unpack_proved(archive: Path, folder: Path) -> Manifest:
    """Unpack into an empty folder and return the manifest; anything not as it was made is refused."""
    found: dict[str, Member] = {}
    try:
        with tarfile.open(archive, mode="r|gz") as tar:
            for entry in tar:
                _refuse_strangers(entry, found)
                found[entry.name] = _extract(tar, entry, folder)
    except (tarfile.TarError, EOFError, OSError) as error:
        if isinstance(error, OSError) and error.errno is not None:
            raise  # the disk's fault, not the archive's
        raise CannotRestore(f"{archive} is damaged or no backup ({error}).") from error
    if MANIFEST not in found:
        raise CannotRestore(f"{archive} holds no manifest: it is damaged or no backup.")
    manifest = read_manifest((folder / MANIFEST).read_bytes())
    del found[MANIFEST]
    for name in sorted(manifest.members.keys() | found.keys()):
        if manifest.members.get(name) != found.get(name):
            raise CannotRestore(f"{name} in {archive} is not what was backed up: the archive is damaged.")
    return manifest


def _refuse_strangers(entry: tarfile.TarInfo, found: dict[str, Member]) -> None:
    path = PurePosixPath(entry.name)
    is_expected = entry.name in (MANIFEST, *DATABASE_MEMBERS) or path.parts[:1] in [
        (folder,) for folder in FOLDERS
    ]
    is_plain = entry.isreg() and not path.is_absolute() and ".." not in path.parts and str(path) == entry.name
    if not (is_expected and is_plain) or entry.name in found:
        raise CannotRestore(f"The archive holds {entry.name!r}, which no backup of this site holds.")


def _extract(tar: tarfile.TarFile, entry: tarfile.TarInfo, folder: Path) -> Member:
    if entry.size > shutil.disk_usage(folder).free:
        raise CannotRestore("There is not enough free disk to unpack the archive beside what is there.")
    target = folder / entry.name
    target.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    digest = hashlib.sha256()
    descriptor = os.open(target, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(descriptor, "wb") as file, cast("IO[bytes]", tar.extractfile(entry)) as source:
        while block := source.read(1 << 20):
            file.write(block)
            digest.update(block)
    return Member(sha256=digest.hexdigest(), size_bytes=target.stat().st_size)
