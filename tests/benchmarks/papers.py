"""The papers, and what making many of them leaves behind in a process."""

from __future__ import annotations

from collections.abc import Callable

from jobs.documents.job_sheet import job_sheet_pdf
from jobs.documents.materials_order import materials_order_pdf
from jobs.documents.quote import quote_pdf
from jobs.orders.models import MaterialsOrder
from jobs.quotes.models import Revision
from jobs.works.models import Job
from tests.benchmarks.lofts import Made
from tests.benchmarks.measuring import Table, in_own_process, ms, resident_mb, timed

QUOTE_LIMIT_MS = 800
"""How long a quote's paper may take, warm, on two cores."""
QUOTES_IN_A_ROW = 20
FEW = 5


def papers(made: Made) -> Table:
    """Measure each paper in a process of its own: the first reads the type that the others share."""
    rows = [
        (name, *in_own_process(timing, number, limit_ms))
        for name, timing, number, limit_ms in (
            ("Quote", _quote, made.offered_number, QUOTE_LIMIT_MS),
            ("Materials order", _materials_order, made.job_number, None),
            ("Job sheet", _job_sheet, made.job_number, None),
        )
    ]
    return Table(("Paper", "first", "warm", "limit", "size"), rows)


def _quote(number: str, limit_ms: int | None) -> tuple[str, ...]:
    revision = Revision.objects.get(quote__number=number)
    return _timed_paper(lambda: quote_pdf(revision), limit_ms)


def _materials_order(job_number: str, limit_ms: int | None) -> tuple[str, ...]:
    order = MaterialsOrder.objects.filter(job__number=job_number).first()
    return _timed_paper(lambda: materials_order_pdf(order), limit_ms)


def _job_sheet(job_number: str, limit_ms: int | None) -> tuple[str, ...]:
    job = Job.objects.get(number=job_number)
    return _timed_paper(lambda: job_sheet_pdf(job), limit_ms)


def _timed_paper(make: Callable[[], bytes], limit_ms: int | None) -> tuple[str, ...]:
    timing = timed(make, FEW)
    limit = ms(limit_ms) if limit_ms else ""
    return ms(timing.first_ms), ms(timing.median_ms), limit, f"{len(make()) / 1024:.0f} KB"


def memory(made: Made) -> Table:
    """Measure what a worker holds before its first quote, after one, and after many."""
    held = in_own_process(_held_mb, made.offered_number)
    words = ("Before the first", "After the first", f"After {QUOTES_IN_A_ROW}")
    figures = [f"{each:.0f} MB" if each else "not told" for each in held]
    return Table(("Quote papers", "resident memory"), list(zip(words, figures, strict=True)))


def _held_mb(number: str) -> list[float | None]:
    revision = Revision.objects.get(quote__number=number)
    held = [resident_mb()]
    for made in range(1, QUOTES_IN_A_ROW + 1):
        quote_pdf(revision)
        if made in (1, QUOTES_IN_A_ROW):
            held.append(resident_mb())
    return held
