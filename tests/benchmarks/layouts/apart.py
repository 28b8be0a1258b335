"""A deck laid by the command line in a process of its own: the wait, the memory, and the same answer."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import Any, NamedTuple

from tests.benchmarks.decks import DeckProblem
from tests.published.layout_validator import validate

# Not the system's own maximum for a child: it begins with what the parent held when it started the child.
_COMMAND = """
import pathlib, re, runpy, sys
try:
    sys.argv[0] = "estimating"
    runpy.run_module("estimating", run_name="__main__")
finally:
    status = pathlib.Path("/proc/self/status")
    found = re.search(r"VmHWM:\\s+(\\d+) kB", status.read_text()) if status.exists() else None
    print(int(found[1]) if found else 0, file=sys.stderr)
"""


class Apart(NamedTuple):
    """What one process answered, how long it lived and the most memory it held; 0 where that is not told."""

    deck: DeckProblem
    written: dict[str, Any]
    seconds: float
    peak_mb: float

    @property
    def faults(self) -> tuple[str, ...]:
        """What the independent checker finds; it checks the bound too."""
        if self.written.get("infeasible"):
            return ()
        errors = validate(self.deck.data, self.written)["errors"]
        return tuple(f"{self.deck.name}, apart: {error['code']} {error['msg']}" for error in errors)

    def differs_from(self, written: dict[str, Any]) -> bool:
        """Whether another answer tells something else of the layout, or of why there is none."""
        cures = {"why", "cures"} if self.written.get("infeasible") else set()  # looked for here only
        return any(self.written.get(key) != value for key, value in written.items() if key not in cures)


def laid_apart(deck: DeckProblem) -> Apart:
    """Lay one deck by `python -m estimating layout`."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "problem.json"
        path.write_text(json.dumps(deck.data), encoding="utf-8")
        began = perf_counter()
        ended = subprocess.run(
            [sys.executable, "-c", _COMMAND, "layout", str(path)], capture_output=True, text=True, check=True
        )
        seconds = perf_counter() - began
    return Apart(deck, json.loads(ended.stdout), seconds, int(ended.stderr.split()[-1]) / 1024)
