"""The ceiling as layers, inside to outside, in pint quantities."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from pint import Quantity

from estimating.checks.heat.plain import amount_of, at_least_nothing, fraction, more_than_nothing
from estimating.checks.heat.resistance import Slab
from estimating.published.surface_resistances import (
    INSIDE_SURFACE_UPWARD,
    ROOF_SPACE_COUNTED,
    RoofSpaceConvention,
)
from estimating.refusals import Refusal

RESISTANCE = "m**2*K/W"
CONDUCTIVITY = "W/m/K"
TRANSMITTANCE = "W/m**2/K"


@dataclass(frozen=True, slots=True)
class Layer:
    """A layer that nothing bridges."""

    name: str
    thickness: Quantity[Any]
    conductivity: Quantity[Any]
    slab: Slab = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        thickness_m = at_least_nothing(self.thickness, "m", "thickness")
        conductivity_w_mk = more_than_nothing(self.conductivity, CONDUCTIVITY, "conductivity")
        object.__setattr__(self, "slab", Slab(thickness_m / conductivity_w_mk))


@dataclass(frozen=True, slots=True)
class BridgedLayer:
    """A layer that timbers cross. Layers between the very same timbers name the same `timber`."""

    name: str
    thickness: Quantity[Any]
    conductivity: Quantity[Any]
    timber_conductivity: Quantity[Any]
    timber_fraction: float
    timber: str = "joists"
    slab: Slab = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if not self.timber:
            raise Refusal("timber", "must name the timbers that cross the layer")
        thickness_m = at_least_nothing(self.thickness, "m", "thickness")
        conductivity_w_mk = more_than_nothing(self.conductivity, CONDUCTIVITY, "conductivity")
        timber_w_mk = more_than_nothing(self.timber_conductivity, CONDUCTIVITY, "timber_conductivity")
        share = fraction(self.timber_fraction, "timber_fraction")
        slab = Slab(thickness_m / conductivity_w_mk, self.timber, thickness_m / timber_w_mk, share)
        object.__setattr__(self, "slab", slab)


@dataclass(frozen=True, slots=True)
class Resistance:
    """A layer known by its resistance alone, such as an air space or squashed wool."""

    name: str
    R: Quantity[Any]
    slab: Slab = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "slab", Slab(at_least_nothing(self.R, RESISTANCE, "R")))


def _inside_surface() -> Quantity[Any]:
    return amount_of(INSIDE_SURFACE_UPWARD, RESISTANCE)


@dataclass(frozen=True, slots=True)
class Ceiling:
    """A ceiling and what lies on it, inside to outside, between the room and the outside air."""

    layers: tuple[Layer | BridgedLayer | Resistance, ...]
    roof_space: RoofSpaceConvention = ROOF_SPACE_COUNTED
    inside_surface: Quantity[Any] = field(default_factory=_inside_surface)
    surfaces_m2k_w: float = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        inside_m2k_w = at_least_nothing(self.inside_surface, RESISTANCE, "inside_surface")
        above_m2k_w = self.roof_space.roof_space_m2k_w + self.roof_space.outside_surface_m2k_w
        object.__setattr__(self, "surfaces_m2k_w", inside_m2k_w + above_m2k_w)
