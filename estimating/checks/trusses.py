"""Trussed rafters: designed for light storage at most, and never cut."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.checks.verdicts import Verdict
from estimating.survey import RoofKind, Severity, Survey

STORAGE_LOAD_SOURCE = "BS 5268-3:2006 6.4, from memory; 25 kg/m² as read at a social landlord's page"
_NEVER_CUT_SOURCE = (
    "C. Mindham, Roof Construction and Loft Conversion, as reproduced at northernarchitecture.us"
)


def truss_verdicts(survey: Survey) -> Iterator[Verdict]:
    """Caution about what a trussed roof may carry.

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
