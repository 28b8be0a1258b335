"""The four nations: their tax, building and days-off rules differ, so a property carries its own."""

from __future__ import annotations

from enum import StrEnum


class Nation(StrEnum):
    """The nation a property stands in."""

    ENGLAND = "England"
    WALES = "Wales"
    SCOTLAND = "Scotland"
    NORTHERN_IRELAND = "Northern Ireland"


GREAT_BRITAIN = frozenset({Nation.ENGLAND, Nation.WALES, Nation.SCOTLAND})
UNITED_KINGDOM = GREAT_BRITAIN | {Nation.NORTHERN_IRELAND}
