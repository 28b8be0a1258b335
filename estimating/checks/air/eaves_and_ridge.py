"""The openings that a cold pitched roof is to have, and what a survey measured of them, as figures."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from estimating.checks.air.ventilation_record import Ventilation
from estimating.plane import bounds
from estimating.published.ventilation import BS_5250, MM2_A_METRE, VentilationPractice
from estimating.refusals import Requirements
from estimating.survey import Roof, Survey, Underlay
from estimating.working import ARITHMETIC, Figure, Working, default, measured, published, worked_out

EAVES = 2


@dataclass(frozen=True, slots=True)
class Openings:
    """What is asked for: along a metre of each eaves, at all eaves together, and at the whole ridge [mm2]."""

    eaves_mm2_m: int
    eaves_in_all_mm2: int
    ridge_in_all_mm2: int


def openings_asked_for(  # noqa: PLR0913 - the measures of a roof, each by its name
    underlay: Underlay,
    *,
    pitch_degrees: float,
    span_m: float,
    eaves_length_m: float,
    sides: int = EAVES,
    practice: VentilationPractice = BS_5250,
) -> Openings:
    """Give the openings that a cold pitched roof is to have at its eaves and its ridge.

    A pitch of exactly 15 degrees is a low one; exactly 35 degrees is not yet steep, nor 10 m a wide span.

    Args:
        underlay: What lies under the tiles. Choice. [-]
        pitch_degrees: Pitch of the roof. Scalar. [degrees]
        span_m: Span from wall plate to wall plate. Scalar. [m]
        eaves_length_m: Length of one eaves, which is that of the ridge. Scalar. [m]
        sides: How many eaves. Scalar. [count]
        practice: The gaps asked for and their limits. Record. [mm, degrees]

    Returns:
        The openings; nothing under tiles without underlay, for which no figure is published. Record. [mm2]

    Raises:
        Refusal: The pitch is not between 0 and 90 degrees, a length or the number of eaves is not more than
            nothing, or the underlay is none that is known.

    Source:
        BS 5250:2021, second hand.
    """
    needs = Requirements()
    known = ", ".join(practice.eaves)
    needs.require(underlay in practice.eaves, "underlay", f"must be one of: {known}")
    needs.require(0 < pitch_degrees < 90, "pitch_degrees", "must be between 0 and 90 degrees")
    needs.require(0 < span_m < float("inf"), "span_m", "must be more than 0 m")
    needs.require(0 < eaves_length_m < float("inf"), "eaves_length_m", "must be more than 0 m")
    needs.require(sides > 0, "sides", "must be at least 1")
    needs.settle()
    gap = practice.eaves[underlay]
    low = pitch_degrees <= practice.low_pitch_degrees
    eaves = (gap.at_low_pitch_mm if low else gap.above_low_pitch_mm) * MM2_A_METRE
    high = pitch_degrees > practice.steep_pitch_degrees or span_m * 1000 > practice.wide_span_mm
    ridge = practice.ridge_mm * MM2_A_METRE if high and eaves else 0
    return Openings(eaves, round(eaves * eaves_length_m * sides), round(ridge * eaves_length_m))


def ventilation_of(survey: Survey, practice: VentilationPractice = BS_5250) -> Ventilation:
    """Work out the openings that a loft is to have, and how much the measured ones fall short.

    Eaves run along x, from the left gable, so that one is as long as the loft's outline along x.

    Args:
        survey: Roof, outline and underlay. Record. [mm]
        practice: The gaps asked for and their limits. Record. [mm, degrees]

    Returns:
        The openings asked for, and what is missing of them. Record. [mm2]

    Source:
        BS 5250:2021, second hand.
    """
    roof = survey.roof
    left, _, right, _ = bounds(survey.outline)
    length = measured("eaves length", Decimal(right - left) / 1000, "m")
    asked = openings_asked_for(
        roof.underlay,
        pitch_degrees=float(roof.pitch_degrees),
        span_m=roof.span_mm / 1000,
        eaves_length_m=(right - left) / 1000,
    )
    eaves, ridge = _eaves_a_metre(roof, asked, practice), _ridge_a_metre(roof, asked, practice)
    along = "eaves length; eaves run along the loft from the left gable"
    both = (worked_out(eaves), default("number of eaves", EAVES), length)
    whole = (worked_out(ridge), length)
    return Ventilation(
        eaves_mm2_m=eaves,
        eaves_in_all_mm2=Figure(
            "opening at all eaves",
            asked.eaves_in_all_mm2,
            "mm²",
            Working(f"{eaves.name} × number of eaves × {along}", both, practice.source),
        ),
        ridge_mm2_m=ridge,
        ridge_in_all_mm2=Figure(
            "opening at the whole ridge",
            asked.ridge_in_all_mm2,
            "mm²",
            Working(f"{ridge.name} × {along}, and the ridge with them", whole, practice.source),
        ),
        eaves_short_mm2_m=_short("the eaves", eaves, roof.eaves_opening_mm2_m),
        ridge_short_mm2_m=_short("the ridge", ridge, roof.ridge_opening_mm2_m),
    )


def _eaves_a_metre(roof: Roof, asked: Openings, practice: VentilationPractice) -> Figure[int]:
    gap = practice.eaves[roof.underlay]
    inputs = (
        measured("underlay", roof.underlay.value),
        measured("pitch", roof.pitch_degrees, "°"),
        published("lowest pitches up to", practice.low_pitch_degrees, "°"),
        published("continuous gap", asked.eaves_mm2_m // MM2_A_METRE, "mm"),
    )
    formula = (
        f"continuous gap × {MM2_A_METRE} mm in a metre, the gap by underlay, and by pitch for the lowest "
        "pitches"
    )
    source = f"{practice.source}; {gap.confidence}"
    return Figure(
        "opening along a metre of eaves", asked.eaves_mm2_m, "mm²/m", Working(formula, inputs, source)
    )


def _ridge_a_metre(roof: Roof, asked: Openings, practice: VentilationPractice) -> Figure[int]:
    value = practice.ridge_mm * MM2_A_METRE if asked.ridge_in_all_mm2 else 0
    inputs = (
        measured("pitch", roof.pitch_degrees, "°"),
        published("steep above", practice.steep_pitch_degrees, "°"),
        measured("span", roof.span_mm, "mm"),
        published("wide above", practice.wide_span_mm, "mm"),
        *((published("continuous gap", practice.ridge_mm, "mm"),) if value else ()),
    )
    formula = f"continuous gap × {MM2_A_METRE} mm in a metre, since the pitch is steep or the span wide"
    if not value:
        formula = "0: nothing is asked for by pitch and span"
        if roof.underlay is Underlay.NONE:
            formula = "0: nothing is asked for under tiles without underlay"
    return Figure("opening along a metre of ridge", value, "mm²/m", Working(formula, inputs, practice.source))


def _short(of: str, asked: Figure[int], found_mm2_m: int | None) -> Figure[int] | None:
    if found_mm2_m is None:
        return None
    working = Working(
        f"{asked.name} − opening measured, not below 0",
        (worked_out(asked), measured("opening measured", found_mm2_m, "mm²/m")),
        ARITHMETIC,
    )
    return Figure(f"opening missing at {of}", max(0, asked.value - found_mm2_m), "mm²/m", working)
