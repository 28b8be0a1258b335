"""Issued papers on disk: written once, named by their digest, read back only if they still match it."""

from __future__ import annotations

import hashlib
import os
import tempfile
from pathlib import Path

from django.conf import settings

from jobs.documents.models import Paper


class PaperDamaged(Exception):
    """The file of an issued paper is missing or no longer what was issued."""


def keep_paper(pdf: bytes, *, kind: Paper.Kind, title: str) -> Paper:
    """Keep a paper and return its record; the same bytes are kept once."""
    digest = hashlib.sha256(pdf).hexdigest()
    path = paper_path(digest)
    if not path.exists():
        _write_once(path, pdf)
    return Paper.objects.get_or_create(sha256=digest, defaults={"kind": kind, "title": title})[0]


def read_paper(sha256: str) -> bytes:
    """Return the bytes of an issued paper, proved against its digest."""
    try:
        pdf = paper_path(sha256).read_bytes()
    except FileNotFoundError:
        raise PaperDamaged(f"The file of paper {sha256[:12]} is missing: restore it from a backup.") from None
    if hashlib.sha256(pdf).hexdigest() != sha256:
        raise PaperDamaged(f"The file of paper {sha256[:12]} was changed: restore it from a backup.")
    return pdf


def paper_path(sha256: str) -> Path:
    """Return where a paper lies in the data folder."""
    return Path(settings.PAPERS_DIR) / sha256[:2] / f"{sha256}.pdf"


def _write_once(path: Path, content: bytes) -> None:
    """Write through a temporary file, so that a full disk or a crash leaves no half paper behind."""
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
