"""The U-value of a loft ceiling as it stands or will stand: insulation from the plasterboard up."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from estimating.checks.heat.corrections import AirGaps
from estimating.checks.heat.u_values import to_two_figures
from estimating.checks.warmth.through_ceiling import (
    Insulation,
    ThroughCeiling,
    Timber,
    mean_centres_mm,
    through_ceiling,
    timber_fraction,
    to_six_places,
)
from estimating.published.conductivities import PLASTERBOARD, SOFTWOOD
from estimating.published.surface_resistances import (
    INSIDE_SURFACE_UPWARD,
    RoofSpace,
    RoofSpaceConvention,
    roof_space_convention,
)
from estimating.published.timber_fractions import ADDITIONAL_TIMBERS
from estimating.published.timber_fractions import SOURCE as TIMBER_SOURCE
from estimating.published.u_corrections import ADDED_BY_AIR_GAPS_W_M2K
from estimating.survey import JoistField, Survey, Underlay
from estimating.working import Figure, Given, Origin, Working, chosen, measured, published

__all__ = ["Insulation", "ceiling_u_value", "convention_of", "meets", "plain_u_w_m2k", "through_field"]

_NO_BATTENS = Decimal(0)
_METHOD = (
    ". Upper: each path through wool or timber by its share of the area; lower: layer by layer. Share of "
    "timber = joist width / mean joist centres + additional timbers"
)
_NO_FIXINGS = "none for fixings: supports of plastic conduct under 1 W/mK, battens are counted as timber"


def convention_of(survey: Survey, roof_space: RoofSpace) -> RoofSpaceConvention:
    """Give how the roof space over a loft counts.

    Args:
        survey: What lies under the tiles. Record. [-]
        roof_space: Whether it is counted. Choice. [-]

    Returns:
        The convention. Record. [m2K/W]

    Source:
        BS EN ISO 6946; BR 443 (2019) 4.7.3.
    """
    return roof_space_convention(roof_space, bare_tiles=survey.roof.underlay is Underlay.NONE)


def plain_u_w_m2k(
    survey: Survey,
    joist_field: JoistField,
    insulation: Sequence[Insulation],
    *,
    batten_fraction: Decimal = _NO_BATTENS,
    roof_space: RoofSpace = RoofSpace.COUNTED,
) -> Decimal:
    """Give the U-value of the ceiling under one joist field without its working.

    Insulation is chosen by asking this of one combination after another.

    Args:
        survey: The plasterboard and the roof's underlay. Record. [mm]
        joist_field: The joists that bridge what lies between them. Record. [mm]
        insulation: The insulation, lowest first. Sequence. [mm, W/mK]
        batten_fraction: The share of the deck's area that is battens. Scalar. [-]
        roof_space: Whether the roof space is counted. Choice. [-]

    Returns:
        The U-value, to six places. Scalar. [W/m2K]

    Source:
        As ceiling_u_value.
    """
    return through_field(
        survey, joist_field, insulation, batten_fraction=batten_fraction, roof_space=roof_space
    ).u_w_m2k


def through_field(
    survey: Survey,
    joist_field: JoistField,
    insulation: Sequence[Insulation],
    *,
    batten_fraction: Decimal = _NO_BATTENS,
    roof_space: RoofSpace = RoofSpace.COUNTED,
) -> ThroughCeiling:
    """Give the limits of resistance of the ceiling under one joist field, and how its gaps count.

    Args:
        survey: The plasterboard and the roof's underlay. Record. [mm]
        joist_field: The joists that bridge what lies between them. Record. [mm]
        insulation: The insulation, lowest first. Sequence. [mm, W/mK]
        batten_fraction: The share of the deck's area that is battens. Scalar. [-]
        roof_space: Whether the roof space is counted. Choice. [-]

    Returns:
        The limits, and the level of air gaps. Record. [m2K/W]

    Source:
        As ceiling_u_value.
    """
    timber, convention = _timber(joist_field, batten_fraction), convention_of(survey, roof_space)
    return through_ceiling(survey.plasterboard_mm, timber, insulation, convention)


def _timber(joist_field: JoistField, battens: Decimal) -> Timber:
    joists = timber_fraction(joist_field)
    return Timber(joist_depth_mm=joist_field.depth_mm, joists=joists, battens=battens)


def ceiling_u_value(
    survey: Survey,
    joist_field: JoistField,
    insulation: Sequence[Insulation],
    *,
    batten_fraction: Decimal = _NO_BATTENS,
    roof_space: RoofSpace = RoofSpace.COUNTED,
) -> Figure[Decimal]:
    """Give the U-value of the ceiling under one joist field.

    Battens cross what lies across the joists, as joists cross what lies between them; pedestals of plastic
    need no correction.

    Args:
        survey: The plasterboard and the roof's underlay. Record. [mm]
        joist_field: The joists that bridge what lies between them. Record. [mm]
        insulation: The insulation, lowest first. Sequence. [mm, W/mK]
        batten_fraction: The share of the deck's area that is battens. Scalar. [-]
        roof_space: Whether the roof space is counted. Choice. [-]

    Returns:
        The U-value, to six places. Scalar. [W/m2K]

    Source:
        BS EN ISO 6946 combined method; BR 443 (2019); resistance of the roof space as in TGD L 2022 A3.
    """
    timber, convention = _timber(joist_field, batten_fraction), convention_of(survey, roof_space)
    through = through_ceiling(survey.plasterboard_mm, timber, insulation, convention)
    corrections, added = _corrections(through, any(each.pressed for each in insulation))
    inputs = (
        published("inside surface", INSIDE_SURFACE_UPWARD, "m²K/W"),
        measured("plasterboard", survey.plasterboard_mm, "mm"),
        published("plasterboard conductivity", PLASTERBOARD.conductivity_w_mk, "W/mK"),
        *(_lying(each) for each in insulation),
        measured("joist depth", joist_field.depth_mm, "mm"),
        measured("joist width", joist_field.width_mm, "mm"),
        measured("mean joist centres", mean_centres_mm(joist_field).quantize(Decimal("0.1")), "mm"),
        published("additional timbers", ADDITIONAL_TIMBERS),
        _worked_out("share of timber", timber.joists, ""),
        *((_worked_out("share of battens", batten_fraction, ""),) if batten_fraction else ()),
        published("timber conductivity", SOFTWOOD.conductivity_w_mk, "W/mK"),
        chosen("roof-space convention", convention.name),
        published("roof space", convention.roof_space_m2k_w, "m²K/W"),
        published("outside surface", convention.outside_surface_m2k_w, "m²K/W"),
        _worked_out("upper limit", to_six_places(through.upper_m2k_w), "m²K/W"),
        _worked_out("lower limit", to_six_places(through.lower_m2k_w), "m²K/W"),
        *added,
    )
    formula = "1 / ((upper limit + lower limit) / 2)"
    formula += " + added by gaps" if through.counted_w_m2k else ""
    formula += f"{_METHOD}. Corrections: {corrections}; {_NO_FIXINGS}. By the roof-space convention"
    if not through.is_within_method:
        formula += ". Outside the method: upper over lower is above 1.5"
    source = f"BS EN ISO 6946 combined method; {convention.source}; {TIMBER_SOURCE}; {PLASTERBOARD.source}"
    return Figure("U-value of the ceiling", through.u_w_m2k, "W/m²K", Working(formula, inputs, source))


def _corrections(through: ThroughCeiling, pressed: bool) -> tuple[str, tuple[Given, ...]]:
    if through.gaps is AirGaps.NONE:
        why = "as boards press the wool" if pressed else "as insulation lies over the joists too"
        if not through.insulation_m2k_w:
            why = "as there is no insulation"
        return f"none for air gaps (level 0), {why}", ()
    inputs = (
        published(f"air gaps, level {through.gaps.value}", ADDED_BY_AIR_GAPS_W_M2K[through.gaps], "W/m²K"),
        _worked_out("insulation", to_six_places(through.insulation_m2k_w), "m²K/W"),
        _worked_out("ceiling without timber", to_six_places(through.without_timber_m2k_w), "m²K/W"),
        _worked_out("added by gaps", to_six_places(through.gaps_w_m2k), "W/m²K"),
    )
    counted = "counted" if through.counted_w_m2k else "left out"
    beside = "at least" if through.counted_w_m2k else "under"
    words = (
        "air gaps × (insulation / ceiling without timber)² for wool between joists only, "
        f"{counted} as it is {beside} 3 % of the U-value"
    )
    return words, inputs


def _lying(each: Insulation) -> Given:
    where = "across joists" if each.across else "between joists"
    words = f"{each.thickness_mm} mm at {each.conductivity_w_mk} W/mK"
    return Given(f"{each.name} {where}", words, "", Origin.WORKED_OUT)


def _worked_out(name: str, value: Decimal | int, unit: str) -> Given:
    return Given(name, value, unit, Origin.WORKED_OUT)


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
