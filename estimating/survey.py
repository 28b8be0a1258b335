"""What was measured in one loft, frozen.

Plan coordinates are whole millimetres: x from the left gable, y from the front eaves, seen from above.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import StrEnum
from itertools import pairwise

from estimating.nations import Nation
from estimating.plane import Point, Polygon, bounds, is_simple
from estimating.refusals import Requirements


class RoofKind(StrEnum):
    CUT = "cut roof"
    TRUSSED = "trussed rafters"


class Axis(StrEnum):
    """The plan axis that joists run along."""

    X = "x"
    Y = "y"


class Underlay(StrEnum):
    NONE = "none"
    NON_BREATHING = "non-breathing"
    BREATHING = "breathing"


class InsulationMaterial(StrEnum):
    NONE = "none"
    MINERAL_WOOL = "mineral wool"
    LOOSE_FILL = "loose fill"
    RIGID_BOARD = "rigid board"


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


class Severity(StrEnum):
    STOP = "stop"
    CAUTION = "caution"
    NOTE = "note"


@dataclass(frozen=True, slots=True, kw_only=True)
class Roof:
    """The roof over the loft; ridge height is from the top of the joists to the underside of the ridge."""

    kind: RoofKind
    pitch_degrees: Decimal
    span_mm: int
    ridge_height_mm: int
    rafter_centres_mm: int = 600
    underlay: Underlay = Underlay.NON_BREATHING
    eaves_path_open: bool | None = None

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(0 < self.pitch_degrees < 90, "pitch_degrees", "must be between 0 and 90 degrees")
        needs.require(self.span_mm > 0, "span_mm", "must be more than 0 mm")
        needs.require(self.ridge_height_mm > 0, "ridge_height_mm", "must be more than 0 mm")
        needs.require(self.rafter_centres_mm > 0, "rafter_centres_mm", "must be more than 0 mm")
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class JoistField:
    """An area of ceiling whose joists share direction, size and centres.

    `centre_lines_mm` are positions on the axis the joists cross: their y when they run along x, their x
    when they run along y. `top_offsets_mm` say how much higher each joist's top is than that of the first,
    lower ones negative; nothing where all are alike.
    """

    name: str
    outline: Polygon
    runs_along: Axis
    centre_lines_mm: tuple[int, ...]
    depth_mm: int
    width_mm: int
    span_mm: int | None = None
    grade: str | None = None
    top_offsets_mm: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.name.strip()), "name", "is missing")
        needs.require(is_simple(self.outline), "outline", "must be a closed shape whose sides do not cross")
        needs.require(len(self.centre_lines_mm) >= 2, "centre_lines_mm", "must name at least two joists")
        ascending = all(a < b for a, b in pairwise(self.centre_lines_mm))
        needs.require(ascending, "centre_lines_mm", "must rise from one joist to the next")
        needs.require(self.depth_mm > 0, "depth_mm", "must be more than 0 mm")
        needs.require(self.width_mm > 0, "width_mm", "must be more than 0 mm")
        needs.require(self.span_mm is None or self.span_mm > 0, "span_mm", "must be more than 0 mm")
        self._require_tops(needs)
        needs.settle()

    def _require_tops(self, needs: Requirements) -> None:
        if not self.top_offsets_mm:
            return
        count = len(self.centre_lines_mm)
        each = len(self.top_offsets_mm) == count
        needs.require(each, "top_offsets_mm", f"must give one reading for each of the {count} joists")
        needs.require(self.top_offsets_mm[0] == 0, "top_offsets_mm", "must begin at 0, which is joist 1")
        likely = all(abs(top) < self.depth_mm for top in self.top_offsets_mm)
        needs.require(likely, "top_offsets_mm", "must differ by less than the joists are deep")

    @property
    def centres_mm(self) -> tuple[int, ...]:
        """The distances from each joist to the next."""
        return tuple(b - a for a, b in pairwise(self.centre_lines_mm))


def evenly_spaced(*, first_mm: int, centres_mm: int, count: int) -> tuple[int, ...]:
    """Set out joist centre lines at even centres.

    Args:
        first_mm: Position of the first centre line. Scalar. [mm]
        centres_mm: Distance from one joist to the next. Scalar. [mm]
        count: How many joists. Scalar. [count]

    Returns:
        The centre lines, rising. One per joist. [mm]

    Raises:
        Refusal: Centres or count are not positive.

    Source:
        Arithmetic.
    """
    needs = Requirements()
    needs.require(centres_mm > 0, "centres_mm", "must be more than 0 mm")
    needs.require(count > 0, "count", "must be at least 1")
    needs.settle()
    return tuple(first_mm + centres_mm * number for number in range(count))


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatch:
    """The way up: the clear opening on plan and what stands below it."""

    outline: Polygon
    floor_to_ceiling_mm: int = 2400
    lining_depth_mm: int = 150
    over_stairs: bool = False
    insulated: bool = False
    draught_stripped: bool = False

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(is_simple(self.outline), "outline", "must be a closed shape whose sides do not cross")
        needs.require(self.floor_to_ceiling_mm > 0, "floor_to_ceiling_mm", "must be more than 0 mm")
        needs.require(self.lining_depth_mm >= 0, "lining_depth_mm", "must not be less than 0 mm")
        needs.settle()

    @property
    def clear_sides_mm(self) -> tuple[int, int]:
        """The clear opening along x and along y."""
        x0, y0, x1, y1 = bounds(self.outline)
        return x1 - x0, y1 - y0


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepOut:
    """An area that the deck must leave free."""

    name: str
    kind: KeepOutKind
    outline: Polygon

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.name.strip()), "name", "is missing")
        needs.require(is_simple(self.outline), "outline", "must be a closed shape whose sides do not cross")
        needs.settle()


FURTHEST_AN_EDGE_MAY_MOVE_MM = 300


@dataclass(frozen=True, slots=True, kw_only=True)
class DeckZone:
    """One area of deck with boards running one way, over one joist field.

    `edge_may_move_mm` is how far each edge may be moved in or out where that saves boards or a sliver.
    """

    name: str
    outline: Polygon
    joist_field: str
    edge_may_move_mm: int = 0

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.name.strip()), "name", "is missing")
        needs.require(is_simple(self.outline), "outline", "must be a closed shape whose sides do not cross")
        needs.require(
            0 <= self.edge_may_move_mm <= FURTHEST_AN_EDGE_MAY_MOVE_MM,
            "edge_may_move_mm",
            f"must be between 0 and {FURTHEST_AN_EDGE_MAY_MOVE_MM} mm",
        )
        needs.settle()


@dataclass(frozen=True, slots=True, kw_only=True)
class ExistingInsulation:
    """What lies on the ceiling now; an empty tuple of readings means a bare loft."""

    material: InsulationMaterial
    depth_readings_mm: tuple[int, ...] = ()
    conductivity_w_mk: Decimal = Decimal("0.044")
    stays: bool = True

    def __post_init__(self) -> None:
        needs = Requirements()
        bare = self.material is InsulationMaterial.NONE
        needs.require(bare or bool(self.depth_readings_mm), "depth_readings_mm", "needs at least one reading")
        no_depth = all(depth >= 0 for depth in self.depth_readings_mm)
        needs.require(no_depth, "depth_readings_mm", "must not be less than 0 mm")
        needs.require(self.conductivity_w_mk > 0, "conductivity_w_mk", "must be more than 0 W/mK")
        needs.settle()

    @property
    def depth_mm(self) -> int:
        """The depth to design with: the mean of the readings, rounded down."""
        if self.material is InsulationMaterial.NONE or not self.stays or not self.depth_readings_mm:
            return 0
        return sum(self.depth_readings_mm) // len(self.depth_readings_mm)


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """One measured loft."""

    reference: str
    visited_on: date
    nation: Nation
    outline: Polygon
    roof: Roof
    joist_fields: tuple[JoistField, ...]
    hatch: Hatch
    zones: tuple[DeckZone, ...]
    insulation: ExistingInsulation
    built_year: int | None = None
    residential: bool = True
    plasterboard_mm: Decimal = Decimal("12.5")
    keep_outs: tuple[KeepOut, ...] = ()
    downlights: int = 0
    free_truss_bays: int = 0
    north_degrees: int = 0
    findings: tuple[Finding, ...] = field(default=())

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(bool(self.reference.strip()), "reference", "is missing")
        needs.require(is_simple(self.outline), "outline", "must be a closed shape whose sides do not cross")
        needs.require(bool(self.joist_fields), "joist_fields", "needs at least one joist field")
        needs.require(bool(self.zones), "zones", "needs at least one deck zone")
        names = [each.name for each in self.joist_fields]
        needs.require(len(set(names)) == len(names), "joist_fields", "must have different names")
        for number, zone in enumerate(self.zones):
            known = zone.joist_field in names
            needs.require(known, f"zones[{number}].joist_field", f"must be one of: {', '.join(names)}")
            inside = _inside(zone.outline, self.outline)
            needs.require(inside, f"zones[{number}].outline", "must lie inside the loft outline")
        needs.require(self.plasterboard_mm > 0, "plasterboard_mm", "must be more than 0 mm")
        needs.require(self.downlights >= 0, "downlights", "must not be less than 0")
        needs.require(self.free_truss_bays >= 0, "free_truss_bays", "must not be less than 0")
        needs.settle()

    def joist_field(self, name: str) -> JoistField:
        """Return the joist field of that name."""
        return next(each for each in self.joist_fields if each.name == name)


def _inside(inner: Polygon, outer: Polygon) -> bool:
    """Tell whether the bounds of one shape lie within those of another; the deck is clipped exactly later."""
    a, b = bounds(inner), bounds(outer)
    return b[0] <= a[0] and b[1] <= a[1] and a[2] <= b[2] and a[3] <= b[3]


__all__ = [
    "Axis", "DeckZone", "ExistingInsulation", "Finding", "Hatch", "InsulationMaterial", "JoistField",
    "KeepOut", "KeepOutKind", "Nation", "Point", "Polygon", "Roof", "RoofKind", "Severity", "Survey",
    "Underlay", "evenly_spaced",
]  # fmt: skip
