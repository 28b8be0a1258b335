"""Statics of a beam on two supports, under an even load and one point load."""

from __future__ import annotations

from dataclasses import dataclass

from estimating.checks.structure.section import Section
from estimating.published.eurocode_5 import SHEAR_SHAPE_FACTOR
from estimating.refusals import Requirements


@dataclass(frozen=True, slots=True)
class Stiffness:
    """How a beam resists: bending by E × I, shear by G × area over the shape factor."""

    bending_n_mm2: float
    shear_n: float

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(self.bending_n_mm2 > 0, "bending_n_mm2", "must be more than 0 N mm²")
        needs.require(self.shear_n > 0, "shear_n", "must be more than 0 N")
        needs.settle()


def stiffness_of(section: Section, modulus_n_mm2: float, shear_modulus_n_mm2: float) -> Stiffness:
    """Give the stiffness of a rectangle of timber.

    Args:
        section: Width and depth. Record. [mm]
        modulus_n_mm2: Modulus of elasticity along the grain. Scalar. [N/mm2]
        shear_modulus_n_mm2: Shear modulus. Scalar. [N/mm2]

    Returns:
        Stiffness in bending and in shear. Record. [N mm2, N]

    Raises:
        Refusal: A modulus is not more than 0.

    Source:
        Statics; 1.2 is the shape factor of a rectangle.
    """
    return Stiffness(
        modulus_n_mm2 * section.second_moment_mm4,
        shear_modulus_n_mm2 * section.area_mm2 / SHEAR_SHAPE_FACTOR,
    )


def even_load_n_mm(load_kn_m2: float, spacing_mm: float) -> float:
    """Give the load on each millimetre of a joist from a load on each square metre.

    Args:
        load_kn_m2: The load on the ceiling. Scalar. [kN/m2]
        spacing_mm: The width that the joist carries, centre to centre. Scalar. [mm]

    Returns:
        The load along the joist. Scalar. [N/mm]

    Raises:
        Refusal: The spacing is not more than 0, or the load is less than 0.

    Source:
        Statics.
    """
    needs = Requirements()
    needs.require(spacing_mm > 0, "spacing_mm", "must be more than 0 mm")
    needs.require(load_kn_m2 >= 0, "load_kn_m2", "must not be less than 0 kN/m²")
    needs.settle()
    return load_kn_m2 * spacing_mm / 1000


def midspan_moment_n_mm(span_mm: float, even_n_mm: float, point_n: float = 0.0) -> float:
    """Give the greatest moment, with the point load in the middle.

    Args:
        span_mm: The span. Scalar. [mm]
        even_n_mm: The even load. Scalar. [N/mm]
        point_n: The point load at midspan. Scalar. [N]

    Returns:
        The moment. Scalar. [N mm]

    Raises:
        Refusal: The span is not more than 0, or a load is less than 0.

    Source:
        Statics.
    """
    _refuse_beam(span_mm, even_n_mm, point_n)
    return even_n_mm * span_mm**2 / 8 + point_n * span_mm / 4


def reaction_n(span_mm: float, even_n_mm: float, point_n: float = 0.0) -> float:
    """Give the greatest reaction, with the point load over the support; the shear there is the same.

    Args:
        span_mm: The span. Scalar. [mm]
        even_n_mm: The even load. Scalar. [N/mm]
        point_n: The point load over the support. Scalar. [N]

    Returns:
        The reaction. Scalar. [N]

    Raises:
        Refusal: The span is not more than 0, or a load is less than 0.

    Source:
        Statics.
    """
    _refuse_beam(span_mm, even_n_mm, point_n)
    return even_n_mm * span_mm / 2 + point_n


def moment_under_point_n_mm(span_mm: float, point_n: float, from_support_mm: float) -> float:
    """Give the moment under a point load anywhere on the span.

    Args:
        span_mm: The span. Scalar. [mm]
        point_n: The point load. Scalar. [N]
        from_support_mm: Its distance from one support. Scalar. [mm]

    Returns:
        The moment. Scalar. [N mm]

    Raises:
        Refusal: The span is not more than 0, the load is less than 0 or stands beyond the span.

    Source:
        Statics.
    """
    _refuse_beam(span_mm, 0.0, point_n)
    needs = Requirements()
    within = 0 <= from_support_mm <= span_mm
    needs.require(within, "from_support_mm", f"must be from 0 to the span, {span_mm:g} mm")
    needs.settle()
    return point_n * from_support_mm * (span_mm - from_support_mm) / span_mm


def midspan_deflection_mm(
    span_mm: float, even_n_mm: float, stiffness: Stiffness, point_n: float = 0.0
) -> float:
    """Give the deflection at midspan, of bending and of shear.

    Args:
        span_mm: The span. Scalar. [mm]
        even_n_mm: The even load. Scalar. [N/mm]
        stiffness: Of the beam. Record. [N mm2, N]
        point_n: The point load at midspan. Scalar. [N]

    Returns:
        The deflection. Scalar. [mm]

    Raises:
        Refusal: The span is not more than 0, or a load is less than 0.

    Source:
        Statics: 5 w L^4 / (384 E I) + P L^3 / (48 E I) + 1.2 M / (G A).
    """
    moment = midspan_moment_n_mm(span_mm, even_n_mm, point_n)
    bent = (5 * even_n_mm * span_mm / 384 + point_n / 48) * span_mm**3 / stiffness.bending_n_mm2
    return bent + moment / stiffness.shear_n


def _refuse_beam(span_mm: float, even_n_mm: float, point_n: float) -> None:
    needs = Requirements()
    needs.require(span_mm > 0, "span_mm", "must be more than 0 mm")
    needs.require(even_n_mm >= 0, "even_n_mm", "must not be less than 0 N/mm")
    needs.require(point_n >= 0, "point_n", "must not be less than 0 N")
    needs.settle()
