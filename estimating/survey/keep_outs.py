"""What stands in the loft and keeps the deck out."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from estimating.plane import Polygon, is_simple
from estimating.refusals import Requirements


class KeepOutKind(StrEnum):
    TANK = "tank"
    CHIMNEY = "chimney"
    FLUE = "flue"
    STRUT = "strut"
    TRUSS_WEB = "truss web"
    BOILER = "boiler"
    DOWNLIGHT = "downlight"
    CABLES = "cables"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepOut:
    """An area that the deck must leave free; a tank with its litres and the trusses that carry it."""

    name: str
    kind: KeepOutKind
    outline: Polygon
    litres: int | None = None
    carried_by_trusses: int | None = None

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.name.strip()), "name", "is missing")
        needs.require(is_simple(self.outline), "outline", "must be a closed shape whose sides do not cross")
        for name in ("litres", "carried_by_trusses"):
            count = getattr(self, name)
            needs.require(count is None or count > 0, name, "must be more than 0")
        needs.settle()
