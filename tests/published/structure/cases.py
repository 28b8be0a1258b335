"""Read the published structural cases: one CSV per subject, inputs as JSON, one expected value each."""

from __future__ import annotations

import csv
import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent


@dataclass(frozen=True)
class Case:
    """One published case: what is given, the quantity asked for, and how far the answer may stray."""

    name: str
    topic: str
    inputs: dict[str, Any]
    quantity: str
    expected: str
    absolute: float
    relative: float
    source: str

    def check(self, value: float | bool) -> None:
        if isinstance(value, bool):
            assert str(value) == self.expected, self.source
            return
        expected = float(self.expected)
        room = self.absolute + self.relative * abs(expected) + 1e-9
        assert abs(value - expected) <= room, f"{value} against {expected}: {self.source}"


def rows_in(file_name: str) -> Sequence[dict[str, str]]:
    with (HERE / file_name).open(newline="", encoding="utf-8") as table:
        return list(csv.DictReader(line for line in table if not line.startswith("#")))


def cases_in(file_name: str) -> list[Case]:
    return [
        Case(
            row["id"],
            row["topic"],
            json.loads(row["inputs_json"]),
            row["quantity"],
            row["expected"],
            float(row["tol_abs"] or 0),
            float(row["tol_rel"] or 0),
            row["source"],
        )
        for row in rows_in(file_name)
    ]
