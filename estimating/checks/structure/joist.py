"""One joist by Eurocode 5: bending, shear, bearing and deflection, and the storage it can carry besides.

Three combinations of loads are looked at: what stays for good; that with storage; and that with storage and a
person. Timber bears a short load better than a long one, so that each combination has its own strength.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
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
from estimating.checks.structure.worst_places import Effect, Effects, WorstPlaces, worst_places
from estimating.published.eurocode_5 import (
    BEARING_SPREAD_MM,
    FINAL_DEFLECTION_DIVISOR_PLASTERED,
    GAMMA_G,
    GAMMA_G_RELIEVING,
    GAMMA_Q,
    KC90_DISCRETE,
    KCR,
    KSYS,
    PSI_2_STORAGE,
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


@dataclass(frozen=True, slots=True)
class Use:
    """How much of a strength or limit is used at the place that uses most: `done` of `allowed`."""

    done: float
    allowed: float
    combination: str
    span_mm: float

    @property
    def share(self) -> float:
        return self.done / self.allowed


@dataclass(frozen=True, slots=True)
class JoistUse:
    """A joist under its loads: moment, shear force and bearing force, and deflections with their limit."""

    bending: Use
    shear: Use
    bearing: Use
    instantaneous: Use
    final: Use

    @property
    def governing(self) -> str:
        """The check of which most is used; of equals the first."""
        return max(self.shares, key=lambda name: self.shares[name])

    @property
    def shares(self) -> dict[str, float]:
        return {
            "bending": self.bending.share,
            "shear": self.shear.share,
            "bearing": self.bearing.share,
            "deflection": self.final.share,
        }

    @property
    def passes(self) -> bool:
        return all(share <= 1 for share in self.shares.values())


@dataclass(frozen=True, slots=True)
class _Demand:
    """One place in one combination: what unit loads do there, their factors and what is allowed there."""

    effect: Effect
    permanent: float
    storage: float
    person: float
    allowed: float
    combination: str

    def use(self, permanent: float, storage: float, person: float) -> Use:
        done = self.effect.of(self.permanent * permanent, self.storage * storage, self.person * person)
        return Use(done, self.allowed, self.combination, self.effect.span_mm)

    def storage_left(self, permanent: float, person: float) -> float:
        """The storage at which all that is allowed is used; none where too much is used without any."""
        room = self.allowed - self.use(permanent, 0.0, person).done
        by_storage = self.effect.storage * self.storage
        if room < 0:
            return 0.0
        return room / by_storage if by_storage > 0 else float("inf")


def joist_use(joist: Joist, loads: JoistLoads) -> JoistUse:
    """Check one joist under its own weight and what lies on it.

    Args:
        joist: Section, class, spans, bearing and factors. Record. [mm]
        loads: Permanent load, storage and person. Record. [N/mm, N]

    Returns:
        How much of each strength and limit is used, at the worst place. Record. [N mm, N, mm]

    Raises:
        Refusal: The class is not tabled, or a measure cannot be so.

    Source:
        EN 1995-1-1 6.1.5 to 6.1.7, 6.3.3 and 7.2 with UK National Annex; EN 1990 equation 6.10.
    """
    permanent = loads.permanent_n_mm + joist.self_weight_n_mm
    worst = {
        name: max(
            (each.use(permanent, loads.storage_n_mm, loads.person_n) for each in demands),
            key=lambda use: use.share,
        )
        for name, demands in _demands(joist).items()
    }
    return JoistUse(**worst)


def storage_left_n_mm(joist: Joist, permanent_n_mm: float, person_n: float = PERSON_N) -> float | None:
    """Give the greatest storage that a joist carries beside its other loads and a person.

    Everything is in proportion to the loads, so that no trying is needed.

    Args:
        joist: Section, class, spans, bearing and factors. Record. [mm]
        permanent_n_mm: What lies on it for good, without its own weight. Scalar. [N/mm]
        person_n: The person. Scalar. [N]

    Returns:
        The storage; None where the joist does not carry the rest without any. Scalar. [N/mm]

    Raises:
        Refusal: The class is not tabled, or a measure cannot be so.

    Source:
        EN 1995-1-1 as joist_use, solved for the storage.
    """
    if not joist_use(joist, JoistLoads(permanent_n_mm=permanent_n_mm, person_n=person_n)).passes:
        return None
    permanent = permanent_n_mm + joist.self_weight_n_mm
    binding = ("bending", "shear", "bearing", "final")
    demands = _demands(joist)
    return min(each.storage_left(permanent, person_n) for name in binding for each in demands[name])


def _demands(joist: Joist) -> dict[str, tuple[_Demand, ...]]:
    worst = joist.worst
    bearings = worst.end_reactions if joist.hangs_between else worst.end_reactions + worst.inner_reactions
    kdef = deformation_factor(Material.TIMBER, joist.service_class)
    return {
        "bending": tuple(_at_each(joist, worst.moments, greatest_moment_n_mm)),
        "shear": tuple(_at_each(joist, worst.shears, greatest_shear_n)),
        "bearing": tuple(_at_each(joist, bearings, greatest_bearing_n)),
        "instantaneous": tuple(_bent(worst.deflections, 0.0)),
        "final": tuple(_bent(worst.deflections, kdef)),
    }


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


def _at_each(
    joist: Joist, effects: Effects, greatest: Callable[[Joist, Duration], float]
) -> Iterator[_Demand]:
    for each in COMBINATIONS:
        allowed = greatest(joist, each.duration)
        for effect in effects:
            permanent = GAMMA_G if effect.permanent > 0 else GAMMA_G_RELIEVING
            yield _Demand(effect, permanent, each.storage, each.person, allowed, each.name)


def _bent(effects: Iterable[Effect], kdef: float) -> Iterator[_Demand]:
    """What lies there for long bends timber more and more; what a person bends comes back."""
    for effect in effects:
        limit = effect.span_mm / FINAL_DEFLECTION_DIVISOR_PLASTERED
        yield _Demand(effect, 1 + kdef, 1 + PSI_2_STORAGE * kdef, 1.0, limit, COMBINATIONS[-1].name)
