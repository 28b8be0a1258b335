"""A price worked out anew with other options taken, from the frozen lines of an issued quote."""

from __future__ import annotations

from collections.abc import Callable

from jobs.quotes.frozen import FrozenOffer
from jobs.quotes.models import Revision
from jobs.quotes.options import options_in
from tests.benchmarks.lofts import Made
from tests.benchmarks.measuring import Table, in_own_process, ms, timed

LIMIT_MS = 100


def prices(made: Made) -> Table:
    """Measure what adding up takes by itself; the page on which it is asked for stands among the pages."""
    return Table(
        ("Price, options taken", "first", "warm", "limit"), in_own_process(_rows, made.offered_number)
    )


def _rows(number: str) -> list[tuple[str, ...]]:
    revision = Revision.objects.get(quote__number=number)
    frozen = FrozenOffer(revision)
    taken = frozen.optional_parts
    return [
        _row(f"With {len(taken)} options", lambda: frozen.price_with(taken)),
        _row("And what each of them adds", lambda: options_in(frozen, taken)),
        _row("Read from the row first", lambda: FrozenOffer(_again(number)).price_with(taken)),
    ]


def _again(number: str) -> Revision:
    return Revision.objects.get(quote__number=number)


def _row(name: str, call: Callable[[], object]) -> tuple[str, ...]:
    timing = timed(call)
    return name, ms(timing.first_ms), ms(timing.median_ms), ms(LIMIT_MS)
