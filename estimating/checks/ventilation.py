"""Whether the roof space over the insulation gets the air that keeps it dry."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from estimating.checks.ventilation_record import Ventilation
from estimating.checks.verdicts import Verdict
from estimating.plane import bounds
from estimating.published.ventilation import (
    EAVES_RULES,
    LOW_PITCH_DEGREES,
    RIDGE_MM2_M,
    SOURCE,
    STEEP_PITCH_DEGREES,
    WIDE_SPAN_MM,
)
from estimating.refusals import Requirements
from estimating.survey import Roof, Severity, Survey, Underlay
from estimating.working import Figure, Given, Origin, Working, measured, published, worked_out

EAVES = 2


@dataclass(frozen=True, slots=True)
class Openings:
    """What is asked for: along a metre of each eaves, at all eaves together, and at the whole ridge [mm2]."""

    eaves_mm2_m: int
    eaves_in_all_mm2: int
    ridge_in_all_mm2: int


def openings_asked_for(
    underlay: Underlay, *, pitch_degrees: float, span_m: float, eaves_length_m: float, sides: int = EAVES
) -> Openings:
    """Give the openings that a cold pitched roof is to have at its eaves and its ridge.

    Args:
        underlay: What lies under the tiles. Choice. [-]
        pitch_degrees: Pitch of the roof. Scalar. [degrees]
        span_m: Span from wall plate to wall plate. Scalar. [m]
        eaves_length_m: Length of one eaves. Scalar. [m]
        sides: How many eaves. Scalar. [count]

    Returns:
        The openings; none under tiles without underlay, for which no figure is published. Record. [mm2]

    Raises:
        Refusal: The pitch is not between 0 and 90 degrees, or a length is not more than nothing.

    Source:
        BS 5250:2021, second hand.
    """
    needs = Requirements()
    needs.require(0 < pitch_degrees < 90, "pitch_degrees", "must be between 0 and 90 degrees")
    needs.require(span_m > 0, "span_m", "must be more than 0 m")
    needs.require(eaves_length_m > 0, "eaves_length_m", "must be more than 0 m")
    needs.require(sides > 0, "sides", "must be at least 1")
    needs.settle()
    rule = EAVES_RULES.get(underlay)
    if rule is None:
        return Openings(0, 0, 0)
    low = pitch_degrees <= LOW_PITCH_DEGREES
    eaves = rule.at_low_pitch_mm2_m if low else rule.above_low_pitch_mm2_m
    high_level = rule.ridge_always or pitch_degrees > STEEP_PITCH_DEGREES or span_m * 1000 > WIDE_SPAN_MM
    ridge = RIDGE_MM2_M if high_level else 0
    return Openings(eaves, round(eaves * eaves_length_m * sides), round(ridge * eaves_length_m))


def ventilation_of(survey: Survey) -> Ventilation:
    """Work out the openings that a loft is to have, from its measurements.

    Args:
        survey: Roof, outline and underlay; the eaves run along x. Record. [mm]

    Returns:
        The openings asked for, beside those measured. Record. [mm2]

    Source:
        BS 5250:2021, second hand.
    """
    roof = survey.roof
    left, _, right, _ = bounds(survey.outline)
    length = Decimal(right - left) / 1000
    asked = openings_asked_for(
        roof.underlay,
        pitch_degrees=float(roof.pitch_degrees),
        span_m=roof.span_mm / 1000,
        eaves_length_m=float(length),
    )
    of_roof = (
        measured("underlay", roof.underlay.value),
        measured("pitch", roof.pitch_degrees, "°"),
        measured("span", roof.span_mm, "mm"),
    )
    eaves = Figure(
        "opening along each eaves",
        asked.eaves_mm2_m,
        "mm²/m",
        Working("from the table, by underlay and pitch", of_roof, SOURCE),
    )
    whole = (measured("eaves length", length, "m"), Given("eaves", EAVES, "", Origin.DEFAULT))
    return Ventilation(
        eaves_mm2_m=eaves,
        eaves_in_all_mm2=Figure(
            "opening at both eaves",
            asked.eaves_in_all_mm2,
            "mm²",
            Working("opening along each eaves × eaves length × eaves", (worked_out(eaves), *whole), SOURCE),
        ),
        ridge_in_all_mm2=Figure(
            "opening at the ridge",
            asked.ridge_in_all_mm2,
            "mm²",
            Working(
                "opening along a metre × eaves length, where the roof is steep or wide, or its underlay "
                "breathes",
                (*of_roof, published("opening along a metre", RIDGE_MM2_M, "mm²/m"), whole[0]),
                SOURCE,
            ),
        ),
        measured_eaves_mm2_m=roof.eaves_opening_mm2_m,
        measured_ridge_mm2_m=roof.ridge_opening_mm2_m,
    )


def ventilation_verdicts(survey: Survey, air: Ventilation) -> Iterator[Verdict]:
    """Compare the openings measured with those asked for, and say where nobody measured.

    Args:
        survey: Whether air comes in at both eaves. Record. [-]
        air: The openings. Record. [mm2]

    Returns:
        The verdicts. Iterator. [-]

    Source:
        BS 5250:2021, second hand.
    """
    if survey.roof.eaves_path_open is False:
        yield _verdict(
            Severity.CAUTION, "The path for air at the eaves is blocked: open it before insulation is added."
        )
    if survey.roof.underlay is Underlay.NONE:
        yield _verdict(
            Severity.NOTE,
            "No underlay: air comes in between the tiles, and no table gives openings for such a roof. Keep "
            "insulation back from the eaves all the same.",
        )
        return
    yield _eaves_verdict(survey.roof, air)
    if air.ridge_in_all_mm2.value:
        yield _ridge_verdict(air)


def _eaves_verdict(roof: Roof, air: Ventilation) -> Verdict:
    asked, found = air.eaves_mm2_m, air.measured_eaves_mm2_m
    wanted = f"{_gap(asked.value)} is asked for at each eaves of a roof of {roof.pitch_degrees}°"
    if found is None:
        severity = Severity.CAUTION
        words = f"{wanted} with {roof.underlay.value} underlay. Measure it before insulation is added."
    elif found < asked.value:
        severity = Severity.CAUTION
        words = (
            f"{wanted}, {_gap(found)} was measured: outside the table. Open the eaves or fit ventilators "
            "before insulation is added."
        )
    else:
        severity = Severity.NOTE
        words = f"{_gap(found)} was measured at each eaves, within the table ({_gap(asked.value)})."
    return _verdict(severity, f"Air for the loft: {words}", asked)


def _ridge_verdict(air: Ventilation) -> Verdict:
    asked, found = air.ridge_in_all_mm2, air.measured_ridge_mm2_m
    if found is not None and found >= RIDGE_MM2_M:
        words = f"Air at the ridge: {_gap(found)} was measured, within the table ({_gap(RIDGE_MM2_M)})."
        return _verdict(Severity.NOTE, words, asked)
    told = "Measure it" if found is None else f"Outside the table: {_gap(found)} was measured"
    return _verdict(
        Severity.CAUTION,
        f"Air at the ridge: {_gap(RIDGE_MM2_M)} along it is asked for on such a roof. {told}.",
        asked,
    )


def _gap(opening_mm2_m: int) -> str:
    """An opening along a metre as the gap it is: 10 000 mm² a metre is a gap of 10 mm."""
    return f"a gap of {Decimal(opening_mm2_m) / 1000:f} mm"


def _verdict(severity: Severity, words: str, figure: Figure[int] | None = None) -> Verdict:
    return Verdict(subject="ventilation", severity=severity, words=words, source=SOURCE, figure=figure)
