"""Read the published trade cases: one CSV per subject, inputs and expected values as JSON."""

from __future__ import annotations

import csv
import json
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent


@dataclass(frozen=True)
class Case:
    """One published case."""

    name: str
    inputs: dict[str, Any]
    expected: dict[str, Any]
    tolerance: Decimal
    source: str

    @property
    def kind(self) -> str:
        return str(self.inputs["kind"])


def cases_in(file_name: str) -> list[Case]:
    with (HERE / file_name).open(newline="", encoding="utf-8") as table:
        rows = list(csv.DictReader(line for line in table if not line.startswith("#")))
    return [
        Case(
            row["id"],
            json.loads(row["inputs"]),
            json.loads(row["expected"]),
            Decimal(row["tolerance"]),
            row["source"],
        )
        for row in rows
    ]
