"""The sections of a survey, in the order of the visit and not of the database."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Section:
    """One page of the visit: `key` names it in addresses and in the survey's answers."""

    key: str
    title: str
    step: str


SECTIONS = (
    Section("arrive", "Arrive and hatch", "Arrive"),
    Section("hazards", "Hazards first", "Hazards"),
    Section("roof", "Roof and joists", "Roof"),
    Section("plan", "Loft plan", "Plan"),
    Section("insulation", "Insulation now", "Insulation"),
    Section("services", "Services and moisture", "Services"),
    Section("wishes", "What the customer wants", "Wishes"),
    Section("photographs", "Photographs", "Photos"),
)
SECTION_BY_KEY: Mapping[str, Section] = {section.key: section for section in SECTIONS}


def neighbours(section: Section) -> tuple[Section | None, Section | None]:
    """Return the sections before and after one in the order of the visit."""
    at = SECTIONS.index(section)
    return (SECTIONS[at - 1] if at else None, SECTIONS[at + 1] if at + 1 < len(SECTIONS) else None)
