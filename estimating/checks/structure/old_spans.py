"""The largest clear span of a joist by permissible stress, as the old span tables were made.

Builders know whether a joist is "inside the table". The table is worked out here for any section, spacing and
load, because few joists of an old house are of a size that it prints.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from estimating.checks.structure.section import Section
from estimating.published.loads import GRAVITY_M_S2
from estimating.published.permissible_stresses import (
    CEILING_STORAGE_KN_M2,
    DEFLECTION_SHARE,
    DEPTH_AS_TESTED_MM,
    DEPTH_POWER,
    FLOOR_DEFLECTION_MM,
    FLOOR_KN_M,
    FLOOR_KN_M2,
    LEAST_DEPTH_FACTOR,
    LEAST_DEPTH_MM,
    LOAD_SHARING,
    LONG_TERM,
    PERMISSIBLE_STRESSES,
    PERSON_N,
    SHEAR_MODULUS_SHARE,
    SHORT_TERM,
    PermissibleStresses,
)
from estimating.refusals import Requirements

LONGEST_MM, CLOSE_ENOUGH_MM = 20_000.0, 0.1


@dataclass(frozen=True, slots=True)
class TableJoist:
    """A joist as the tables list it; the dead load is that of its band, without the joist itself."""

    section: Section
    spacing_mm: float
    dead_load_kn_m2: float
    strength_class: str

    def __post_init__(self) -> None:
        needs = Requirements()
        needs.require(self.spacing_mm > 0, "spacing_mm", "must be more than 0 mm")
        needs.require(self.dead_load_kn_m2 >= 0, "dead_load_kn_m2", "must not be less than 0 kN/m²")
        known = self.strength_class in PERMISSIBLE_STRESSES
        needs.require(known, "strength_class", f"must be one of: {', '.join(PERMISSIBLE_STRESSES)}")
        needs.settle()

    @property
    def stresses(self) -> PermissibleStresses:
        return PERMISSIBLE_STRESSES[self.strength_class]

    def line_load_n_mm(self, imposed_kn_m2: float) -> float:
        """What lies along the joist, itself included."""
        own = self.stresses.density * GRAVITY_M_S2 * self.section.area_mm2 * 1e-9
        return (self.dead_load_kn_m2 + imposed_kn_m2) * self.spacing_mm / 1000 + own


def ceiling_joist_span_mm(joist: TableJoist) -> float:
    """Give the largest clear span of a ceiling joist that carries light storage, or a person as well.

    Args:
        joist: The joist, its spacing, load and class. Record. [mm, kN/m2]

    Returns:
        The span, 0 where none will do. Scalar. [mm]

    Source:
        Permissible stress after BS 5268-2, from memory, behind Approved Document A (1992) Tables A3 and A4:
        0.25 kN/m², and 0.9 kN at midspan for a short time; deflection 0.003 of the span.
    """
    return _largest(lambda clear_mm: _carries_ceiling(joist, clear_mm))


def floor_joist_span_mm(joist: TableJoist) -> float:
    """Give the largest clear span of a floor joist in a house.

    Args:
        joist: The joist, its spacing, load and class. Record. [mm, kN/m2]

    Returns:
        The span, 0 where none will do. Scalar. [mm]

    Source:
        Permissible stress after BS 5268-2, from memory, behind Approved Document A (1992) Tables A1 and A2:
        1.5 kN/m², or 3.6 kN over a short span; deflection 0.003 of the span and 14 mm.
    """
    return _largest(lambda clear_mm: _carries_floor(joist, clear_mm))


def _carries_ceiling(joist: TableJoist, clear_mm: float) -> bool:
    load = joist.line_load_n_mm(CEILING_STORAGE_KN_M2)
    across = LOAD_SHARING * joist.stresses.compression_across * joist.section.width_mm
    cases = ((0.0, LONG_TERM), (PERSON_N, SHORT_TERM))
    bearing = max((load * clear_mm / 2 + person) / (across * duration) for person, duration in cases)
    span = clear_mm + bearing
    return all(
        _is_strong_enough(joist, span, load, person, duration)
        and _deflection_mm(joist, span, load, person) <= DEFLECTION_SHARE * span
        for person, duration in cases
    )


def _carries_floor(joist: TableJoist, clear_mm: float) -> bool:
    across = LOAD_SHARING * joist.stresses.compression_across * joist.section.width_mm
    span, load = clear_mm, 0.0
    for _ in range(50):  # the load of a short span depends on the span, and the span on its bearing
        load = joist.line_load_n_mm(max(FLOOR_KN_M2, FLOOR_KN_M / (span / 1000)))
        if across <= load / 2:
            return False
        span = clear_mm + load * clear_mm / 2 / (across - load / 2)
    limit = min(DEFLECTION_SHARE * span, FLOOR_DEFLECTION_MM)
    return _is_strong_enough(joist, span, load, 0.0, LONG_TERM) and (
        _deflection_mm(joist, span, load, 0.0) <= limit
    )


def _is_strong_enough(
    joist: TableJoist, span_mm: float, load_n_mm: float, point_n: float, duration: float
) -> bool:
    section, stresses = joist.section, joist.stresses
    moment = load_n_mm * span_mm**2 / 8 + point_n * span_mm / 4
    shear = 1.5 * (load_n_mm * span_mm / 2 + point_n) / section.area_mm2
    bending = moment / section.section_modulus_mm3
    by_depth = _depth_factor(section.depth_mm)
    return (
        bending <= duration * by_depth * LOAD_SHARING * stresses.bending
        and shear <= duration * LOAD_SHARING * stresses.shear
    )


def _depth_factor(depth_mm: float) -> float:
    if depth_mm <= LEAST_DEPTH_MM:
        return LEAST_DEPTH_FACTOR
    return float((DEPTH_AS_TESTED_MM / depth_mm) ** DEPTH_POWER)


def _deflection_mm(joist: TableJoist, span_mm: float, load_n_mm: float, point_n: float) -> float:
    section, modulus = joist.section, joist.stresses.modulus_mean
    stiffness = modulus * section.second_moment_mm4
    moment = load_n_mm * span_mm**2 / 8 + point_n * span_mm / 4
    by_bending = 5 * load_n_mm * span_mm**4 / (384 * stiffness) + point_n * span_mm**3 / (48 * stiffness)
    by_shear = 1.2 * moment / (modulus * SHEAR_MODULUS_SHARE * section.area_mm2)
    return by_bending + by_shear


def _largest(carries: Callable[[float], bool]) -> float:
    """The largest span that is carried, by halving: what carries a span carries every shorter one."""
    low, high = 0.0, LONGEST_MM
    while high - low > CLOSE_ENOUGH_MM:
        middle = (low + high) / 2
        low, high = (middle, high) if carries(middle) else (low, middle)
    return low
