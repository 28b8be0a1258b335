"""How much of a joist's strength and stiffness its loads use, and the storage it can carry besides."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from estimating.checks.structure.joist import (
    COMBINATIONS,
    Joist,
    JoistLoads,
    greatest_bearing_n,
    greatest_moment_n_mm,
    greatest_shear_n,
)
from estimating.checks.structure.worst_places import Effect, Effects
from estimating.published.eurocode_5 import (
    FINAL_DEFLECTION_DIVISOR_PLASTERED,
    GAMMA_G,
    GAMMA_G_RELIEVING,
    PSI_2_STORAGE,
    Duration,
    Material,
    deformation_factor,
)
from estimating.published.loads import PERSON_N


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

    def done(self, permanent: float, storage: float, person: float) -> float:
        return self.effect.of(self.permanent * permanent, self.storage * storage, self.person * person)

    def use(self, permanent: float, storage: float, person: float) -> Use:
        done = self.done(permanent, storage, person)
        return Use(done, self.allowed, self.combination, self.effect.span_mm)

    def storage_left(self, permanent: float, person: float) -> float:
        """The storage at which all that is allowed is used; none where too much is used without any."""
        room = self.allowed - self.done(permanent, 0.0, person)
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
    acting = (permanent, loads.storage_n_mm, loads.person_n)
    worst = {
        name: max(demands, key=lambda each: each.done(*acting) / each.allowed).use(*acting)
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


@lru_cache(maxsize=16)
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
