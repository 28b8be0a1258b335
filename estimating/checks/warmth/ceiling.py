"""The U-value of a loft ceiling as it stands or will stand: insulation from the plasterboard up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from estimating.checks.heat.resistance import Slab, resistance_limits_m2k_w, slab
from estimating.published.conductivities import PLASTERBOARD, SOFTWOOD
from estimating.published.squashed_wool import POWER
from estimating.published.squashed_wool import SOURCE as SQUASHING_SOURCE
from estimating.published.surface_resistances import (
    INSIDE_SURFACE_UPWARD,
    OUTSIDE_SURFACE,
    ROOF_SPACE_TILED_BARE,
    ROOF_SPACE_TILED_WITH_FELT,
)
from estimating.published.surface_resistances import SOURCE as SURFACES_SOURCE
from estimating.published.timber_fractions import ADDITIONAL_TIMBERS
from estimating.published.timber_fractions import SOURCE as TIMBER_SOURCE
from estimating.survey import JoistField, Survey, Underlay
from estimating.working import Figure, Given, Origin, Working, measured, published

_SOURCE = f"BS EN ISO 6946 combined method; {SURFACES_SOURCE}; {TIMBER_SOURCE}; {PLASTERBOARD.source}"
_NO_BATTENS = Decimal(0)


@dataclass(frozen=True, slots=True)
class Insulation:
    """One thickness of insulation; `across` the joists, or between them as far as they reach."""

    name: str
    thickness_mm: int
    conductivity_w_mk: Decimal
    across: bool


def timber_fraction(joist_field: JoistField) -> Decimal:
    """Give the share of ceiling that is timber: joists at their mean centres, and what is built in besides.

    Args:
        joist_field: The joists. Record. [mm]

    Returns:
        The fraction. Scalar. [-]

    Source:
        BR 443 (2019) 4.5: width / centres + 0.01.
    """
    fraction = joist_field.width_mm / _mean_centres_mm(joist_field) + Decimal(str(ADDITIONAL_TIMBERS))
    return fraction.quantize(Decimal("0.0001"))


def _mean_centres_mm(joist_field: JoistField) -> Decimal:
    lines = joist_field.centre_lines_mm
    return Decimal(lines[-1] - lines[0]) / (len(lines) - 1)


def ceiling_u_value(
    survey: Survey,
    joist_field: JoistField,
    insulation: Sequence[Insulation],
    *,
    batten_fraction: Decimal = _NO_BATTENS,
) -> Figure[Decimal]:
    """Give the U-value of the ceiling under one joist field.

    Battens cross what lies across the joists, as joists cross what lies between them; pedestals of plastic
    need no correction.

    Args:
        survey: The plasterboard and the roof's underlay. Record. [mm]
        joist_field: The joists that bridge what lies between them. Record. [mm]
        insulation: The insulation, lowest first. Sequence. [mm, W/mK]
        batten_fraction: The share of the deck's area that is battens. Scalar. [-]

    Returns:
        The U-value, to four places. Scalar. [W/m2K]

    Source:
        BS EN ISO 6946 combined method; BR 443 (2019); resistance of the roof space as in TGD L 2022 A3.
    """
    fraction = timber_fraction(joist_field)
    bare = survey.roof.underlay is Underlay.NONE
    roof_space = ROOF_SPACE_TILED_BARE if bare else ROOF_SPACE_TILED_WITH_FELT
    slabs = (
        slab(float(survey.plasterboard_mm), PLASTERBOARD.conductivity_w_mk),
        *_slabs(insulation, joist_field.depth_mm, float(fraction), float(batten_fraction)),
    )
    surfaces = INSIDE_SURFACE_UPWARD + roof_space + OUTSIDE_SURFACE
    upper, lower = resistance_limits_m2k_w(slabs, surfaces)
    inputs = (
        published("inside surface", INSIDE_SURFACE_UPWARD, "m²K/W"),
        measured("plasterboard", survey.plasterboard_mm, "mm"),
        published("plasterboard conductivity", PLASTERBOARD.conductivity_w_mk, "W/mK"),
        *(_given(each) for each in insulation),
        measured("joist depth", joist_field.depth_mm, "mm"),
        measured("joist width", joist_field.width_mm, "mm"),
        measured("mean joist centres", _mean_centres_mm(joist_field).quantize(Decimal("0.1")), "mm"),
        published("additional timbers", ADDITIONAL_TIMBERS),
        Given("timber fraction", fraction, "", Origin.WORKED_OUT),
        *((Given("batten fraction", batten_fraction, "", Origin.WORKED_OUT),) if batten_fraction else ()),
        published("timber conductivity", SOFTWOOD.conductivity_w_mk, "W/mK"),
        published("roof space", roof_space, "m²K/W"),
        published("outside surface", OUTSIDE_SURFACE, "m²K/W"),
    )
    value = Decimal(2 / (upper + lower)).quantize(Decimal("0.0001"), rounding=ROUND_HALF_UP)
    formula = (
        "1 / mean of the upper and lower limits of resistance, with timber fraction = joist width / mean "
        "joist centres + additional timbers; no correction for gaps and fixings, as wool is laid tight and "
        "supports are of plastic or timber; convention: roof space and outside surface as given"
    )
    return Figure("U-value of the ceiling", value, "W/m²K", Working(formula, inputs, _SOURCE))


def _given(each: Insulation) -> Given:
    where = "across joists" if each.across else "between joists"
    words = f"{each.thickness_mm} mm at {each.conductivity_w_mk} W/mK"
    return Given(f"{each.name} {where}", words, "", Origin.WORKED_OUT)


def _slabs(insulation: Sequence[Insulation], depth_mm: int, joists: float, battens: float) -> Iterator[Slab]:
    """What lies between joists is crossed by them up to their tops; what lies above, by battens if any."""
    height_mm = 0
    for each in insulation:
        wool = float(each.conductivity_w_mk)
        within_mm = 0 if each.across else max(0, min(each.thickness_mm, depth_mm - height_mm))
        above_mm = each.thickness_mm - within_mm
        if within_mm:
            yield _crossed(within_mm, wool, "joists", joists)
        if above_mm:
            yield _crossed(above_mm, wool, "battens", battens) if battens else slab(above_mm, wool)
        height_mm += each.thickness_mm


def _crossed(thickness_mm: int, conductivity_w_mk: float, timber: str, fraction: float) -> Slab:
    thickness_m = thickness_mm / 1000
    return Slab(thickness_m / conductivity_w_mk, timber, thickness_m / SOFTWOOD.conductivity_w_mk, fraction)


def squashed_u_value(
    survey: Survey, joist_field: JoistField, insulation: Sequence[Insulation]
) -> Figure[Decimal]:
    """Give the U-value were the same insulation squashed to the joist tops by a deck laid on them.

    Args:
        survey: The plasterboard and the roof's underlay. Record. [mm]
        joist_field: The joists. Record. [mm]
        insulation: The insulation before squashing, lowest first. Sequence. [mm, W/mK]

    Returns:
        The U-value, an estimate. Scalar. [W/m2K]

    Source:
        R = R0 (t / t0)^0.686, fitted to tests by the National Physical Laboratory (270 mm squashed to 100 mm
        keeps 3.09 of 6.11 m²K/W), read second hand; an estimate.
    """
    depth, whole = joist_field.depth_mm, sum(each.thickness_mm for each in insulation)
    if whole <= depth:
        return ceiling_u_value(survey, joist_field, insulation)
    resistance = sum(each.thickness_mm / 1000 / float(each.conductivity_w_mk) for each in insulation)
    left = resistance * (depth / whole) ** POWER
    conductivity = Decimal(depth / 1000 / left).quantize(Decimal("0.0001"))
    flat = Insulation("all insulation squashed", depth, conductivity, across=False)
    squashed = ceiling_u_value(survey, joist_field, (flat,))
    before = Decimal(resistance).quantize(Decimal("0.001"))
    inputs = (
        Given("insulation before", whole, "mm", Origin.WORKED_OUT),
        Given("resistance before", before, "m²K/W", Origin.WORKED_OUT),
        published("power", POWER),
        *squashed.working.inputs,
    )
    formula = (
        "resistance of the insulation × (joist depth / insulation before) ^ power, then "
        f"{squashed.working.formula}"
    )
    working = Working(formula, inputs, f"{_SOURCE}; {SQUASHING_SOURCE}")
    return Figure("U-value were it squashed", squashed.value, "W/m²K", working)


def to_two_figures(u_value: Decimal) -> Decimal:
    """Round a U-value as it is reported: to two significant figures.

    Args:
        u_value: The U-value. Scalar. [W/m2K]

    Returns:
        The U-value to two figures. Scalar. [W/m2K]

    Source:
        BS EN ISO 6946:2017 6.5.2; BR 443 (2019).
    """
    return u_value.quantize(Decimal(1).scaleb(u_value.adjusted() - 1), rounding=ROUND_HALF_UP)


def meets(u_value: Decimal, target: Decimal) -> bool:
    """Tell whether a U-value, as it is reported, is no more than the target.

    Args:
        u_value: The U-value. Scalar. [W/m2K]
        target: The target. Scalar. [W/m2K]

    Returns:
        Whether it does. Flag. [-]

    Source:
        BR 443 (2019); BS EN ISO 6946:2017 6.5.2.
    """
    return to_two_figures(u_value) <= target
