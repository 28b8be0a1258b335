"""A joist and its loads as Eurocode 5 looks at them, and the greatest forces that its timber takes.

Three combinations of loads are looked at: what stays for good; that with storage; and that with storage and a
person. Timber bears a short load better than a long one, so that each combination has its own strength.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from estimating.checks.structure.design_strength import (
    across_grain_strength_n_mm2,
    bending_strength_n_mm2,
    shear_strength_n_mm2,
    timber_of_grade,
)
from estimating.checks.structure.section import Section
from estimating.checks.structure.several_spans import Beam
from estimating.checks.structure.single_span import stiffness_of
from estimating.checks.structure.worst_places import WorstPlaces, worst_places
from estimating.published.eurocode_5 import (
    BEARING_SPREAD_MM,
    GAMMA_Q,
    KC90_DISCRETE,
    KCR,
    KSYS,
    SERVICE_CLASS_OF_COLD_ROOF,
    Duration,
    Material,
    deformation_factor,
)
from estimating.published.loads import GRAVITY_M_S2, PERSON_N
from estimating.refusals import Requirements


@dataclass(frozen=True, kw_only=True)
class Joist:
    """A joist as checked; spans are effective ones, centre to centre of what carries it.

    `hangs_between` says that all supports but the outer ones are binders, where nothing bears.
    """

    section: Section
    grade: str
    spans_mm: tuple[float, ...]
    bearing_mm: float
    ksys: float = KSYS
    kcrit: float = 1.0
    service_class: int = SERVICE_CLASS_OF_COLD_ROOF
    hangs_between: bool = False

    def __post_init__(self) -> None:
        timber_of_grade(self.grade)
        deformation_factor(Material.TIMBER, self.service_class)
        needs = Requirements()
        needs.require(bool(self.spans_mm), "spans_mm", "needs at least one span")
        needs.require(all(span > 0 for span in self.spans_mm), "spans_mm", "must be more than 0 mm each")
        needs.require(self.bearing_mm > 0, "bearing_mm", "must be more than 0 mm")
        needs.require(self.ksys >= 1, "ksys", "must be at least 1")
        needs.require(0 < self.kcrit <= 1, "kcrit", "must be more than 0 and at most 1")
        needs.settle()

    @cached_property
    def worst(self) -> WorstPlaces:
        timber = timber_of_grade(self.grade)
        stiffness = stiffness_of(self.section, timber.modulus_mean, timber.shear_modulus)
        return worst_places(Beam(self.spans_mm, stiffness))

    @property
    def self_weight_n_mm(self) -> float:
        return timber_of_grade(self.grade).density_mean * GRAVITY_M_S2 * self.section.area_mm2 * 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class JoistLoads:
    """What lies along a joist besides its own weight, and the person who may stand anywhere on it."""

    permanent_n_mm: float
    storage_n_mm: float = 0.0
    person_n: float = PERSON_N

    def __post_init__(self) -> None:
        needs = Requirements()
        for name in ("permanent_n_mm", "storage_n_mm", "person_n"):
            needs.require(getattr(self, name) >= 0, name, "must not be less than 0")
        needs.settle()


@dataclass(frozen=True, slots=True)
class Combination:
    """Loads that act together, each with its partial factor, and the duration that sets the strength."""

    name: str
    duration: Duration
    storage: float
    person: float


COMBINATIONS = (
    Combination("permanent", Duration.PERMANENT, 0.0, 0.0),
    Combination("permanent and storage", Duration.LONG, GAMMA_Q, 0.0),
    Combination("permanent, storage and a person", Duration.SHORT, GAMMA_Q, GAMMA_Q),
)


def greatest_moment_n_mm(joist: Joist, duration: Duration) -> float:
    """Give the greatest moment that a joist takes by its design strength.

    Args:
        joist: Section, class and factors. Record. [mm]
        duration: How long the shortest-lived load stays. Choice. [-]

    Returns:
        f_m,d × kcrit × section modulus. Scalar. [N mm]

    Source:
        EN 1995-1-1 6.1.6 and 6.3.3.
    """
    strength = bending_strength_n_mm2(
        joist.grade,
        duration,
        depth_mm=joist.section.depth_mm,
        ksys=joist.ksys,
        service_class=joist.service_class,
    )
    return strength * joist.kcrit * joist.section.section_modulus_mm3


def greatest_shear_n(joist: Joist, duration: Duration) -> float:
    """Give the greatest shear force that a joist takes by its design strength.

    Args:
        joist: Section, class and factors. Record. [mm]
        duration: How long the shortest-lived load stays. Choice. [-]

    Returns:
        f_v,d × kcr × area / 1.5. Scalar. [N]

    Source:
        EN 1995-1-1 6.1.7.
    """
    strength = shear_strength_n_mm2(joist.grade, duration, ksys=joist.ksys, service_class=joist.service_class)
    return strength * KCR * joist.section.area_mm2 / 1.5


def greatest_bearing_n(joist: Joist, duration: Duration) -> float:
    """Give the greatest force with which a joist may press on its support.

    Args:
        joist: Section, class, bearing and factors. Record. [mm]
        duration: How long the shortest-lived load stays. Choice. [-]

    Returns:
        kc,90 × f_c,90,d × width × (bearing + 30 mm). Scalar. [N]

    Source:
        EN 1995-1-1 6.1.5.
    """
    strength = across_grain_strength_n_mm2(
        joist.grade, duration, ksys=joist.ksys, service_class=joist.service_class
    )
    return KC90_DISCRETE * strength * joist.section.width_mm * (joist.bearing_mm + BEARING_SPREAD_MM)
