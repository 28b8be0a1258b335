"""The U-value of a loft ceiling as it stands or will stand: insulation from the plasterboard up."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from estimating.survey import JoistField, Survey, Underlay
from estimating.working import Figure, Given, Origin, Working, measured, published

INSIDE_SURFACE_M2K_W = 0.10
OUTSIDE_SURFACE_M2K_W = 0.04
ROOF_SPACE_M2K_W = {Underlay.NONE: 0.06, Underlay.NON_BREATHING: 0.20, Underlay.BREATHING: 0.20}
PLASTERBOARD_W_MK = 0.21
SOFTWOOD_W_MK = 0.13
EXTRA_TIMBER = Decimal("0.01")
SQUASHING_POWER = 0.686
_SOURCE = "BS EN ISO 6946 combined method; BR 443 (2019) 3.8, 3.9, 4.2 and 4.5"


@dataclass(frozen=True, slots=True)
class Slab:
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
    lines = joist_field.centre_lines_mm
    mean = Decimal(lines[-1] - lines[0]) / (len(lines) - 1)
    return (joist_field.width_mm / mean + EXTRA_TIMBER).quantize(Decimal("0.0001"))


def ceiling_u_value(survey: Survey, joist_field: JoistField, slabs: Sequence[Slab]) -> Figure[Decimal]:
    """Give the U-value of the ceiling under one joist field.

    Args:
        survey: The plasterboard and the roof's underlay. Record. [mm]
        joist_field: The joists that bridge what lies between them. Record. [mm]
        slabs: The insulation, lowest first. Sequence. [mm, W/mK]

    Returns:
        The U-value. Scalar. [W/m2K]

    Source:
        BS EN ISO 6946 combined method; BR 443 (2019); resistance of the roof space as used in TGD L 2022 A3.
    """
    fraction = timber_fraction(joist_field)
    roof_space = ROOF_SPACE_M2K_W[survey.roof.underlay]
    board = float(survey.plasterboard_mm) / 1000 / PLASTERBOARD_W_MK
    bridged, plain = _resistances(slabs, joist_field.depth_mm)
    plain += INSIDE_SURFACE_M2K_W + board + roof_space + OUTSIDE_SURFACE_M2K_W
    u_value = 1 / _combined(float(fraction), plain, bridged)
    inputs = (
        published("inside surface", INSIDE_SURFACE_M2K_W, "m²K/W"),
        measured("plasterboard", survey.plasterboard_mm, "mm"),
        *(_given(slab) for slab in slabs),
        measured("joist depth", joist_field.depth_mm, "mm"),
        Given("timber fraction", fraction, "", Origin.WORKED_OUT),
        published("timber conductivity", SOFTWOOD_W_MK, "W/mK"),
        published("roof space", roof_space, "m²K/W"),
        published("outside surface", OUTSIDE_SURFACE_M2K_W, "m²K/W"),
    )
    value = Decimal(u_value).quantize(Decimal("0.0001"), rounding=ROUND_HALF_UP)
    formula = "1 / mean of the upper and lower limits of resistance"
    return Figure("U-value of the ceiling", value, "W/m²K", Working(formula, inputs, _SOURCE))


def _given(slab: Slab) -> Given:
    where = "across joists" if slab.across else "between joists"
    return Given(
        f"{slab.name} {where}",
        f"{slab.thickness_mm} mm at {slab.conductivity_w_mk} W/mK",
        "",
        Origin.WORKED_OUT,
    )


def _resistances(slabs: Iterable[Slab], depth_mm: int) -> tuple[list[tuple[float, float]], float]:
    """The bridged thicknesses as (wool, timber) resistances, and the resistance that nothing bridges."""
    bridged: list[tuple[float, float]] = []
    plain, height_mm = 0.0, 0
    for slab in slabs:
        within = 0 if slab.across else max(0, min(slab.thickness_mm, depth_mm - height_mm))
        wool = float(slab.conductivity_w_mk)
        if within:
            bridged.append((within / 1000 / wool, within / 1000 / SOFTWOOD_W_MK))
        plain += (slab.thickness_mm - within) / 1000 / wool
        height_mm += slab.thickness_mm
    return bridged, plain


def _combined(fraction: float, plain: float, bridged: Iterable[tuple[float, float]]) -> float:
    bridged = tuple(bridged)
    through_wool = plain + sum(wool for wool, _ in bridged)
    through_timber = plain + sum(timber for _, timber in bridged)
    upper = 1 / ((1 - fraction) / through_wool + fraction / through_timber)
    lower = plain + sum(1 / ((1 - fraction) / wool + fraction / timber) for wool, timber in bridged)
    return (upper + lower) / 2


def squashed_u_value(survey: Survey, joist_field: JoistField, slabs: Sequence[Slab]) -> Figure[Decimal]:
    """Give the U-value were the same insulation squashed to the joist tops by a deck laid on them.

    Args:
        survey: The plasterboard and the roof's underlay. Record. [mm]
        joist_field: The joists. Record. [mm]
        slabs: The insulation before squashing, lowest first. Sequence. [mm, W/mK]

    Returns:
        The U-value. Scalar. [W/m2K]

    Source:
        R = R0 (t / t0)^0.686, fitted to tests by the National Physical Laboratory (270 mm squashed to 100 mm
        keeps 3.09 of 6.11 m²K/W), read second hand; an estimate.
    """
    depth, whole = joist_field.depth_mm, sum(slab.thickness_mm for slab in slabs)
    if whole <= depth:
        return ceiling_u_value(survey, joist_field, slabs)
    resistance = sum(slab.thickness_mm / 1000 / float(slab.conductivity_w_mk) for slab in slabs)
    left = resistance * (depth / whole) ** SQUASHING_POWER
    conductivity = Decimal(depth / 1000 / left).quantize(Decimal("0.0001"))
    squashed = ceiling_u_value(
        survey, joist_field, (Slab("all insulation squashed", depth, conductivity, False),)
    )
    inputs = (
        *squashed.working.inputs,
        Given("insulation before", whole, "mm", Origin.WORKED_OUT),
        Given(
            "resistance before", Decimal(resistance).quantize(Decimal("0.001")), "m²K/W", Origin.WORKED_OUT
        ),
        published("power", SQUASHING_POWER),
    )
    formula = (
        "resistance of the insulation × (joist depth / insulation before) ^ power, then "
        f"{squashed.working.formula}"
    )
    working = Working(formula, inputs, f"{_SOURCE}; squashing by NPL tests, read second hand: an estimate")
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
