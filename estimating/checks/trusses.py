"""Trussed rafters: designed for light storage at most, and never cut."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.checks.verdicts import Verdict
from estimating.plane import bounds, overlap_area_mm2
from estimating.survey import Axis, RoofKind, Severity, Survey

STORAGE_LOAD_SOURCE = "BS 5268-3:2006 6.4, from memory; 25 kg/m² as read at a social landlord's page"
_NEVER_CUT_SOURCE = (
    "C. Mindham, Roof Construction and Loft Conversion, as reproduced at northernarchitecture.us"
)


def truss_verdicts(survey: Survey) -> Iterator[Verdict]:
    """Caution about what a trussed roof may carry, and about a hatch that lies across its ties.

    Args:
        survey: The loft as measured. Record. [-]

    Returns:
        The verdicts, none for a cut roof. Iterator. [-]

    Source:
        BS 5268-3:2006 6.4, from memory; C. Mindham, Roof Construction and Loft Conversion.
    """
    if survey.roof.kind is not RoofKind.TRUSSED:
        return
    yield Verdict(
        subject="trussed rafters",
        severity=Severity.CAUTION,
        words=(
            "Trussed rafters are usually designed for light storage of 25 kg on each square metre of ceiling "
            "tie, deck and insulation included. Ask the truss designer before more is stored."
        ),
        source=STORAGE_LOAD_SOURCE,
    )
    yield Verdict(
        subject="trussed rafters",
        severity=Severity.CAUTION,
        words="Never cut, notch or drill a trussed rafter. A new hatch goes between trusses.",
        source=_NEVER_CUT_SOURCE,
    )
    for line_mm in _ties_in_the_hatch_mm(survey):
        yield Verdict(
            subject="trussed rafters",
            severity=Severity.CAUTION,
            words=(
                f"The hatch as measured lies across the tie at {line_mm} mm: measure both again. Where a "
                "trussed rafter was cut, ask the truss designer or a structural engineer before any work."
            ),
            source=_NEVER_CUT_SOURCE,
        )


def _ties_in_the_hatch_mm(survey: Survey) -> Iterator[int]:
    left, low, right, high = bounds(survey.hatch.outline)
    for field in survey.joist_fields:
        if overlap_area_mm2(field.outline, survey.hatch.outline):
            first, last = (left, right) if field.runs_along is Axis.Y else (low, high)
            yield from (line for line in field.centre_lines_mm if first < line < last)
