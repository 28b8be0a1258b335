"""Notches, holes and cuts found in joists: what the simple rules allow, and what holds work."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.checks.verdicts import Verdict
from estimating.published.timber_cuts import (
    DEEPEST_COUNTED_MM,
    HOLE_DIAMETER_SHARE,
    HOLE_FROM,
    HOLE_TO,
    NOTCH_DEPTH_SHARE,
    NOTCH_FROM,
    NOTCH_TO,
    SOURCE,
)
from estimating.refusals import Requirements
from estimating.survey import CutKind, JoistCut, JoistField, RoofKind, Severity, Survey

CLEARED_BY = "structure"
"""The hazard whose clearance covers a joist found cut or notched."""


def notch_allowed(*, depth_mm: float, span_mm: float, notch_depth_mm: float, from_support_mm: float) -> bool:
    """Tell whether a notch is within the rules that need no calculation.

    Args:
        depth_mm: Depth of the joist. Scalar. [mm]
        span_mm: Its span. Scalar. [mm]
        notch_depth_mm: Depth of the notch. Scalar. [mm]
        from_support_mm: Its distance from the nearer support. Scalar. [mm]

    Returns:
        Whether it is. Flag. [-]

    Raises:
        Refusal: A size is not more than 0, or a distance less.

    Source:
        BS 5268-2:2002 and NHBC Standards 6.4, from memory.
    """
    _require(depth_mm, span_mm, notch_depth_mm, from_support_mm)
    deepest = NOTCH_DEPTH_SHARE * min(depth_mm, DEEPEST_COUNTED_MM)
    return notch_depth_mm <= deepest and NOTCH_FROM * span_mm <= from_support_mm <= NOTCH_TO * span_mm


def hole_allowed(
    *,
    depth_mm: float,
    span_mm: float,
    diameter_mm: float,
    from_support_mm: float,
    on_neutral_axis: bool = True,
) -> bool:
    """Tell whether a hole is within the rules that need no calculation.

    Args:
        depth_mm: Depth of the joist. Scalar. [mm]
        span_mm: Its span. Scalar. [mm]
        diameter_mm: Diameter of the hole. Scalar. [mm]
        from_support_mm: Its distance from the nearer support. Scalar. [mm]
        on_neutral_axis: Whether it is bored at half the depth. Flag. [-]

    Returns:
        Whether it is. Flag. [-]

    Raises:
        Refusal: A size is not more than 0, or a distance less.

    Source:
        BS 5268-2:2002 and NHBC Standards 6.4, from memory.
    """
    _require(depth_mm, span_mm, diameter_mm, from_support_mm)
    widest = HOLE_DIAMETER_SHARE * min(depth_mm, DEEPEST_COUNTED_MM)
    within = HOLE_FROM * span_mm <= from_support_mm <= HOLE_TO * span_mm
    return on_neutral_axis and diameter_mm <= widest and within


def cut_verdicts(survey: Survey) -> Iterator[Verdict]:
    """Hold work where a joist was found cut or notched, until someone qualified has cleared it.

    Args:
        survey: The joists, what was found in them, and the findings. Record. [mm]

    Returns:
        A verdict for each. Iterator. [-]

    Source:
        BS 5268-2:2002 and NHBC Standards 6.4, from memory; that a notch holds work is our own caution.
    """
    clearance = next(
        (each.clearance for each in survey.findings if each.hazard == CLEARED_BY and each.clearance), None
    )
    for field in survey.joist_fields:
        for cut in field.cuts:
            yield _verdict(survey, field, cut, clearance)


def _verdict(survey: Survey, field: JoistField, cut: JoistCut, clearance: str | None) -> Verdict:
    trussed = survey.roof.kind is RoofKind.TRUSSED
    within = not trussed and _within_rules(field, cut)
    member = "Bottom tie" if trussed else "Joist"
    where = f"{member} {cut.joist} of {field.name} has {_WORDS[cut.kind]}"
    if cut.kind is not CutKind.CUT_THROUGH:
        size = "deep" if cut.kind is CutKind.NOTCH else "across"
        where += f", {cut.depth_mm} mm {size}"
    where += f", {cut.from_support_mm} mm from its support"
    told = "within the rules that need no calculation" if within else "outside the rules that need none"
    if trussed:
        told = "no trussed rafter may be cut, notched or drilled"
    whom = "the truss designer" if trussed else "a structural engineer"
    if cut.kind is CutKind.HOLE and within:
        severity, words = Severity.NOTE, f"{where}: {told}."
    elif clearance:
        severity, words = Severity.NOTE, f"{where}: {told}. Clearance: {clearance}"
    else:
        severity = Severity.STOP
        words = f"{where}: {told}. Ask {whom} before any work, and record the answer with the finding."
    return Verdict(subject="cut timber", severity=severity, words=words, source=SOURCE)


_WORDS = {CutKind.NOTCH: "a notch", CutKind.HOLE: "a hole", CutKind.CUT_THROUGH: "been cut through"}


def _within_rules(field: JoistField, cut: JoistCut) -> bool:
    """Whether the rules allow it in every span of its joist, since nobody wrote down in which it is."""
    return all(_within_in(span, field, cut) for span in field.clear_spans_mm or (field.length_mm,))


def _within_in(span_mm: int, field: JoistField, cut: JoistCut) -> bool:
    if cut.kind is CutKind.NOTCH:
        return notch_allowed(
            depth_mm=field.depth_mm,
            span_mm=span_mm,
            notch_depth_mm=cut.depth_mm,
            from_support_mm=cut.from_support_mm,
        )
    if cut.kind is CutKind.HOLE:
        return hole_allowed(
            depth_mm=field.depth_mm,
            span_mm=span_mm,
            diameter_mm=cut.depth_mm,
            from_support_mm=cut.from_support_mm,
        )
    return False


def _require(depth_mm: float, span_mm: float, size_mm: float, from_support_mm: float) -> None:
    needs = Requirements()
    needs.require(depth_mm > 0, "depth_mm", "must be more than 0 mm")
    needs.require(span_mm > 0, "span_mm", "must be more than 0 mm")
    needs.require(size_mm > 0, "size_mm", "must be more than 0 mm")
    needs.require(from_support_mm >= 0, "from_support_mm", "must not be less than 0 mm")
    needs.settle()
