"""Design strengths of timber by Eurocode 5: the characteristic value less what time, damp and chance take."""

from __future__ import annotations

from estimating.published.eurocode_5 import (
    GAMMA_M,
    KH_DEPTH_MM,
    KH_GREATEST,
    KH_POWER,
    SERVICE_CLASS_OF_COLD_ROOF,
    Duration,
    Material,
    modification_factor,
)
from estimating.published.timber_classes import STRENGTH_CLASSES, TimberClass
from estimating.refusals import Refusal


def timber_of_grade(grade: str) -> TimberClass:
    """Give the row of a strength class.

    Args:
        grade: The class, like C16. Text. [-]

    Returns:
        Its strengths, moduli and densities. Record. [N/mm2, kg/m3]

    Raises:
        Refusal: No such class is tabled.

    Source:
        EN 338:2016 Table 1; TR26 from memory.
    """
    if grade not in STRENGTH_CLASSES:
        raise Refusal("grade", f"must be one of: {', '.join(STRENGTH_CLASSES)}")
    return STRENGTH_CLASSES[grade]


def depth_factor(depth_mm: float) -> float:
    """Give kh, by which shallow timber is stronger in bending than the class says.

    Args:
        depth_mm: Depth of the joist. Scalar. [mm]

    Returns:
        The factor, 1 from 150 mm. Scalar. [-]

    Raises:
        Refusal: The depth is not more than 0.

    Source:
        EN 1995-1-1 3.2(3), equation 3.1.
    """
    if depth_mm <= 0:
        raise Refusal("depth_mm", "must be more than 0 mm")
    if depth_mm >= KH_DEPTH_MM:
        return 1.0
    return float(min((KH_DEPTH_MM / depth_mm) ** KH_POWER, KH_GREATEST))


def design_strength_n_mm2(
    characteristic_n_mm2: float, material: Material, duration: Duration, *, service_class: int
) -> float:
    """Give the design strength of any material before factors of shape and system.

    Args:
        characteristic_n_mm2: Characteristic strength. Scalar. [N/mm2]
        material: Solid timber or a panel. Choice. [-]
        duration: How long the shortest-lived load stays. Choice. [-]
        service_class: 1, 2 or 3. Scalar. [-]

    Returns:
        kmod × characteristic strength / gamma_M. Scalar. [N/mm2]

    Raises:
        Refusal: The material is not tabled in that service class.

    Source:
        EN 1995-1-1 2.4.1, equation 2.14.
    """
    kmod = modification_factor(material, service_class, duration)
    return kmod * characteristic_n_mm2 / GAMMA_M[material]


def bending_strength_n_mm2(
    grade: str,
    duration: Duration,
    *,
    depth_mm: float,
    ksys: float = 1.0,
    service_class: int = SERVICE_CLASS_OF_COLD_ROOF,
) -> float:
    """Give the design strength in bending.

    Args:
        grade: Strength class. Text. [-]
        duration: How long the shortest-lived load stays. Choice. [-]
        depth_mm: Depth of the joist. Scalar. [mm]
        ksys: 1.1 where a deck shares loads between joists, else 1. Scalar. [-]
        service_class: 1, 2 or 3. Scalar. [-]

    Returns:
        f_m,d. Scalar. [N/mm2]

    Raises:
        Refusal: Class, service class or depth cannot be so.

    Source:
        EN 1995-1-1 2.4.1, 3.2(3) and 6.6.
    """
    timber = timber_of_grade(grade)
    strength = design_strength_n_mm2(timber.bending, Material.TIMBER, duration, service_class=service_class)
    return strength * depth_factor(depth_mm) * ksys


def shear_strength_n_mm2(
    grade: str, duration: Duration, *, ksys: float = 1.0, service_class: int = SERVICE_CLASS_OF_COLD_ROOF
) -> float:
    """Give the design strength in shear.

    Args:
        grade: Strength class. Text. [-]
        duration: How long the shortest-lived load stays. Choice. [-]
        ksys: 1.1 where a deck shares loads between joists, else 1. Scalar. [-]
        service_class: 1, 2 or 3. Scalar. [-]

    Returns:
        f_v,d. Scalar. [N/mm2]

    Raises:
        Refusal: Class or service class cannot be so.

    Source:
        EN 1995-1-1 2.4.1 and 6.6.
    """
    shear = timber_of_grade(grade).shear
    return ksys * design_strength_n_mm2(shear, Material.TIMBER, duration, service_class=service_class)


def across_grain_strength_n_mm2(
    grade: str, duration: Duration, *, ksys: float = 1.0, service_class: int = SERVICE_CLASS_OF_COLD_ROOF
) -> float:
    """Give the design strength in compression across the grain, as where a joist bears.

    Args:
        grade: Strength class. Text. [-]
        duration: How long the shortest-lived load stays. Choice. [-]
        ksys: 1.1 where a deck shares loads between joists, else 1. Scalar. [-]
        service_class: 1, 2 or 3. Scalar. [-]

    Returns:
        f_c,90,d before kc,90. Scalar. [N/mm2]

    Raises:
        Refusal: Class or service class cannot be so.

    Source:
        EN 1995-1-1 2.4.1 and 6.1.5.
    """
    across = timber_of_grade(grade).compression_across
    return ksys * design_strength_n_mm2(across, Material.TIMBER, duration, service_class=service_class)
