"""What a surveyor would type of one invented loft: each section's boxes with what stands in them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

Answers = Mapping[str, Mapping[str, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class DemoLoft:
    """A customer, a house and what was measured and seen in its loft."""

    customer: str
    email: str
    phone: str
    address: str
    town: str
    postcode: str
    description: str
    built_year: int
    wants: str
    answers: Answers
    seen: Mapping[str, str] = field(default_factory=dict)


def plan_rows(prefix: str, *rows: Mapping[str, str]) -> dict[str, str]:
    """Number the rows of a plan's table as its form does."""
    return {
        f"{prefix}-{number}-{name}": value for number, row in enumerate(rows) for name, value in row.items()
    }
