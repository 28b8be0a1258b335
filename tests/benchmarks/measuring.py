"""Time a call, and measure in a process that has done nothing before."""

from __future__ import annotations

import gc
import re
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing import get_context
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import TypeVar

TIMES = 7

Answer = TypeVar("Answer")


@dataclass(frozen=True, slots=True)
class Timing:
    """The first run, which also reads modules and tables, and the median of the runs after it."""

    first_ms: float
    median_ms: float


@dataclass(frozen=True, slots=True)
class Table:
    """One table of the report; the first column is words, the others are figures."""

    heads: tuple[str, ...]
    rows: list[tuple[str, ...]]


def timed(call: Callable[[], object], times: int = TIMES) -> Timing:
    """Run a call once and then several times more."""
    first_ms = _one_ms(call)
    return Timing(first_ms, median(_one_ms(call) for _ in range(times)))


def _one_ms(call: Callable[[], object]) -> float:
    gc.collect()  # so that one run does not pay for the rubbish of another
    began = perf_counter()
    call()
    return (perf_counter() - began) * 1000


def in_own_process(call: Callable[..., Answer], *arguments: object) -> Answer:
    """Call in a process forked for it alone: what others read, cached or left behind does not count."""
    with get_context("fork").Pool(1) as process:
        return process.apply(call, arguments)


def resident_mb() -> float | None:
    """Return the memory this process holds, or None where the system does not tell."""
    status = Path("/proc/self/status")
    found = re.search(r"VmRSS:\s+(\d+) kB", status.read_text()) if status.exists() else None
    return int(found[1]) / 1024 if found else None


def ms(value: float) -> str:
    """Write milliseconds as they are read: tenths only where they say something."""
    return f"{value:.0f} ms" if value >= 10 else f"{value:.1f} ms"


def in_columns(table: Table) -> str:
    """Return a table as text."""
    rows = [table.heads, *table.rows]
    widths = [max(len(row[place]) for row in rows) for place in range(len(table.heads))]
    lines = [_line(row, widths) for row in rows]
    return "\n".join([lines[0], "-" * len(lines[0]), *lines[1:]])


def _line(row: tuple[str, ...], widths: list[int]) -> str:
    words, *figures = zip(row, widths, strict=True)
    return "  ".join([words[0].ljust(words[1]), *(figure.rjust(width) for figure, width in figures)])
