"""Whether the roof space over the insulation gets the air that keeps it dry."""

from __future__ import annotations

from collections.abc import Iterator

from estimating.checks.air.eaves_and_ridge import Openings, openings_asked_for, ventilation_of
from estimating.checks.air.ventilation_record import Ventilation
from estimating.checks.verdicts import Verdict
from estimating.published.ventilation import (
    BS_5250,
    EAVES_PATH_MM,
    EAVES_PATH_SOURCE,
    MM2_A_METRE,
    VentilationPractice,
)
from estimating.survey import Roof, Severity, Survey, Underlay
from estimating.working import Figure

__all__ = ["Openings", "openings_asked_for", "ventilation_of", "ventilation_verdicts"]

_HAZARD = "ventilation"
_FIRST = "before insulation is added"


def ventilation_verdicts(
    survey: Survey, air: Ventilation, practice: VentilationPractice = BS_5250
) -> Iterator[Verdict]:
    """Compare the openings measured with those asked for, and say where nobody measured.

    Blocked eaves are told once: where the surveyor made a finding of them, that finding tells it.

    Args:
        survey: Whether air comes in at both eaves, and what was found. Record. [-]
        air: The openings. Record. [mm2]
        practice: The gaps that they were asked for by. Record. [mm, degrees]

    Returns:
        The verdicts. Iterator. [-]

    Source:
        BS 5250:2021, second hand.
    """
    roof = survey.roof
    if roof.eaves_path_open is False:
        yield _blocked(survey, air, practice)
    elif roof.underlay is Underlay.NONE:
        yield Verdict(
            subject="ventilation",
            severity=Severity.NOTE,
            words=(
                "No underlay: air comes in between the tiles, and no figure is published for such a roof. "
                "Keep insulation back from the eaves all the same, and measure if the roof is ever felted."
            ),
            source=practice.eaves[roof.underlay].confidence,
        )
    else:
        yield _eaves(roof, air, practice)
    if air.ridge_mm2_m.value:
        yield _ridge(roof, air, practice)


def _blocked(survey: Survey, air: Ventilation, practice: VentilationPractice) -> Verdict:
    told_already = any(finding.hazard == _HAZARD for finding in survey.findings)
    start = f"The path for air at the eaves is blocked: open it {_FIRST}"
    if told_already:
        start = "When the path for air is opened"
    leave = f", and leave {_asked(air)}" if air.eaves_mm2_m.value else ""
    words = f"{start}, keep {EAVES_PATH_MM} mm clear between insulation and underlay{leave}."
    source = f"{_source(survey.roof, practice)}; {EAVES_PATH_SOURCE}"
    words += _caveat(survey.roof, practice)
    return _verdict(Severity.CAUTION, words, air.eaves_mm2_m, source)


def _eaves(roof: Roof, air: Ventilation, practice: VentilationPractice) -> Verdict:
    short, found = air.eaves_short_mm2_m, roof.eaves_opening_mm2_m
    asked, source, caveat = f"{_asked(air)} is asked for", _source(roof, practice), _caveat(roof, practice)
    if short is None or found is None:
        words = f"Nobody measured the openings at the eaves. Look along both and measure {_FIRST}: {asked}."
        return _verdict(Severity.CAUTION, f"{words}{caveat}", air.eaves_mm2_m, source)
    if not short.value:
        words = f"{_gap(found)} was measured at each eaves, within the table: {asked}."
        return _verdict(Severity.NOTE, words, air.eaves_mm2_m, source)
    words = (
        f"{_gap(found)} was measured at each eaves, outside the table: {asked}, {_mm2(short.value)} a metre "
        f"more. Clear the eaves or fit ventilators {_FIRST}."
    )
    return _verdict(Severity.CAUTION, f"{words}{caveat}", short, source)


def _ridge(roof: Roof, air: Ventilation, practice: VentilationPractice) -> Verdict:
    short, found = air.ridge_short_mm2_m, roof.ridge_opening_mm2_m
    why = f"a span above {practice.wide_span_mm / 1000:g} m"
    if roof.pitch_degrees > practice.steep_pitch_degrees:
        why = f"a pitch above {practice.steep_pitch_degrees}°"
    asked = (
        f"with {why}, {_gap(air.ridge_mm2_m.value)} along the ridge is asked for, "
        f"{_mm2(air.ridge_in_all_mm2.value)} in all"
    )
    if short is None or found is None:
        words = f"Nobody measured the openings at the ridge. Look and measure: {asked}."
        return _verdict(Severity.CAUTION, words, air.ridge_mm2_m, practice.source)
    if not short.value:
        words = f"{_gap(found)} was measured at the ridge, within the table: {asked}."
        return _verdict(Severity.NOTE, words, air.ridge_mm2_m, practice.source)
    words = (
        f"{_gap(found)} was measured at the ridge, outside the table: {asked}, {_mm2(short.value)} a metre "
        f"more. Have ridge or tile ventilators fitted {_FIRST}."
    )
    return _verdict(Severity.CAUTION, words, short, practice.source)


def _asked(air: Ventilation) -> str:
    a_metre, in_all = air.eaves_mm2_m.value, air.eaves_in_all_mm2.value
    return f"{_gap(a_metre)} along each eaves ({_mm2(a_metre)} a metre, {_mm2(in_all)} in all)"


def _caveat(roof: Roof, practice: VentilationPractice) -> str:
    caveat = practice.eaves[roof.underlay].caveat
    return f" {caveat}" if caveat else ""


def _source(roof: Roof, practice: VentilationPractice) -> str:
    return f"{practice.source}; {practice.eaves[roof.underlay].confidence}"


def _gap(opening_mm2_m: int) -> str:
    """An opening along a metre as the gap it is: 10 000 mm² a metre is a gap of 10 mm."""
    return f"a gap of {opening_mm2_m / MM2_A_METRE:g} mm"


def _mm2(opening: int) -> str:
    grouped = f"{opening:,}".replace(",", "\N{NO-BREAK SPACE}")
    return f"{grouped} mm²"


def _verdict(severity: Severity, words: str, figure: Figure[int], source: str) -> Verdict:
    sentence = words[:1].upper() + words[1:]
    return Verdict(subject="ventilation", severity=severity, words=sentence, source=source, figure=figure)
