"""Read the published thermal cases: one CSV per subject, inputs as JSON, expected values joined by ;."""

from __future__ import annotations

import csv
import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pint import Quantity

from estimating.amounts import registry

HERE = Path(__file__).parent


@dataclass(frozen=True)
class Case:
    """One published case; `tolerance` is absolute, or relative where it ends in %."""

    name: str
    kind: str
    inputs: dict[str, Any]
    expected: tuple[float, ...]
    tolerance: str
    source: str

    def room(self, expected: float) -> float:
        """How far a value may stray; 1e-9 forgives the last digit of a float."""
        if self.tolerance.endswith("%"):
            return abs(expected) * float(self.tolerance.rstrip("% ")) / 100
        return float(self.tolerance) + 1e-9

    def check(self, *values: float) -> None:
        assert len(values) == len(self.expected), self.source
        for value, expected in zip(values, self.expected, strict=True):
            assert abs(value - expected) <= self.room(expected), f"{value} against {expected}: {self.source}"


def rows_in(file_name: str) -> Sequence[dict[str, str]]:
    with (HERE / file_name).open(newline="", encoding="utf-8") as table:
        return list(csv.DictReader(table))


def cases_in(file_name: str) -> list[Case]:
    return [
        Case(
            row["id"],
            row["kind"],
            json.loads(row["inputs_json"]),
            tuple(float(value) for value in row["expected"].split(";")),
            row["tolerance"],
            row["source"],
        )
        for row in rows_in(file_name)
    ]


def mm(thickness: float) -> Quantity[Any]:
    return registry().Quantity(thickness, "mm")


def m2(area: float) -> Quantity[Any]:
    return registry().Quantity(area, "m**2")


def celsius(temperature: float) -> Quantity[Any]:
    return registry().Quantity(temperature, "degC")


def w_mk(conductivity: float) -> Quantity[Any]:
    return registry().Quantity(conductivity, "W/m/K")


def w_m2k(u: float) -> Quantity[Any]:
    return registry().Quantity(u, "W/m**2/K")


def m2k_w(resistance: float) -> Quantity[Any]:
    return registry().Quantity(resistance, "m**2*K/W")
