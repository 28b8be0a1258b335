"""Whether every zone lies over the joists it is said to stand on."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from estimating.checks.verdicts import Verdict
from estimating.plane import Polygon, area_mm2, overlap_area_mm2
from estimating.survey import Severity, Survey
from estimating.working import Figure, Working, measured

_A_SLIP_OF_THE_TAPE_M2 = Decimal("0.05")


def zone_verdicts(survey: Survey) -> Iterator[Verdict]:
    """Stop the job where part of a zone lies beyond its joist field or beyond the loft.

    Args:
        survey: The zones, joist fields and outline. Record. [mm]

    Returns:
        A verdict for each zone that reaches too far. Iterator. [-]

    Source:
        Geometry; common practice, no source, for what a tape may miss.
    """
    for zone in survey.zones:
        joists = survey.joist_field(zone.joist_field)
        for name, around in ((f"joist field {joists.name}", joists.outline), ("the loft", survey.outline)):
            beyond = _beyond_m2(zone.outline, around)
            if beyond > _A_SLIP_OF_THE_TAPE_M2:
                inputs = (measured(f"zone {zone.name}, corners", len(zone.outline)),)
                working = Working(f"area of the zone − its area within {name}", inputs, "geometry")
                yield Verdict(
                    subject="zones",
                    severity=Severity.STOP,
                    words=f"{beyond} m² of zone {zone.name} lies beyond {name}: divide or redraw the zone.",
                    source="geometry",
                    figure=Figure(f"zone {zone.name} beyond {name}", beyond, "m²", working),
                )


def _beyond_m2(zone: Polygon, around: Polygon) -> Decimal:
    beyond = Fraction(area_mm2(zone) - overlap_area_mm2(zone, around))
    return (Decimal(beyond.numerator) / Decimal(beyond.denominator) / 1_000_000).quantize(Decimal("0.01"))
