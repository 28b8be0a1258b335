"""Whether the roof space over the insulation gets the air that keeps it dry."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.checks.eaves_and_ridge import Openings, openings_asked_for, ventilation_of
from estimating.checks.ventilation_record import Ventilation
from estimating.checks.verdicts import Verdict
from estimating.published.ventilation import (
    BS_5250,
    EAVES_PATH_MM,
    EAVES_PATH_SOURCE,
    MM2_A_METRE,
)
from estimating.survey import Roof, Severity, Survey, Underlay
from estimating.working import Figure

__all__ = ["Openings", "openings_asked_for", "ventilation_of", "ventilation_verdicts"]

_HAZARD = "ventilation"
_FIRST = "before insulation is added"


def ventilation_verdicts(survey: Survey, air: Ventilation) -> Iterator[Verdict]:
    """Compare the openings measured with those asked for, and say where nobody measured.

    Blocked eaves are told once: where the surveyor made a finding of them, that finding tells it.

    Args:
        survey: Whether air comes in at both eaves, and what was found. Record. [-]
        air: The openings. Record. [mm2]

    Returns:
        The verdicts. Iterator. [-]

    Source:
        BS 5250:2021, second hand.
    """
    roof = survey.roof
    if roof.eaves_path_open is False:
        yield _blocked(survey, air)
    elif roof.underlay is Underlay.NONE:
        yield Verdict(
            subject="ventilation",
            severity=Severity.NOTE,
            words=(
                "No underlay: air comes in between the tiles, and no figure is published for such a roof. "
                "Keep insulation back from the eaves all the same, and measure if the roof is ever felted."
            ),
            source=BS_5250.eaves[roof.underlay].confidence,
        )
    else:
        yield _eaves(roof, air)
    if air.ridge_mm2_m.value:
        yield _ridge(roof, air)


def _blocked(survey: Survey, air: Ventilation) -> Verdict:
    told_already = any(finding.hazard == _HAZARD for finding in survey.findings)
    opened = (
        f"keep {EAVES_PATH_MM} mm clear between insulation and underlay"
        f"{', and leave ' + _asked(air) if air.eaves_mm2_m.value else ''}."
    )
    words = f"The path for air at the eaves is blocked: open it {_FIRST}, {opened}"
    if told_already:
        words = f"When the path for air is opened, {opened}"
    return _verdict(Severity.CAUTION, f"{words}{_caveat(survey.roof)}", air.eaves_mm2_m, EAVES_PATH_SOURCE)


def _eaves(roof: Roof, air: Ventilation) -> Verdict:
    short, found = air.eaves_short_mm2_m, roof.eaves_opening_mm2_m
    if short is None or found is None:
        words = f"Nobody measured the openings at the eaves. Look along both and measure {_FIRST}: "
        return _verdict(
            Severity.CAUTION, f"{words}{_asked(air)} is asked for.{_caveat(roof)}", air.eaves_mm2_m
        )
    if not short.value:
        words = f"{_gap(found)} was measured at each eaves, within the table: {_asked(air)} is asked for."
        return _verdict(Severity.NOTE, _opened(words), air.eaves_mm2_m)
    words = (
        f"{_gap(found)} was measured at each eaves, outside the table: {_asked(air)} is asked for, "
        f"{_mm2(short.value)} a metre more. Clear the eaves or fit ventilators {_FIRST}.{_caveat(roof)}"
    )
    return _verdict(Severity.CAUTION, _opened(words), short)


def _ridge(roof: Roof, air: Ventilation) -> Verdict:
    short, found = air.ridge_short_mm2_m, roof.ridge_opening_mm2_m
    steep = roof.pitch_degrees > BS_5250.steep_pitch_degrees
    why = f"a pitch above {BS_5250.steep_pitch_degrees}°"
    if not steep:
        why = f"a span above {BS_5250.wide_span_mm // 1000} m"
    asked = (
        f"with {why}, {_gap(air.ridge_mm2_m.value)} along the ridge is asked for, "
        f"{_mm2(air.ridge_in_all_mm2.value)} in all"
    )
    if short is None or found is None:
        words = f"Nobody measured the openings at the ridge. Look and measure: {asked}."
        return _verdict(Severity.CAUTION, words, air.ridge_mm2_m)
    if not short.value:
        words = f"{_gap(found)} was measured at the ridge, within the table: {asked}."
        return _verdict(Severity.NOTE, _opened(words), air.ridge_mm2_m)
    words = (
        f"{_gap(found)} was measured at the ridge, outside the table: {asked}, {_mm2(short.value)} a metre "
        f"more. Have ridge or tile ventilators fitted {_FIRST}."
    )
    return _verdict(Severity.CAUTION, _opened(words), short)


def _asked(air: Ventilation) -> str:
    return (
        f"{_gap(air.eaves_mm2_m.value)} along each eaves ({_mm2(air.eaves_mm2_m.value)} a metre, "
        f"{_mm2(air.eaves_in_all_mm2.value)} in all)"
    )


def _caveat(roof: Roof) -> str:
    caveat = BS_5250.eaves[roof.underlay].caveat
    return f" {caveat}" if caveat else ""


def _gap(opening_mm2_m: int) -> str:
    """An opening along a metre as the gap it is: 10 000 mm² a metre is a gap of 10 mm."""
    return f"a gap of {opening_mm2_m / MM2_A_METRE:g} mm"


def _mm2(opening: int) -> str:
    grouped = f"{opening:,}".replace(",", "\N{NO-BREAK SPACE}")
    return f"{grouped} mm²"


def _opened(words: str) -> str:
    return words[:1].upper() + words[1:]


def _verdict(severity: Severity, words: str, figure: Figure[int], also: str = "") -> Verdict:
    source = f"{BS_5250.source}; {also}" if also else BS_5250.source
    return Verdict(subject="ventilation", severity=severity, words=words, source=source, figure=figure)
