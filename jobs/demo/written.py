"""The demo's papers, written out under names that a person can read."""

from __future__ import annotations

from pathlib import Path

from jobs.documents.papers import paper_path
from jobs.quotes.models import Revision
from jobs.works.models import Job


def write_papers(folder: Path) -> list[Path]:
    """Copy the issued papers out under readable names; a paper that is there already is left alone."""
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for name, sha256 in _papers():
        path = folder / f"{name}.pdf"
        if not path.exists():
            path.write_bytes(paper_path(sha256).read_bytes())
        written.append(path)
    return written


def _papers() -> list[tuple[str, str]]:
    found = [
        (f"quote-{revision}", revision.paper_sha256)
        for revision in Revision.objects.exclude(paper_sha256="").select_related("quote").order_by("pk")
    ]
    for job in Job.objects.order_by("pk"):
        found += [
            (f"materials-order-{order.number}-{order.supplier.lower().replace(' ', '-')}", order.paper_sha256)
            for order in job.orders.exclude(paper_sha256="").order_by("pk")
        ]
        if job.sheet_sha256:
            found.append((f"job-sheet-{job.number}", job.sheet_sha256))
    return found
