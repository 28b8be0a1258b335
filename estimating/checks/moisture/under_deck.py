"""What the loft's own ceiling does on a cold day: boards laid on the wool, or held above it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import ROUND_HALF_UP, Decimal

from estimating.checks.ceiling import Insulation
from estimating.checks.moisture.interstitial import (
    Climate,
    VapourLayer,
    condensate_g_m2,
    temperatures_c,
)
from estimating.checks.moisture.record import Moisture
from estimating.checks.moisture.vapour import dew_point_c
from estimating.checks.verdicts import Verdict
from estimating.published.conductivities import CHIPBOARD, MINERAL_WOOL_ROLL, PLASTERBOARD, RIGID_FOAM_BOARD
from estimating.published.vapour import (
    INSIDE_C,
    INSIDE_HUMIDITY,
    OUTSIDE_C,
    OUTSIDE_HUMIDITY,
    SCREENING_SOURCE,
    SOURCE,
)
from estimating.survey import InsulationMaterial, Severity, Survey
from estimating.working import Figure, Given, Origin, Working, default, published

COLD_DAY = Climate(INSIDE_C, INSIDE_HUMIDITY, OUTSIDE_C, OUTSIDE_HUMIDITY)


def moisture_under_deck(
    survey: Survey, insulation: Sequence[Insulation], board_thickness_mm: int
) -> Moisture:
    """Screen the ceiling as it will be, with boards laid on the insulation and held above it by a gap.

    Air moves in the gap, so that the deck above it keeps no vapour in and is left out. Boards on the wool
    are taken to lie on it as deep as it is: squashed it would keep them colder still.

    Args:
        survey: The plasterboard, and what lies there now. Record. [mm]
        insulation: The insulation as it will lie, lowest first. Sequence. [mm, W/mK]
        board_thickness_mm: The boards. Scalar. [mm]

    Returns:
        Water and temperatures on a cold day. Record. [g/m2, C]

    Source:
        BS EN ISO 13788:2012, steady state, as a screening.
    """
    below = _ceiling_layers(survey, insulation)
    deck = _layer("boards", board_thickness_mm, CHIPBOARD.conductivity_w_mk, _factor_of(CHIPBOARD))
    closed = (*below, deck)
    under = temperatures_c(closed, COLD_DAY)[-2]
    inputs = (*_climate_given(), *(_given(each) for each in below))
    with_deck = (*inputs, _given(deck))
    formula = (
        "the taut string under the pressures of saturated air between the layers, from inside to outside; "
        "water stays at each of its corners"
    )
    return Moisture(
        dew_point_inside_c=Figure(
            "dew point of the room's air",
            _rounded(dew_point_c(INSIDE_C, INSIDE_HUMIDITY), "0.1"),
            "°C",
            Working(
                "the temperature at which the inside humidity × saturation pressure is all that air can hold",
                _climate_given()[:2],
                SOURCE,
            ),
        ),
        under_boards_c=Figure(
            "under boards laid on the insulation",
            _rounded(under, "0.1"),
            "°C",
            Working("temperatures by resistance, from inside to outside", with_deck, SOURCE),
        ),
        boards_on_wool_g_m2_day=Figure(
            "water in a day, boards on the insulation",
            _rounded(condensate_g_m2(closed, COLD_DAY), "0.1"),
            "g/m²",
            Working(formula, with_deck, SCREENING_SOURCE),
        ),
        boards_above_gap_g_m2_day=Figure(
            "water in a day, boards above a gap",
            _rounded(condensate_g_m2(below, COLD_DAY), "0.1"),
            "g/m²",
            Working(f"{formula}; the deck is left out, since air moves under it", inputs, SCREENING_SOURCE),
        ),
    )


def moisture_verdicts(moisture: Moisture, gap_mm: int) -> Iterator[Verdict]:
    """Say whether water is to be expected under the boards, and why the deck is held off the insulation.

    Args:
        moisture: The water and the temperatures. Record. [g/m2]
        gap_mm: The gap that the deck is built with. Scalar. [mm]

    Returns:
        A verdict. Iterator. [-]

    Source:
        BS EN ISO 13788:2012, steady state, as a screening.
    """
    on_wool, above = moisture.boards_on_wool_g_m2_day, moisture.boards_above_gap_g_m2_day
    day = f"On a cold day ({INSIDE_C:.0f} °C and {INSIDE_HUMIDITY:.0%} inside, {OUTSIDE_C:.0f} °C outside)"
    laid = f"about {on_wool.value:.0f} g on each square metre under boards laid on the insulation"
    severity, figure = Severity.NOTE, on_wool
    if gap_mm <= 0 < on_wool.value:
        severity = Severity.CAUTION
        words = f"{day} water would gather, {laid}, and there is no gap. Raise the deck."
    elif above.value > 0:
        severity, figure = Severity.CAUTION, above
        words = f"{day} about {above.value:.0f} g of water would gather in the ceiling even under a gap."
    elif on_wool.value > 0:
        words = f"{day} no water gathers under a deck with air below it; {laid} would."
    else:
        words = f"{day} no water gathers under the boards."
    yield Verdict(
        subject="moisture",
        severity=severity,
        words=f"{words} A screening, not a year's reckoning.",
        source=figure.working.source,
        figure=figure,
    )


def _ceiling_layers(survey: Survey, insulation: Sequence[Insulation]) -> tuple[VapourLayer, ...]:
    board = survey.plasterboard_mm
    lining = _layer("plasterboard", float(board), PLASTERBOARD.conductivity_w_mk, _factor_of(PLASTERBOARD))
    rigid = survey.insulation.material is InsulationMaterial.RIGID_BOARD
    layers = [lining]
    for number, each in enumerate(insulation):
        found = number == 0 and rigid and survey.insulation.depth_mm > 0
        factor = _factor_of(RIGID_FOAM_BOARD if found else MINERAL_WOOL_ROLL)
        layers.append(_layer(each.name, each.thickness_mm, float(each.conductivity_w_mk), factor))
    return tuple(layers)


def _factor_of(material: object) -> int:
    factor = getattr(material, "vapour_resistance_factor")  # noqa: B009
    assert isinstance(factor, int)  # noqa: S101
    return factor


def _layer(name: str, thickness_mm: float, conductivity_w_mk: float, factor: int) -> VapourLayer:
    thickness = thickness_mm / 1000
    return VapourLayer(name, thickness / conductivity_w_mk, thickness * factor)


def _climate_given() -> tuple[Given, ...]:
    return (
        default("inside", Decimal(str(INSIDE_C)), "°C"),
        default("inside humidity", Decimal(str(INSIDE_HUMIDITY))),
        default("outside", Decimal(str(OUTSIDE_C)), "°C"),
        default("outside humidity", Decimal(str(OUTSIDE_HUMIDITY))),
        published("inside surface", Decimal(str(COLD_DAY.inside_surface_m2k_w)), "m²K/W"),
        published("outside surface", Decimal(str(COLD_DAY.outside_surface_m2k_w)), "m²K/W"),
    )


def _given(layer: VapourLayer) -> Given:
    words = f"{layer.resistance_m2k_w:.3f} m²K/W, vapour as {layer.still_air_m:.2f} m of air"
    return Given(layer.name, words, "", Origin.WORKED_OUT)


def _rounded(value: float, step: str) -> Decimal:
    return Decimal(value).quantize(Decimal(step), rounding=ROUND_HALF_UP)
