"""What the loft's own ceiling does on a cold day: boards laid on the insulation, or held above it."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal

from estimating.checks.moisture.interstitial import (
    SECONDS_A_DAY,
    Climate,
    VapourLayer,
    condensate_g_m2,
    temperatures_c,
    vapour_points,
)
from estimating.checks.moisture.record import Moisture
from estimating.checks.moisture.vapour import dew_point_c, saturation_pressure_pa
from estimating.checks.warmth.through_ceiling import Insulation
from estimating.published.conductivities import CHIPBOARD, PLASTERBOARD
from estimating.published.vapour import (
    BOARD_FACTOR,
    INSIDE_C,
    INSIDE_HUMIDITY,
    INSULATION_FACTOR,
    OUTSIDE_C,
    OUTSIDE_HUMIDITY,
    OVER_WATER,
    PLASTERBOARD_FACTOR,
    PRESSURE_AT_FREEZING_PA,
    ROLL_FACTOR,
    SCREENING_SOURCE,
    SOURCE,
)
from estimating.survey import Survey
from estimating.working import Figure, Given, Origin, Working, default, published

COLD_DAY = Climate(INSIDE_C, INSIDE_HUMIDITY, OUTSIDE_C, OUTSIDE_HUMIDITY)
"""The weather of the screening; nobody measures it, so that it is printed with every figure."""

_WATER_FORMULA = (
    "permeability of air × (fall of pressure by the metre of still air up to each condensing plane − fall "
    f"beyond it) × {SECONDS_A_DAY} s × 1000 g; pressures lie on a taut string from the first point to the "
    "last, which no point may lie below, and condensing planes are the corners of the string"
)


def moisture_under_deck(
    survey: Survey, insulation: Sequence[Insulation], board_thickness_mm: int
) -> Moisture | None:
    """Screen the ceiling as it will be, with boards laid on the insulation and held above it by a gap.

    Air moves in the gap, so that the deck above it keeps no vapour in and is left out. Boards on the
    insulation are taken to lie on it as deep as it is, and joists beside it are left out.

    Args:
        survey: The plasterboard, and what lies there now. Record. [mm]
        insulation: The insulation as it will lie, lowest first. Sequence. [mm, W/mK]
        board_thickness_mm: The boards. Scalar. [mm]

    Returns:
        Water and temperatures on a cold day, None where no insulation will lie. Record. [g/m2, C]

    Source:
        BS EN ISO 13788:2012, steady state, as a screening.
    """
    if not insulation:
        return None
    below = _ceiling_layers(survey, insulation)
    deck = _layer("boards", board_thickness_mm, CHIPBOARD.conductivity_w_mk, BOARD_FACTOR)
    closed = (*below, deck)
    return Moisture(
        dew_point_inside_c=_dew_point(),
        under_boards_c=_under_boards(closed),
        boards_on_wool_g_m2_day=_water("water in a day, boards on the insulation", closed, ""),
        boards_above_gap_g_m2_day=_water(
            "water in a day, boards above a gap", below, "; the deck is left out, since air moves under it"
        ),
    )


def _dew_point() -> Figure[Decimal]:
    inside, humidity = _climate_given()[:2]
    held = _rounded(INSIDE_HUMIDITY * saturation_pressure_pa(INSIDE_C), "0.1")
    inputs = (
        inside,
        humidity,
        Given("vapour pressure", held, "Pa", Origin.WORKED_OUT),
        published("b", Decimal(str(OVER_WATER.b)), "°C"),
        published("a", Decimal(str(OVER_WATER.a))),
    )
    formula = (
        f"b × x / (a − x), where x is the logarithm of vapour pressure / {PRESSURE_AT_FREEZING_PA} Pa, and "
        f"vapour pressure is inside humidity × {PRESSURE_AT_FREEZING_PA} Pa × exp(a × inside temperature / "
        "(b + inside temperature))"
    )
    value = _rounded(dew_point_c(INSIDE_C, INSIDE_HUMIDITY), "0.1")
    return Figure("dew point of the room's air", value, "°C", Working(formula, inputs, SOURCE))


def _under_boards(layers: Sequence[VapourLayer]) -> Figure[Decimal]:
    below, whole = COLD_DAY.inside_surface_m2k_w, COLD_DAY.outside_surface_m2k_w
    below += sum(layer.resistance_m2k_w for layer in layers[:-1])
    whole += below + layers[-1].resistance_m2k_w
    inputs = (
        *_climate_given(),
        *(_given(each) for each in layers),
        Given("resistance below the boards", _rounded(below, "0.001"), "m²K/W", Origin.WORKED_OUT),
        Given("resistance in all", _rounded(whole, "0.001"), "m²K/W", Origin.WORKED_OUT),
    )
    formula = (
        "inside temperature − (inside temperature − outside temperature) × resistance below the boards / "
        "resistance in all, both with the surfaces"
    )
    value = _rounded(temperatures_c(layers, COLD_DAY)[-2], "0.1")
    return Figure("under boards laid on the insulation", value, "°C", Working(formula, inputs, SOURCE))


def _water(name: str, layers: Sequence[VapourLayer], caveat: str) -> Figure[Decimal]:
    inputs = (
        published("permeability of air", f"{COLD_DAY.vapour_permeability_of_air:.1e} kg/(m·s·Pa)"),
        *_climate_given(),
        *(_given(each) for each in layers),
        *_points_given(layers),
    )
    value = _rounded(condensate_g_m2(layers, COLD_DAY), "0.1")
    return Figure(name, value, "g/m²", Working(f"{_WATER_FORMULA}{caveat}", inputs, SCREENING_SOURCE))


def _points_given(layers: Sequence[VapourLayer]) -> tuple[Given, ...]:
    """The pressures that the string is pulled under, and how far from the room each stands."""
    named = ("point inside", *(f"point after {layer.name}" for layer in layers[:-1]), "point outside")
    points = vapour_points(layers, COLD_DAY)
    return tuple(
        Given(name, f"{way:.3f} m of still air, {pressure:.1f} Pa", "", Origin.WORKED_OUT)
        for name, (way, pressure) in zip(named, points, strict=True)
    )


def _ceiling_layers(survey: Survey, insulation: Sequence[Insulation]) -> tuple[VapourLayer, ...]:
    lining = float(survey.plasterboard_mm)
    layers = [_layer("plasterboard", lining, PLASTERBOARD.conductivity_w_mk, PLASTERBOARD_FACTOR)]
    for number, each in enumerate(insulation):
        found = number == 0 and survey.insulation.depth_mm > 0
        factor = INSULATION_FACTOR[survey.insulation.material] if found else ROLL_FACTOR
        layers.append(_layer(each.name, each.thickness_mm, float(each.conductivity_w_mk), factor))
    return tuple(layers)


def _layer(name: str, thickness_mm: float, conductivity_w_mk: float, factor: int) -> VapourLayer:
    thickness_m = thickness_mm / 1000
    return VapourLayer(name, thickness_m / conductivity_w_mk, thickness_m * factor)


def _climate_given() -> tuple[Given, ...]:
    return (
        default("inside temperature", _rounded(COLD_DAY.inside_c, "1"), "°C"),
        default("inside humidity", _rounded(COLD_DAY.inside_humidity * 100, "1"), "%"),
        default("outside temperature", _rounded(COLD_DAY.outside_c, "1"), "°C"),
        default("outside humidity", _rounded(COLD_DAY.outside_humidity * 100, "1"), "%"),
        published("inside surface", Decimal(f"{COLD_DAY.inside_surface_m2k_w:.2f}"), "m²K/W"),
        published("outside surface", Decimal(f"{COLD_DAY.outside_surface_m2k_w:.2f}"), "m²K/W"),
    )


def _given(layer: VapourLayer) -> Given:
    words = f"{layer.resistance_m2k_w:.3f} m²K/W, vapour as {layer.still_air_m:.3f} m of still air"
    return Given(layer.name, words, "", Origin.WORKED_OUT)


def _rounded(value: float, step: str) -> Decimal:
    return Decimal(value).quantize(Decimal(step), rounding=ROUND_HALF_UP)
