"""The ceiling that the heat tests vary: plasterboard, wool between joists, wool across them."""

from __future__ import annotations

from typing import Any

from pint import Quantity

from estimating.amounts import registry
from estimating.checks.heat import BridgedLayer, Ceiling, Layer
from estimating.published.conductivities import MINERAL_WOOL_ROLL, PLASTERBOARD, SOFTWOOD
from estimating.published.timber_fractions import CEILING_JOISTS_UNMEASURED

WOOL = MINERAL_WOOL_ROLL.conductivity_w_mk


def mm(thickness: float) -> Quantity[Any]:
    return registry().Quantity(thickness, "mm")


def w_mk(conductivity: float) -> Quantity[Any]:
    return registry().Quantity(conductivity, "W/m/K")


def w_m2k(u: float) -> Quantity[Any]:
    return registry().Quantity(u, "W/m**2/K")


def m2k_w(resistance: float) -> Quantity[Any]:
    return registry().Quantity(resistance, "m**2*K/W")


def plasterboard() -> Layer:
    return Layer("plasterboard", mm(12.5), w_mk(PLASTERBOARD.conductivity_w_mk))


def between(
    thickness_mm: float,
    *,
    fraction: float = CEILING_JOISTS_UNMEASURED,
    conductivity: float = WOOL,
    timber: str = "joists",
    timber_conductivity: float = SOFTWOOD.conductivity_w_mk,
) -> BridgedLayer:
    return BridgedLayer(
        f"wool between {timber}",
        mm(thickness_mm),
        w_mk(conductivity),
        w_mk(timber_conductivity),
        fraction,
        timber,
    )


def across(thickness_mm: float, conductivity: float = WOOL) -> Layer:
    return Layer("wool across joists", mm(thickness_mm), w_mk(conductivity))


def ceiling(*above_plasterboard: Layer | BridgedLayer) -> Ceiling:
    return Ceiling((plasterboard(), *above_plasterboard))
