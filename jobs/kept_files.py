"""Files that must not be lost: written once under their digest, and read back only if they still match it."""

from __future__ import annotations

import hashlib
import os
import tempfile
from pathlib import Path


class FileDamaged(Exception):
    """A kept file is missing or no longer what was kept."""


def keep_file(folder: Path, content: bytes, *, suffix: str) -> str:
    """Keep a file and return its digest; the same bytes are kept once."""
    digest = hashlib.sha256(content).hexdigest()
    path = path_of(folder, digest, suffix=suffix)
    if not path.exists():
        _write_whole(path, content)
    return digest


def read_file(folder: Path, digest: str, *, suffix: str) -> bytes:
    """Return the bytes of a kept file, proved against its digest."""
    try:
        content = path_of(folder, digest, suffix=suffix).read_bytes()
    except FileNotFoundError:
        raise FileDamaged(f"File {digest[:12]} is missing: restore it from a backup.") from None
    if hashlib.sha256(content).hexdigest() != digest:
        raise FileDamaged(f"File {digest[:12]} was changed: restore it from a backup.")
    return content


def path_of(folder: Path, digest: str, *, suffix: str) -> Path:
    """Return where a file lies in its folder."""
    return Path(folder) / digest[:2] / f"{digest}{suffix}"


def _write_whole(path: Path, content: bytes) -> None:
    """Write through a temporary file, so that a full disk or a crash leaves no half file behind."""
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    handle, temporary = tempfile.mkstemp(dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
