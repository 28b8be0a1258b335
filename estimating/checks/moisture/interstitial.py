"""Condensation between layers on one cold day that never ends: a screening, not a year.

Vapour travels from the warm side to the cold; where its straight way would hold more than the air there can,
the surplus stays behind as water. The pressure of vapour is then the taut string under the pressures of
saturated air: each corner of the string is a plane that water stays in.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import inf

from estimating.checks.moisture.vapour import COLDEST_C, WARMEST_C, saturation_pressure_pa
from estimating.published.surface_resistances import (
    INSIDE_SURFACE_UPWARD,
    OUTSIDE_SURFACE_VENTILATED_ROOF,
)
from estimating.published.vapour import VAPOUR_PERMEABILITY_OF_AIR
from estimating.refusals import Requirements

SECONDS_A_DAY = 86_400


@dataclass(frozen=True, slots=True)
class VapourLayer:
    """A layer: resistance to heat [m2K/W], and to vapour as so many metres of still air."""

    name: str
    resistance_m2k_w: float
    still_air_m: float

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(0 <= self.resistance_m2k_w < inf, "resistance_m2k_w", "must not be less than 0 m²K/W")
        needs.require(0 < self.still_air_m < inf, "still_air_m", "must be more than 0 m")
        needs.settle()


@dataclass(frozen=True, slots=True)
class Climate:
    """The air on both sides, humidities as shares, the resistances of the surfaces [m2K/W], and how easily
    vapour passes through air [kg/m.s.Pa].
    """

    inside_c: float
    inside_humidity: float
    outside_c: float
    outside_humidity: float
    inside_surface_m2k_w: float = INSIDE_SURFACE_UPWARD
    outside_surface_m2k_w: float = OUTSIDE_SURFACE_VENTILATED_ROOF
    vapour_permeability_of_air: float = VAPOUR_PERMEABILITY_OF_AIR

    def __post_init__(self) -> None:
        needs = Requirements()
        for name in ("inside_c", "outside_c"):
            within = COLDEST_C <= getattr(self, name) <= WARMEST_C
            needs.require(within, name, f"must be from {COLDEST_C:.0f} to {WARMEST_C:.0f} °C")
        for name in ("inside_humidity", "outside_humidity"):
            needs.require(0 <= getattr(self, name) <= 1, name, "must be from 0 to 1")
        for name in ("inside_surface_m2k_w", "outside_surface_m2k_w"):
            needs.require(0 <= getattr(self, name) < inf, name, "must not be less than 0 m²K/W")
        permeable = 0 < self.vapour_permeability_of_air < inf
        needs.require(permeable, "vapour_permeability_of_air", "must be more than 0 kg/(m·s·Pa)")
        needs.settle()


@dataclass(frozen=True, slots=True)
class CondensingPlane:
    """Where water stays: on the cold side of the layer of that number, from 0, so much a second."""

    layer: int
    rate_kg_m2_s: float


def temperatures_c(layers: Sequence[VapourLayer], climate: Climate) -> tuple[float, ...]:
    """Give the temperatures of the surfaces of every layer, from the inside surface to the outside one.

    Args:
        layers: The layers, inside to outside. Sequence of records. [m2K/W]
        climate: The air on both sides. Record. [C]

    Returns:
        One more temperature than there are layers. Tuple. [C]

    Raises:
        Refusal: There are no layers.

    Source:
        Steady heat flow; BS EN ISO 13788:2012.
    """
    needs = Requirements()
    needs.require(bool(layers), "layers", "must name at least one layer")
    needs.settle()
    passed = list(
        accumulate((each.resistance_m2k_w for each in layers), initial=climate.inside_surface_m2k_w)
    )
    whole = passed[-1] + climate.outside_surface_m2k_w
    fall = climate.inside_c - climate.outside_c
    return tuple(climate.inside_c - fall * (each / whole if whole else 0) for each in passed)


def condensing_planes(layers: Sequence[VapourLayer], climate: Climate) -> tuple[CondensingPlane, ...]:
    """Find the planes between layers in which water stays.

    Args:
        layers: The layers, inside to outside. Sequence of records. [m2K/W, m]
        climate: The air on both sides. Record. [C]

    Returns:
        The planes with their rates, none when the build-up stays dry. Tuple of records. [kg/m2s]

    Raises:
        Refusal: There are no layers.

    Source:
        H. Glaser's method as in BS EN ISO 13788:2012, one month at constant temperatures.
    """
    points = vapour_points(layers, climate)
    string = _taut(points)
    planes = []
    for before, at, after in zip(string, string[1:], string[2:], strict=False):
        left = (before[1] - at[1]) / (at[0] - before[0]) - (at[1] - after[1]) / (after[0] - at[0])
        planes.append(CondensingPlane(points.index(at) - 1, climate.vapour_permeability_of_air * left))
    return tuple(planes)


def vapour_points(layers: Sequence[VapourLayer], climate: Climate) -> list[tuple[float, float]]:
    """List how far vapour has come at each side of the layers, and how much the air there has or can hold.

    The resistance of surfaces to vapour is left out.

    Args:
        layers: The layers, inside to outside. Sequence of records. [m2K/W, m]
        climate: The air on both sides. Record. [C]

    Returns:
        Metres of still air and pressure: of the air inside, of saturated air between the layers, of the air
        outside. List of pairs. [m, Pa]

    Raises:
        Refusal: There are no layers.

    Source:
        BS EN ISO 13788:2012, steady state.
    """
    surfaces = temperatures_c(layers, climate)
    inside = climate.inside_humidity * saturation_pressure_pa(climate.inside_c)
    outside = climate.outside_humidity * saturation_pressure_pa(climate.outside_c)
    ways = accumulate((each.still_air_m for each in layers), initial=0.0)
    between = (saturation_pressure_pa(each) for each in surfaces[1:-1])
    return list(zip(ways, (inside, *between, outside), strict=True))


def condensate_g_m2(
    layers: Sequence[VapourLayer], climate: Climate, *, seconds: float = SECONDS_A_DAY
) -> float:
    """Add up the water that stays in all planes over a time.

    Args:
        layers: The layers, inside to outside. Sequence of records. [m2K/W, m]
        climate: The air on both sides. Record. [C]
        seconds: How long, a day unless said. Scalar. [s]

    Returns:
        The water. Scalar. [g/m2]

    Raises:
        Refusal: There are no layers, or the time is less than nothing.

    Source:
        As condensing_planes.
    """
    needs = Requirements()
    needs.require(seconds >= 0, "seconds", "must not be less than 0 s")
    needs.settle()
    return sum(plane.rate_kg_m2_s for plane in condensing_planes(layers, climate)) * seconds * 1000


def _taut(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The string pulled tight under the points, from the first to the last: their lower convex envelope."""
    string: list[tuple[float, float]] = []
    for point in points:
        while len(string) > 1 and _is_above(string[-1], string[-2], point):
            string.pop()
        string.append(point)
    return string


def _is_above(point: tuple[float, float], left: tuple[float, float], right: tuple[float, float]) -> bool:
    """Whether a point lies on or above the line between its neighbours."""
    rise = (right[1] - left[1]) * (point[0] - left[0])
    return (point[1] - left[1]) * (right[0] - left[0]) >= rise
