"""The U-value were boards laid on the joists: the wool squashed to their tops, as it is often found."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from estimating.checks.heat.squashed import squashed_resistance_m2k_w
from estimating.checks.warmth.ceiling import ceiling_u_value
from estimating.checks.warmth.through_ceiling import Insulation, to_six_places
from estimating.published.squashed_wool import FITTED_FROM, NPL, POWER, SOURCE
from estimating.published.surface_resistances import RoofSpace
from estimating.survey import JoistField, Survey
from estimating.working import Figure, Given, Origin, Working, published


def squashed_u_value(
    survey: Survey,
    joist_field: JoistField,
    insulation: Sequence[Insulation],
    *,
    roof_space: RoofSpace = RoofSpace.COUNTED,
) -> Figure[Decimal]:
    """Give the U-value were the same insulation squashed to the joist tops by a deck laid on them.

    Args:
        survey: The plasterboard and the roof's underlay. Record. [mm]
        joist_field: The joists. Record. [mm]
        insulation: The insulation before squashing, lowest first. Sequence. [mm, W/mK]
        roof_space: Whether the roof space is counted. Choice. [-]

    Returns:
        The U-value, an estimate. Scalar. [W/m2K]

    Source:
        R = R0 (t / t0)^0.686, fitted to tests by the National Physical Laboratory (270 mm squashed to 100 mm
        keeps 3.09 of 6.11 m²K/W), read second hand; an estimate.
    """
    depth, whole = joist_field.depth_mm, sum(each.thickness_mm for each in insulation)
    if whole <= depth:
        return ceiling_u_value(survey, joist_field, insulation, roof_space=roof_space)
    pressed = pressed_to_joists(insulation, depth)
    before, left = _resistance_m2k_w(insulation), _resistance_m2k_w(pressed)
    squashed = ceiling_u_value(survey, joist_field, pressed, roof_space=roof_space)
    inputs = (
        _given("insulation before", whole, "mm"),
        _given("resistance before", to_six_places(before), "m²K/W"),
        published("power", POWER),
        _given("resistance left", to_six_places(left), "m²K/W"),
        published("laboratory's wool of 270 mm", NPL.full_resistance_m2k_w, "m²K/W"),
        published("laboratory's wool squashed to 100 mm", NPL.squashed_resistance_m2k_w, "m²K/W"),
        *squashed.working.inputs,
    )
    formula = (
        "an estimate: resistance left = resistance before × (joist depth / insulation before) ^ power, then "
        f"{squashed.working.formula}. "
        "The National Physical Laboratory measured 3.09 of 6.11 m²K/W when 270 mm were squashed to 100 mm"
    )
    if depth / whole < FITTED_FROM:
        formula += "; this is squashed further than any test"
    working = Working(formula, inputs, f"{squashed.working.source}; {SOURCE}")
    return Figure("U-value were it squashed", squashed.value, "W/m²K", working)


def pressed_to_joists(
    insulation: Sequence[Insulation], joist_depth_mm: int, *, power: float = POWER
) -> Sequence[Insulation]:
    """Give insulation as it lies under boards laid on the joists; what is no deeper than they lies as before.

    Args:
        insulation: The insulation before squashing, lowest first. Sequence. [mm, W/mK]
        joist_depth_mm: The depth it is squashed to. Scalar. [mm]
        power: How fast the resistance falls. Scalar. [-]

    Returns:
        The insulation. Sequence. [mm, W/mK]

    Source:
        As squashed_u_value.
    """
    whole_mm = sum(each.thickness_mm for each in insulation)
    if whole_mm <= joist_depth_mm:
        return insulation
    left = squashed_resistance_m2k_w(_resistance_m2k_w(insulation), whole_mm, joist_depth_mm, power)
    conducts = to_six_places(joist_depth_mm / 1000 / left)
    return (Insulation("all insulation squashed", joist_depth_mm, conducts, across=False, pressed=True),)


def _resistance_m2k_w(insulation: Sequence[Insulation]) -> float:
    return sum(each.thickness_mm / 1000 / float(each.conductivity_w_mk) for each in insulation)


def _given(name: str, value: Decimal | int, unit: str) -> Given:
    return Given(name, value, unit, Origin.WORKED_OUT)
