"""Factors and limits of timber design by Eurocode 5 with the United Kingdom's National Annex.

Documents: EN 1995-1-1:2004 with A1:2008 and its UK National Annex; EN 1990:2002 Annex A1 and its UK National
Annex for the factors on loads. The standards were not read: values come from public transcriptions that agree
with each other, or from memory where a line says so. Anything not read stays to be confirmed.
Addresses: desssign constants.py, xcfem/xc EC5_materials.py, eurocodepy 0.1.44, H-S-W/MAB-CALC skivor.toml
(kmod and kdef); eurocode.us/structural-timber-design/info-fis-1.html (partial factors);
yumpu.com/en/document/view/19377863 page 4 (Institution of Structural Engineers, Technical Guidance Note,
November 2012, Table 5: limits on deflection), read.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

from estimating.refusals import Refusal

SOURCE = "BS EN 1995-1-1 (Eurocode 5) with UK National Annex, as reproduced in public transcriptions"


class Duration(StrEnum):
    """How long a load stays: the shortest-lived load of a combination sets its class (2.3.1.2, 3.1.3)."""

    PERMANENT = "permanent"
    LONG = "long"
    MEDIUM = "medium"
    SHORT = "short"
    INSTANTANEOUS = "instantaneous"


class Material(StrEnum):
    """What kmod and kdef are asked for."""

    TIMBER = "solid timber"
    P4 = "particleboard P4"
    P5 = "particleboard P5"


_DURATIONS = tuple(Duration)
KMOD: Mapping[tuple[Material, int], tuple[float, ...]] = MappingProxyType(
    {
        (Material.TIMBER, 1): (0.60, 0.70, 0.80, 0.90, 1.10),
        (Material.TIMBER, 2): (0.60, 0.70, 0.80, 0.90, 1.10),
        (Material.TIMBER, 3): (0.50, 0.55, 0.65, 0.70, 0.90),
        (Material.P4, 1): (0.30, 0.45, 0.65, 0.85, 1.10),  # from memory; P4 is for service class 1 only
        (Material.P5, 1): (0.30, 0.45, 0.65, 0.85, 1.10),
        (Material.P5, 2): (0.20, 0.30, 0.45, 0.60, 0.80),
    }
)
"""EN 1995-1-1 Table 3.1, by material and service class, in the order of Duration."""

KDEF: Mapping[tuple[Material, int], float] = MappingProxyType(
    {
        (Material.TIMBER, 1): 0.60,
        (Material.TIMBER, 2): 0.80,
        (Material.TIMBER, 3): 2.00,
        (Material.P5, 1): 2.25,
        (Material.P5, 2): 3.00,
    }
)
"""EN 1995-1-1 Table 3.2."""

GAMMA_M: Mapping[Material, float] = MappingProxyType(dict.fromkeys(Material, 1.3))
"""EN 1995-1-1 Table 2.3, the same in UK NA Table NA.3."""

GAMMA_G = 1.35
"""UK NA to EN 1990 Table NA.A1.2(B), permanent load that makes it worse."""
GAMMA_G_RELIEVING = 1.0  # from memory
GAMMA_Q = 1.5
"""UK NA to EN 1990 Table NA.A1.2(B), variable load."""
PSI_2_STORAGE = 0.8
"""EN 1990 Table A1.1, category E; read in a second-hand table."""

KSYS = 1.1
"""EN 1995-1-1 6.6: at least four like members, and a deck that shares the load."""
LEAST_MEMBERS_FOR_KSYS = 4
KH_DEPTH_MM = 150.0
KH_POWER = 0.2
KH_GREATEST = 1.3
"""EN 1995-1-1 3.2(3), equation 3.1: solid timber less deep than 150 mm."""
KCR = 0.67
"""EN 1995-1-1/A1 6.1.7(2): cracks take this share of the width in shear."""
KC90_DISCRETE = 1.5
KC90_CONTINUOUS = 1.25
"""EN 1995-1-1/A1 6.1.5(4), softwood, from memory: on supports apart, and along a support."""
BEARING_SPREAD_MM = 30.0
"""EN 1995-1-1/A1 6.1.5(1), from memory: the bearing counts so much longer, at one side here."""
SHEAR_SHAPE_FACTOR = 1.2
"""Of a rectangle; statics."""

SERVICE_CLASS_OF_COLD_ROOF = 2
"""UK NA Table NA.2, second hand."""
DURATION_OF_STORAGE = Duration.LONG
"""UK NA Table NA.1; the words that lofts are meant are from memory."""
DURATION_OF_PERSON = Duration.SHORT  # UK NA Table NA.1, from memory

FINAL_DEFLECTION_DIVISOR_PLASTERED = 250
FINAL_DEFLECTION_DIVISOR_OTHER = 150
"""UK NA Tables NA.4 and NA.5, read at second hand: span over 250 above a plastered ceiling."""


def modification_factor(material: Material, service_class: int, duration: Duration) -> float:
    """Give kmod, by which strength falls with damp and with the time that a load stays.

    Args:
        material: Solid timber or a panel. Choice. [-]
        service_class: 1 heated, 2 cold roof, 3 outside. Scalar. [-]
        duration: How long the load stays. Choice. [-]

    Returns:
        The factor. Scalar. [-]

    Raises:
        Refusal: The table has no such service class for the material.

    Source:
        EN 1995-1-1 Table 3.1, as reproduced in public transcriptions.
    """
    row = KMOD.get((material, service_class))
    if row is None:
        raise Refusal("service_class", _known_classes(material, KMOD))
    return row[_DURATIONS.index(duration)]


def deformation_factor(material: Material, service_class: int) -> float:
    """Give kdef, by which a deflection grows over the years.

    Args:
        material: Solid timber or a panel. Choice. [-]
        service_class: 1 heated, 2 cold roof, 3 outside. Scalar. [-]

    Returns:
        The factor. Scalar. [-]

    Raises:
        Refusal: The table has no such service class for the material.

    Source:
        EN 1995-1-1 Table 3.2, as reproduced in public transcriptions.
    """
    factor = KDEF.get((material, service_class))
    if factor is None:
        raise Refusal("service_class", _known_classes(material, KDEF))
    return factor


def _known_classes(material: Material, table: Mapping[tuple[Material, int], object]) -> str:
    known = [str(service_class) for named, service_class in table if named is material]
    return f"must be one of {', '.join(known)} for {material}" if known else f"is not tabled for {material}"
