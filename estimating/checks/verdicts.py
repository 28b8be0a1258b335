"""What the checks found, frozen, in words for the reader."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.checks.access.record import GoesUp, HeadroomStrip
from estimating.checks.air.ventilation_record import Ventilation
from estimating.checks.moisture.record import Moisture
from estimating.checks.structure.joist_record import JoistCheck
from estimating.checks.structure.old_table_record import OldTable
from estimating.checks.structure.truss_record import TrussCheck
from estimating.checks.warmth.heat_records import HeatRanges, Saving, WholeCeiling
from estimating.survey import Severity
from estimating.working import Figure


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What a check found, in words for the reader, with the figure it rests on where there is one."""

    subject: str
    severity: Severity
    words: str
    source: str
    figure: Figure[Decimal] | Figure[int] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Heat:
    """U-values of the ceiling through the deck: as found, as proposed, and were the wool squashed.

    Beside them those of the whole ceiling, and what may be saved in a year. `convention` names how the roof
    space is counted in all of them. Estimates frozen before ranges were told have none.
    """

    as_found: Figure[Decimal]
    as_proposed: Figure[Decimal]
    squashed: Figure[Decimal]
    target: Decimal
    whole_ceiling: WholeCeiling | None = None
    saving: Saving | None = None
    convention: str = ""
    ranges: HeatRanges | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Checks:
    """What the checks found."""

    heat: Heat
    headroom_mm: Figure[int]
    verdicts: tuple[Verdict, ...]
    joists: tuple[JoistCheck, ...] = ()
    old_tables: tuple[OldTable, ...] = ()
    trusses: TrussCheck | None = None
    access: tuple[GoesUp, ...] = ()
    headroom_strip: HeadroomStrip | None = None
    moisture: Moisture | None = None
    ventilation: Ventilation | None = None

    @property
    def stops(self) -> tuple[Verdict, ...]:
        return tuple(verdict for verdict in self.verdicts if verdict.severity is Severity.STOP)

    @property
    def cautions(self) -> tuple[Verdict, ...]:
        return tuple(verdict for verdict in self.verdicts if verdict.severity is Severity.CAUTION)
