"""What the surveyor found, and what stands in the loft, as verdicts."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.checks.verdicts import Verdict
from estimating.choices import Choices, Part
from estimating.published.access import LEAST_CLEAR_OPENING_MM, SOURCE, opening_is_large_enough
from estimating.published.hazards import HAZARD_BY_KEY
from estimating.survey import KeepOutKind, RoofKind, Severity, Survey

_SURVEY = "survey"
_FLUE_SOURCE = "Approved Document J; Gas Safe TB 008 ed 3; GSIUR 1998 reg 26(9)"


def finding_verdicts(survey: Survey) -> Iterator[Verdict]:
    """Carry every finding over; a stop that was resolved becomes a note that says by whom.

    The subject is the hazard's title, because customers and crews read it; what is not in the list of
    hazards keeps its own name.

    Args:
        survey: The loft as measured. Record. [-]

    Returns:
        A verdict for each finding. Iterator. [-]

    Source:
        Own definition.
    """
    for finding in survey.findings:
        severity, words = finding.severity, finding.words
        if finding.clearance:
            severity = Severity.NOTE if finding.severity is Severity.STOP else finding.severity
            words = f"{words} Clearance: {finding.clearance}"
        hazard = HAZARD_BY_KEY.get(finding.hazard)
        subject = hazard.title if hazard else finding.hazard
        yield Verdict(subject=subject, severity=severity, words=words, source=_SURVEY)


def loft_verdicts(survey: Survey, choices: Choices) -> Iterator[Verdict]:
    """Say what the things in the loft ask for: flues, lights and the hatch.

    Args:
        survey: The loft as measured. Record. [-]
        choices: What is offered. Record. [-]

    Returns:
        The verdicts. Iterator. [-]

    Source:
        Approved Document J; Gas Safe TB 008 ed 3; NHBC Standards 2020 7.2.12; Work at
        Height Regulations 2005.
    """
    hot = {KeepOutKind.CHIMNEY, KeepOutKind.FLUE, KeepOutKind.BOILER}
    if any(each.kind in hot for each in survey.keep_outs):
        yield Verdict(
            subject="flues and chimneys",
            severity=Severity.CAUTION,
            words=(
                "Keep boards clear of the chimney or flue and leave every joint of a gas flue in sight. Ask "
                "a registered gas engineer where in doubt."
            ),
            source=_FLUE_SOURCE,
        )
    if survey.downlights and Part.DOWNLIGHT_COVERS not in choices.parts:
        yield Verdict(
            subject="downlights",
            severity=Severity.CAUTION,
            words=(
                f"{survey.downlights} downlights below and no covers offered: do not lay insulation over "
                "them. Ask a registered electrician."
            ),
            source="BS EN 60598 marks as read in a maker's table; common practice, no source",
        )
    yield from _hatch_verdicts(survey, choices)


def _hatch_verdicts(survey: Survey, choices: Choices) -> Iterator[Verdict]:
    sides = survey.hatch.clear_sides_mm
    if not opening_is_large_enough(*sides) and Part.HATCH not in choices.parts:
        yield Verdict(
            subject="hatch",
            severity=Severity.CAUTION,
            words=(
                f"The hatch is {sides[0]} × {sides[1]} mm clear, less than the {LEAST_CLEAR_OPENING_MM} mm "
                "each way asked for in new homes: think of a new one."
            ),
            source=SOURCE,
        )
    if survey.hatch.over_stairs:
        yield Verdict(
            subject="hatch",
            severity=Severity.CAUTION,
            words="The hatch is over the stairs: guard the landing or stage it, and work in twos.",
            source="Work at Height Regulations 2005 Schedule 6; NHBC Standards 2020 7.2.12",
        )
    if Part.HATCH not in choices.parts:
        return
    yield Verdict(
        subject="hatch",
        severity=Severity.CAUTION,
        words="The deck is laid round the hatch as it is: draw the new opening before boards are ordered.",
        source="common practice, no source",
    )
    if survey.roof.kind is RoofKind.CUT:
        yield Verdict(
            subject="hatch",
            severity=Severity.CAUTION,
            words="A new hatch goes between joists; where one must be cut, ask a structural engineer.",
            source="common practice, no source",
        )
