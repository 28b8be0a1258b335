"""From what to what a U-value may lie, because wool lies unevenly, with gaps, and is not squashed alike."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from decimal import Decimal

from estimating.checks.heat.corrections import AirGaps
from estimating.checks.warmth.ceiling import plain_u_w_m2k
from estimating.checks.warmth.heat_records import UValueRange
from estimating.checks.warmth.squashed import pressed_to_joists
from estimating.checks.warmth.through_ceiling import Insulation, ThroughCeiling
from estimating.published.squashed_wool import POWER
from estimating.published.squashed_wool import SOURCE as SQUASHED_SOURCE
from estimating.published.surface_resistances import RoofSpace
from estimating.survey import JoistField, Survey
from estimating.working import Figure, Given, Working, chosen, measured, published, worked_out

NO_DENSER = 1.0
"""The power of wool that conducts as before however it is pressed: resistance falls as thickness does."""

_GAPS_SOURCE = (
    "depths as read; air gaps: BR 443 (2019) 4.8.1 and ISO/DIS 6946:2015 Annex F (a draft), from none to one "
    "level more than reckoned: own assumption"
)
_SQUASHED_SOURCE = f"depths as read; {SQUASHED_SOURCE}; own assumption that it is no better than tested"


def u_value_range(
    figure: Figure[Decimal],
    survey: Survey,
    insulation: Sequence[Insulation],
    through: Callable[[Sequence[Insulation]], ThroughCeiling],
) -> UValueRange:
    """Give the ends between which a ceiling's U-value is likely to lie.

    Args:
        figure: The U-value itself. Scalar. [W/m2K]
        survey: The depths read. Record. [mm]
        insulation: The insulation it was worked out with, lowest first. Sequence. [mm, W/mK]
        through: Works out the ceiling with other insulation, or with none. Callable. [m2K/W]

    Returns:
        Least and most. Record. [W/m2K]

    Source:
        From the deepest reading without air gaps to the thinnest with one level more of them than reckoned:
        own assumption; levels: BR 443 (2019) 4.8.1.
    """
    throughs = [through(each) for each in _lying_unevenly(survey, insulation)]
    worst = AirGaps(min(AirGaps.MANY, throughs[0].gaps + 1))
    values = [replace(through, gaps=level).u_w_m2k for through in throughs for level in (AirGaps.NONE, worst)]
    inputs = (
        *_readings(survey),
        published("lowest level", int(AirGaps.NONE)),
        published("highest level", int(worst)),
    )
    return _range(figure, values, inputs, "at lowest level and at highest level of air gaps", _GAPS_SOURCE)


def squashed_range(
    figure: Figure[Decimal],
    survey: Survey,
    joist_field: JoistField,
    insulation: Sequence[Insulation],
    *,
    roof_space: RoofSpace = RoofSpace.COUNTED,
) -> UValueRange:
    """Give the ends between which the U-value is likely to lie were the insulation squashed to the joists.

    Args:
        figure: The U-value itself. Scalar. [W/m2K]
        survey: The depths read, the plasterboard and the underlay. Record. [mm]
        joist_field: The joists. Record. [mm]
        insulation: The insulation before squashing, lowest first. Sequence. [mm, W/mK]
        roof_space: Whether the roof space is counted. Choice. [-]

    Returns:
        Least and most, both estimates. Record. [W/m2K]

    Source:
        From wool that conducts less as it gets denser, as NPL measured, to wool that does not: own
        assumption.
    """
    values = [
        plain_u_w_m2k(
            survey,
            joist_field,
            pressed_to_joists(each, joist_field.depth_mm, power=power),
            roof_space=roof_space,
        )
        for each in _lying_unevenly(survey, insulation)
        for power in (POWER, NO_DENSER)
    ]
    inputs = (*_readings(survey), published("power", POWER), chosen("power of no gain", NO_DENSER))
    how = "with resistance left by the power and by the power of no gain"
    return _range(figure, values, inputs, how, _SQUASHED_SOURCE)


def _lying_unevenly(survey: Survey, insulation: Sequence[Insulation]) -> list[Sequence[Insulation]]:
    """Give the insulation as reckoned, then with what lay there at its deepest and at its thinnest."""
    if not survey.insulation.depth_mm:
        return [insulation]
    there, *laid = insulation
    readings = survey.insulation.depth_readings_mm
    ends = [(replace(there, thickness_mm=depth), *laid) for depth in (max(readings), min(readings))]
    return [insulation, *ends]


def _readings(survey: Survey) -> tuple[Given, ...]:
    if not survey.insulation.depth_mm:
        return ()
    readings = survey.insulation.depth_readings_mm
    return (
        measured("deepest reading", max(readings), "mm"),
        measured("thinnest reading", min(readings), "mm"),
    )


def _range(
    figure: Figure[Decimal], values: Iterable[Decimal], inputs: tuple[Given, ...], how: str, source: str
) -> UValueRange:
    between = (figure.value, *values)
    uneven = ", at deepest reading and at thinnest reading" if inputs[0].name == "deepest reading" else ""
    least, most = (
        Figure(
            f"{word} {figure.name}",
            value,
            figure.unit,
            Working(f"the {word} of {figure.name}{uneven}, {how}", (worked_out(figure), *inputs), source),
        )
        for word, value in (("least", min(between)), ("greatest", max(between)))
    )
    return UValueRange(least=least, most=most)
