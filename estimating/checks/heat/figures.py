"""The heat results as figures: each value with the layers, the formula in words and the source behind it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from typing import Any

from pint import Quantity

from estimating.checks.heat.build_up import (
    CONDUCTIVITY,
    RESISTANCE,
    TRANSMITTANCE,
    BridgedLayer,
    Ceiling,
    Layer,
    Resistance,
)
from estimating.checks.heat.plain import amount_of, in_unit
from estimating.checks.heat.squashed import squashed_wool
from estimating.checks.heat.thickness import required_over_thickness
from estimating.checks.heat.timber import timber_fraction
from estimating.checks.heat.u_values import area_weighted_u, u_value
from estimating.published import squashed_wool as wool_tests
from estimating.published.timber_fractions import ADDITIONAL_TIMBERS
from estimating.refusals import Refusal
from estimating.working import (
    Figure,
    Given,
    Origin,
    Working,
    chosen,
    default,
    measured,
    published,
    worked_out,
)

COMBINED_METHOD = "BS EN ISO 6946 combined method; BR 443 (2019)"
_FORMULA = (
    "upper limit = 1 / sum over the paths of (share of area / resistance along the path); "
    "lower limit = sum of the layers, a layer crossed by timber as 1 / (share of wool / its resistance + "
    "share of timber / its resistance); U = 1 / (half of upper limit + lower limit)"
)
Origins = Mapping[str, Origin]


def u_value_figure(name: str, build_up: Ceiling, origins: Origins) -> Figure[Decimal]:
    """Give the U-value of a ceiling with every layer's numbers behind it.

    Args:
        name: What the figure is called. Text. [-]
        build_up: The ceiling, inside to outside. Record. [mm, W/mK, m2K/W]
        origins: Where each layer's numbers came from, by the layer's name. Mapping. [-]

    Returns:
        The U-value to six places. Scalar. [W/m2K]

    Raises:
        Refusal: A layer's origin is missing, or the ceiling cannot be so.

    Source:
        BS EN ISO 6946 combined method; BR 443 (2019).
    """
    result = u_value(build_up)
    limits = (("upper limit", result.upper), ("lower limit", result.lower))
    inputs = (
        *_given_ceiling(build_up, origins),
        *(Given(each, _number(limit, RESISTANCE), "m²K/W", Origin.WORKED_OUT) for each, limit in limits),
    )
    formula = (
        _FORMULA if result.is_valid else f"{_FORMULA}; outside the method: upper over lower is above 1.5"
    )
    return Figure(name, _number(result.u, TRANSMITTANCE), "W/m²K", Working(formula, inputs, COMBINED_METHOD))


def timber_fraction_figure(
    name: str, width: Quantity[Any] | None = None, spacing: Quantity[Any] | None = None
) -> Figure[Decimal]:
    """Give the share of a ceiling that is timber, measured or by the published default.

    Args:
        name: What the figure is called. Text. [-]
        width: Width of a joist, None when not measured. Scalar. [mm]
        spacing: Centre to centre of joists, None when not measured. Scalar. [mm]

    Returns:
        The fraction to six places. Scalar. [-]

    Raises:
        Refusal: Only one of the two was given, or the joists leave no room between them.

    Source:
        BR 443 (2019) 4.5.
    """
    value = _rounded(timber_fraction(width, spacing))
    if width is None or spacing is None:
        working = Working(
            "joists not measured: 12.8 %", (default("timber fraction", value),), "BR 443 (2019) 4.5.1"
        )
        return Figure(name, value, "", working)
    inputs = (
        measured("joist width", _number(width, "mm"), "mm"),
        measured("joist spacing", _number(spacing, "mm"), "mm"),
        published("additional timbers", ADDITIONAL_TIMBERS),
    )
    working = Working("joist width / joist spacing + additional timbers", inputs, "BR 443 (2019) 4.5")
    return Figure(name, value, "", working)


def squashed_wool_figure(
    name: str, resistance: Figure[Decimal], thickness: Quantity[Any], squashed_to: Quantity[Any]
) -> Figure[Decimal]:
    """Give what is left of wool's resistance when it is squashed, beside what was tested.

    Args:
        name: What the figure is called. Text. [-]
        resistance: Resistance at the full thickness. Scalar. [m2K/W]
        thickness: The full thickness. Scalar. [mm]
        squashed_to: The thickness it is pressed to. Scalar. [mm]

    Returns:
        The resistance left, to six places. Scalar. [m2K/W]

    Raises:
        Refusal: A thickness is not more than 0, or the wool would be stretched.

    Source:
        Own fit to tests by the National Physical Laboratory as reproduced in a syndicated copy; an estimate.
    """
    full = amount_of(float(resistance.value), RESISTANCE)
    left = squashed_wool(full, thickness, squashed_to)
    test = wool_tests.NPL
    inputs = (
        worked_out(resistance),
        Given("thickness", _number(thickness, "mm"), "mm", Origin.WORKED_OUT),
        Given("squashed to", _number(squashed_to, "mm"), "mm", Origin.WORKED_OUT),
        published("power", wool_tests.POWER),
        published("NPL: 270 mm", test.full_resistance_m2k_w, "m²K/W"),
        published("NPL: the same squashed to 100 mm", test.squashed_resistance_m2k_w, "m²K/W"),
    )
    formula = "resistance × (squashed to / thickness) ^ power, an estimate"
    if not left.is_within_tests:
        formula += "; squashed further than any test"
    return Figure(name, _number(left.R, RESISTANCE), "m²K/W", Working(formula, inputs, wool_tests.SOURCE))


def required_over_figure(
    name: str, build_up: Ceiling, origins: Origins, conductivity: Quantity[Any], target: Quantity[Any]
) -> Figure[Decimal]:
    """Give the thickness across the joists at which a ceiling just meets its target.

    Args:
        name: What the figure is called. Text. [-]
        build_up: The ceiling without the layer across. Record. [mm, W/mK, m2K/W]
        origins: Where each layer's numbers came from, by the layer's name. Mapping. [-]
        conductivity: Conductivity of the layer across. Scalar. [W/mK]
        target: The U-value to meet. Scalar. [W/m2K]

    Returns:
        The thickness to six places, not rounded to what can be bought. Scalar. [mm]

    Raises:
        Refusal: A layer's origin is missing, or conductivity or target is not more than 0.

    Source:
        BS EN ISO 6946 combined method, solved by halving.
    """
    thickness = required_over_thickness(build_up, conductivity, target)
    inputs = (
        *_given_ceiling(build_up, origins),
        chosen("conductivity across joists", _number(conductivity, CONDUCTIVITY), "W/mK"),
        chosen("target", _number(target, TRANSMITTANCE), "W/m²K"),
    )
    formula = f"the thickness across joists at which U is the target, where {_FORMULA}"
    return Figure(name, _number(thickness, "mm"), "mm", Working(formula, inputs, COMBINED_METHOD))


def area_weighted_figure(
    name: str, parts: Iterable[tuple[Figure[Decimal], Figure[Decimal]]]
) -> Figure[Decimal]:
    """Give the U-value of a whole ceiling from the areas and U-values of its parts.

    Args:
        name: What the figure is called. Text. [-]
        parts: Area and U-value of each part. Sequence of pairs. [m2, W/m2K]

    Returns:
        The U-value to six places. Scalar. [W/m2K]

    Raises:
        Refusal: The parts have no area together.

    Source:
        Definition.
    """
    pairs = tuple(parts)
    whole = area_weighted_u(
        (amount_of(float(area.value), "m**2"), amount_of(float(u.value), TRANSMITTANCE)) for area, u in pairs
    )
    inputs = tuple(worked_out(figure) for pair in pairs for figure in pair)
    working = Working("sum of (area × U) / sum of areas", inputs, "definition")
    return Figure(name, _number(whole, TRANSMITTANCE), "W/m²K", working)


def _given_ceiling(build_up: Ceiling, origins: Origins) -> Iterator[Given]:
    convention = build_up.roof_space
    yield published("inside surface", _number(build_up.inside_surface, RESISTANCE), "m²K/W")
    for layer in build_up.layers:
        if layer.name not in origins:
            raise Refusal("origins", f"must say where the numbers of {layer.name} came from")
        yield from _given_layer(layer, origins[layer.name])
    yield chosen("roof-space convention", convention.name)
    yield published("roof space", convention.roof_space_m2k_w, "m²K/W")
    yield published("outside surface", convention.outside_surface_m2k_w, "m²K/W")


def _given_layer(layer: Layer | BridgedLayer | Resistance, origin: Origin) -> Iterator[Given]:
    if isinstance(layer, Resistance):
        yield Given(f"{layer.name}, resistance", _number(layer.R, RESISTANCE), "m²K/W", origin)
        return
    yield Given(f"{layer.name}, thickness", _number(layer.thickness, "mm"), "mm", origin)
    yield Given(f"{layer.name}, conductivity", _number(layer.conductivity, CONDUCTIVITY), "W/mK", origin)
    if isinstance(layer, BridgedLayer):
        share = _rounded(layer.timber_fraction)
        timber = _number(layer.timber_conductivity, CONDUCTIVITY)
        yield Given(f"{layer.name}, share of {layer.timber}", share, "", Origin.WORKED_OUT)
        yield published(f"{layer.name}, conductivity of {layer.timber}", timber, "W/mK")


def _number(amount: Quantity[Any], unit: str) -> Decimal:
    return _rounded(in_unit(amount, unit, unit))


def _rounded(number: float) -> Decimal:
    """Six places are past any reader's need and short of where machines differ."""
    return Decimal(f"{number:.6f}").normalize() + 0
