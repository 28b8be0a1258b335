"""Issued papers: kept once under their digest, and read back only as they were issued."""

from __future__ import annotations

from pathlib import Path

from django.conf import settings

from jobs.documents.models import Paper
from jobs.kept_files import keep_file, path_of, read_file

SUFFIX = ".pdf"


def keep_paper(pdf: bytes, *, kind: Paper.Kind, title: str) -> Paper:
    """Keep a paper and return its record; the same bytes are kept once."""
    digest = keep_file(settings.PAPERS_DIR, pdf, suffix=SUFFIX)
    return Paper.objects.get_or_create(sha256=digest, defaults={"kind": kind, "title": title})[0]


def read_paper(sha256: str) -> bytes:
    """Return the bytes of an issued paper, proved against its digest."""
    return read_file(settings.PAPERS_DIR, sha256, suffix=SUFFIX)


def paper_path(sha256: str) -> Path:
    """Return where a paper lies in the data folder."""
    return path_of(settings.PAPERS_DIR, sha256, suffix=SUFFIX)
