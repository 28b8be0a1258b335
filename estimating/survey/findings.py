"""What was seen and matters."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    STOP = "stop"
    CAUTION = "caution"
    NOTE = "note"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Something seen at survey that matters; a stop holds work until `clearance` says who resolved it."""

    hazard: str
    severity: Severity
    words: str
    clearance: str | None = None

    @property
    def holds_work(self) -> bool:
        return self.severity is Severity.STOP and not self.clearance
