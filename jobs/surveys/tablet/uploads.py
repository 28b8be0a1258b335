"""Photographs that come in pieces: resumed where the line broke, proved by their digest, then built anew.

A piece lies in a folder that nothing is served from, under the digest that the whole file must have. Not the
tablet but the file on disk says how much is there, so that a piece whose answer was lost is not added twice.
"""

from __future__ import annotations

import fcntl
import hashlib
import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from django.conf import settings
from django.contrib.auth.models import User

from jobs.surveys.models import Survey
from jobs.surveys.photographs.kept import MOST_BYTES, PhotographRefused, keep_photograph
from jobs.surveys.tablet.models import ArrivedPhotograph

MOST_PIECE_BYTES = 1024 * 1024
MOST_UNFINISHED = 400
FORGET_AFTER = timedelta(days=14)


@dataclass(frozen=True, slots=True)
class Progress:
    """How many bytes of a file are there, and whether that is all of it."""

    have: int
    whole: bool


class OutOfStep(Exception):
    """A piece does not begin where the file ends; `have` says where that is."""

    def __init__(self, have: int) -> None:
        super().__init__(have)
        self.have = have


class UploadRefused(Exception):
    """A file that cannot be taken; the message says why, and `error` the same in a word."""

    def __init__(self, error: str, words: str) -> None:
        super().__init__(words)
        self.error = error


class NoRoom(Exception):
    """So many files are half here that no other is begun."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Some bytes of a file: where they begin in it, and how long the whole file is."""

    begins_at: int
    whole_bytes: int
    content: bytes


def upload_progress(survey: Survey, sent_sha256: str) -> Progress:
    """Tell how much of a photograph has arrived for a survey."""
    arrived = ArrivedPhotograph.objects.filter(survey=survey, sent_sha256=sent_sha256).first()
    if arrived:
        return Progress(arrived.size_bytes, whole=True)
    if survey.photographs.filter(sent_sha256=sent_sha256).exists():
        return Progress(0, whole=True)  # copied with its survey: the words are all that is still wanted
    try:
        have = _path(survey, sent_sha256).stat().st_size
    except FileNotFoundError:  # nothing came yet, or another sender finished it this moment
        have = 0
    return Progress(have, whole=False)


def add_piece(survey: Survey, sent_sha256: str, piece: Piece, *, by: User) -> Progress:
    """Add a piece to a photograph, and keep the photograph once it is whole.

    Raises OutOfStep, NoRoom and UploadRefused.
    """
    before = upload_progress(survey, sent_sha256)
    if before.whole:
        return before
    if piece.whole_bytes > MOST_BYTES:
        raise UploadRefused("too large", f"A photograph may have {MOST_BYTES // 1024 // 1024} MB at most.")
    if piece.begins_at + len(piece.content) > piece.whole_bytes:
        raise UploadRefused("too long", "More came than the tablet had announced.")
    with _locked(_path(survey, sent_sha256)) as file:
        have = os.fstat(file).st_size
        if piece.begins_at != have:
            return _in_step_after_all(survey, sent_sha256, have)
        os.lseek(file, 0, os.SEEK_END)
        _write_all(file, piece.content)
        have += len(piece.content)
        if have < piece.whole_bytes:
            return Progress(have, whole=False)
        os.lseek(file, 0, os.SEEK_SET)
        _keep(survey, sent_sha256, _read_all(file), by)
        return Progress(have, whole=True)


def forget_unfinished(now: datetime) -> None:
    """Delete pieces to which nothing was added for a fortnight; the tablet still has the file."""
    folder = Path(settings.ARRIVING_DIR)
    for path in folder.glob("*.part"):
        with suppress(FileNotFoundError):  # finished meanwhile
            if path.stat().st_mtime < (now - FORGET_AFTER).timestamp():
                path.unlink()


def _keep(survey: Survey, sent_sha256: str, content: bytes, by: User) -> None:
    """Prove a whole file and build the photograph; what is no photograph is not kept lying about."""
    try:
        if hashlib.sha256(content).hexdigest() != sent_sha256:
            raise UploadRefused("damaged", "The photograph was damaged on the way. It is sent again.")
        kept = keep_photograph(content, name="The photograph")
        ArrivedPhotograph.objects.get_or_create(
            survey=survey,
            sent_sha256=sent_sha256,
            defaults={
                "size_bytes": len(content),
                "sha256": kept.sha256,
                "width": kept.width,
                "height": kept.height,
                "by": by,
            },
        )
    except PhotographRefused as refused:
        _path(survey, sent_sha256).unlink(missing_ok=True)
        raise UploadRefused("no photograph", str(refused)) from refused
    except UploadRefused:
        _path(survey, sent_sha256).unlink(missing_ok=True)
        raise
    _path(survey, sent_sha256).unlink(missing_ok=True)


def _in_step_after_all(survey: Survey, sent_sha256: str, have: int) -> Progress:
    """Return that another sender has finished the file while this one waited for it, or raise OutOfStep."""
    now = upload_progress(survey, sent_sha256)
    if not now.whole:
        raise OutOfStep(have)
    _path(survey, sent_sha256).unlink(missing_ok=True)
    return now


def _path(survey: Survey, sent_sha256: str) -> Path:
    return Path(settings.ARRIVING_DIR) / f"{survey.pk}-{sent_sha256}.part"


@contextmanager
def _locked(path: Path) -> Iterator[int]:
    """Open a file for one writer; another that waited for it until it was finished opens it anew."""
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    if not path.exists() and sum(1 for _ in path.parent.glob("*.part")) >= MOST_UNFINISHED:
        raise NoRoom
    while True:
        file = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
        try:
            fcntl.flock(file, fcntl.LOCK_EX)
            if os.fstat(file).st_nlink:
                yield file
                return
        finally:
            os.close(file)


def _write_all(file: int, content: bytes) -> None:
    left = memoryview(content)
    while left:
        left = left[os.write(file, left) :]


def _read_all(file: int) -> bytes:
    with os.fdopen(os.dup(file), "rb") as whole:
        return whole.read()
