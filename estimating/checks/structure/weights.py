"""Weights to loads and back: layers on a ceiling, and what storage comes to in kilograms."""

from __future__ import annotations

from collections.abc import Iterable

from estimating.published.loads import GRAVITY_M_S2
from estimating.refusals import Requirements

_BANDS_KN_M2 = (0.25, 0.50)


def layer_kn_m2(thickness_mm: float, density_kg_m3: float) -> float:
    """Give the load of a layer on each square metre.

    Args:
        thickness_mm: Its thickness. Scalar. [mm]
        density_kg_m3: Its density. Scalar. [kg/m3]

    Returns:
        The load. Scalar. [kN/m2]

    Raises:
        Refusal: Thickness or density is less than 0.

    Source:
        Physics; 9.81 m/s².
    """
    needs = Requirements()
    needs.require(thickness_mm >= 0, "thickness_mm", "must not be less than 0 mm")
    needs.require(density_kg_m3 >= 0, "density_kg_m3", "must not be less than 0 kg/m³")
    needs.settle()
    return thickness_mm * density_kg_m3 * GRAVITY_M_S2 * 1e-6


def dead_load_kn_m2(ceiling_kn_m2: float, layers: Iterable[tuple[float, float]]) -> float:
    """Give what lies on the joists for good: the ceiling below, and each layer upon it.

    Args:
        ceiling_kn_m2: Plasterboard and skim. Scalar. [kN/m2]
        layers: Thickness and density of each layer. Sequence of pairs. [mm, kg/m3]

    Returns:
        The load. Scalar. [kN/m2]

    Raises:
        Refusal: A load, thickness or density is less than 0.

    Source:
        Physics; 9.81 m/s².
    """
    needs = Requirements()
    needs.require(ceiling_kn_m2 >= 0, "ceiling_kn_m2", "must not be less than 0 kN/m²")
    needs.settle()
    return ceiling_kn_m2 + sum(layer_kn_m2(thickness, density) for thickness, density in layers)


def table_band_kn_m2(dead_kn_m2: float) -> float:
    """Give the column of the old span tables to read for a dead load.

    Args:
        dead_kn_m2: The dead load without the joists' own weight. Scalar. [kN/m2]

    Returns:
        The band's upper end: the least that is not below the load, or the last. Scalar. [kN/m2]

    Raises:
        Refusal: The load is less than 0.

    Source:
        Approved Document A (1992) Tables A3 and A4, layout from memory.
    """
    needs = Requirements()
    needs.require(dead_kn_m2 >= 0, "dead_kn_m2", "must not be less than 0 kN/m²")
    needs.settle()
    return next((band for band in _BANDS_KN_M2 if dead_kn_m2 <= band), _BANDS_KN_M2[-1])


def kilograms_on(area_m2: float, load_kn_m2: float) -> float:
    """Give the mass that makes a load over an area.

    Args:
        area_m2: The area. Scalar. [m2]
        load_kn_m2: The load. Scalar. [kN/m2]

    Returns:
        The mass. Scalar. [kg]

    Raises:
        Refusal: Area or load is less than 0.

    Source:
        Physics; 9.81 m/s².
    """
    needs = Requirements()
    needs.require(area_m2 >= 0, "area_m2", "must not be less than 0 m²")
    needs.require(load_kn_m2 >= 0, "load_kn_m2", "must not be less than 0 kN/m²")
    needs.settle()
    return 1000 * load_kn_m2 * area_m2 / GRAVITY_M_S2
