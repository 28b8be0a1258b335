"""Whether a narrow deep joist would roll over sideways before it breaks."""

from __future__ import annotations

from enum import StrEnum
from math import sqrt

from estimating.checks.structure.section import Section
from estimating.refusals import Refusal, Requirements


class LoadShape(StrEnum):
    """How the load lies on the span."""

    EVEN = "udl"
    POINT = "point at midspan"


class LoadedEdge(StrEnum):
    """Where the load stands: on the edge that is pressed, in the middle, or on the edge that is stretched."""

    COMPRESSION = "compression"
    CENTRE = "centre"
    TENSION = "tension"


_SHARE_OF_SPAN = {LoadShape.EVEN: 0.9, LoadShape.POINT: 0.8}
_NO_ROLLING = 0.75
_LONG = 1.4


def effective_length_mm(
    span_mm: float, depth_mm: float, shape: LoadShape, loaded_edge: LoadedEdge = LoadedEdge.COMPRESSION
) -> float:
    """Give the length over which a joist is free to roll.

    A load on the stretched edge could be counted as helping; that is left out.

    Args:
        span_mm: Distance between places where the joist is held sideways. Scalar. [mm]
        depth_mm: Depth of the joist. Scalar. [mm]
        shape: How the load lies. Choice. [-]
        loaded_edge: Where it stands. Choice. [-]

    Returns:
        l_ef. Scalar. [mm]

    Raises:
        Refusal: Span or depth is not more than 0.

    Source:
        EN 1995-1-1 6.3.3, Table 6.1.
    """
    needs = Requirements()
    needs.require(span_mm > 0, "span_mm", "must be more than 0 mm")
    needs.require(depth_mm > 0, "depth_mm", "must be more than 0 mm")
    needs.settle()
    more = 2 * depth_mm if loaded_edge is LoadedEdge.COMPRESSION else 0.0
    return _SHARE_OF_SPAN[shape] * span_mm + more


def critical_stress_n_mm2(section: Section, modulus_fifth_n_mm2: float, effective_length: float) -> float:
    """Give the bending stress at which a joist would roll over.

    Args:
        section: Width and depth. Record. [mm]
        modulus_fifth_n_mm2: The modulus that one piece in twenty falls short of. Scalar. [N/mm2]
        effective_length: Length free to roll. Scalar. [mm]

    Returns:
        sigma_m,crit. Scalar. [N/mm2]

    Raises:
        Refusal: Length or modulus is not more than 0.

    Source:
        EN 1995-1-1 6.3.3(2), equation 6.32.
    """
    needs = Requirements()
    needs.require(effective_length > 0, "effective_length", "must be more than 0 mm")
    needs.require(modulus_fifth_n_mm2 > 0, "modulus_fifth_n_mm2", "must be more than 0 N/mm²")
    needs.settle()
    return 0.78 * section.width_mm**2 * modulus_fifth_n_mm2 / (section.depth_mm * effective_length)


def rolling_factor(bending_n_mm2: float, critical_n_mm2: float) -> float:
    """Give kcrit, by which bending strength falls where a joist may roll.

    Args:
        bending_n_mm2: Characteristic bending strength. Scalar. [N/mm2]
        critical_n_mm2: Stress at which it would roll. Scalar. [N/mm2]

    Returns:
        The factor, 1 for a stocky joist. Scalar. [-]

    Raises:
        Refusal: A stress is not more than 0.

    Source:
        EN 1995-1-1 6.3.3(4), equation 6.34.
    """
    if bending_n_mm2 <= 0:
        raise Refusal("bending_n_mm2", "must be more than 0 N/mm²")
    if critical_n_mm2 <= 0:
        raise Refusal("critical_n_mm2", "must be more than 0 N/mm²")
    slenderness = sqrt(bending_n_mm2 / critical_n_mm2)
    if slenderness <= _NO_ROLLING:
        return 1.0
    if slenderness <= _LONG:
        return 1.56 - 0.75 * slenderness
    return 1 / slenderness**2
