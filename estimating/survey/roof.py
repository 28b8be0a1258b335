"""The roof over the loft, as measured."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from estimating.refusals import Requirements


class RoofKind(StrEnum):
    CUT = "cut roof"
    TRUSSED = "trussed rafters"


class Underlay(StrEnum):
    NONE = "none"
    NON_BREATHING = "non-breathing"
    BREATHING = "breathing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Roof:
    """The roof over the loft; ridge height is from the top of the joists to the underside of the ridge.

    Openings for air are the free area measured along one metre, at each eaves and at the ridge.
    """

    kind: RoofKind
    pitch_degrees: Decimal
    span_mm: int
    ridge_height_mm: int
    rafter_centres_mm: int = 600
    underlay: Underlay = Underlay.NON_BREATHING
    eaves_path_open: bool | None = None
    eaves_opening_mm2_m: int | None = None
    ridge_opening_mm2_m: int | None = None

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(0 < self.pitch_degrees < 90, "pitch_degrees", "must be between 0 and 90 degrees")
        needs.require(self.span_mm > 0, "span_mm", "must be more than 0 mm")
        needs.require(self.ridge_height_mm > 0, "ridge_height_mm", "must be more than 0 mm")
        needs.require(self.rafter_centres_mm > 0, "rafter_centres_mm", "must be more than 0 mm")
        for name in ("eaves_opening_mm2_m", "ridge_opening_mm2_m"):
            opening = getattr(self, name)
            needs.require(opening is None or opening >= 0, name, "must not be less than 0 mm² a metre")
        needs.settle()
