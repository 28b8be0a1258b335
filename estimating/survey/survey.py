"""One measured loft, whole."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from estimating.nations import Nation
from estimating.plane import Polygon, bounds, is_simple
from estimating.published.sap_climate import CLIMATE_REGIONS
from estimating.refusals import Requirements
from estimating.survey.cables import Cable
from estimating.survey.findings import Finding
from estimating.survey.hatch import Hatch
from estimating.survey.heating import HeatSource
from estimating.survey.insulation import ExistingInsulation
from estimating.survey.joists import Axis, JoistField
from estimating.survey.keep_outs import KeepOut
from estimating.survey.roof import Roof
from estimating.survey.zones import DeckZone


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """One measured loft; `climate_region` is SAP's number for the place, 0 the average of the country."""

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
    heat_source: HeatSource | None = None
    climate_region: int | None = None
    cables: tuple[Cable, ...] = ()

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
        region = self.climate_region is None or self.climate_region in CLIMATE_REGIONS
        needs.require(region, "climate_region", f"must be from 0 to {max(CLIMATE_REGIONS)}")
        for number, each in enumerate(self.joist_fields):
            fits = sum(each.clear_spans_mm) <= self._reach_mm(each)
            path = f"joist_fields[{number}].{'spans_mm' if each.spans_mm else 'span_mm'}"
            needs.require(fits, path, f"must not be more than the loft, {self._reach_mm(each)} mm")
        needs.settle()

    def _reach_mm(self, joist_field: JoistField) -> int:
        """How far joists of a field can reach inside the loft."""
        x0, y0, x1, y1 = bounds(self.outline)
        return x1 - x0 if joist_field.runs_along is Axis.X else y1 - y0

    def joist_field(self, name: str) -> JoistField:
        """Return the joist field of that name."""
        return next(each for each in self.joist_fields if each.name == name)


def _inside(inner: Polygon, outer: Polygon) -> bool:
    """Tell whether the bounds of one shape lie within those of another; the deck is clipped exactly later."""
    a, b = bounds(inner), bounds(outer)
    return b[0] <= a[0] and b[1] <= a[1] and a[2] <= b[2] and a[3] <= b[3]
