"""A level deck on joists whose tops differ: for each joist the pedestal that comes nearest, and packing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from estimating.price_book import Pedestal

MOST_PACKING_MM = 10
"""Common practice, no source: flat packers come up to this, and a thicker stack would not be a base."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JoistSupport:
    """What stands on one joist: a product of the price book, and how much packing under it."""

    joist: int
    product_code: str
    height_mm: int
    packing_mm: int


@dataclass(frozen=True, slots=True)
class Levelled:
    """How high the deck's underside lies above the top of joist 1, and what brings each joist up to it."""

    level_mm: int
    joists: tuple[JoistSupport, ...]

    @property
    def most_packing_mm(self) -> int:
        return max((each.packing_mm for each in self.joists), default=0)


def level_with_pedestals(
    tops_mm: Mapping[int, int], pedestals: Sequence[Pedestal], least_level_mm: int
) -> Levelled:
    """Choose pedestals of one kind and several heights so that the deck lies level.

    The lowest level is taken at which no joist needs more packing than flat packers give. Where no level is
    such, that at which the fewest joists need more is taken, and the check on levelling says so. Where none
    is high enough, the highest pedestal stands on the highest joist, and the check on the gap says so.

    Args:
        tops_mm: How much higher each joist's top is than that of joist 1, by number. Mapping. [mm]
        pedestals: The pedestals of the price book. Sequence. [mm]
        least_level_mm: The least level that clears the insulation everywhere. Scalar. [mm]

    Returns:
        The level and what stands on each joist. Record. [mm]

    Source:
        Common practice, no source; arithmetic.
    """
    ways = [way for kind in _kinds(pedestals) for way in _ways(tops_mm, kind, least_level_mm)]
    high_enough = [way for way in ways if way.level_mm >= least_level_mm]
    costs = {each.code: each.pack_cost / each.pack_size for each in pedestals}

    def rank(way: Levelled) -> tuple[object, ...]:
        too_low = sum(each.packing_mm > MOST_PACKING_MM for each in way.joists)
        cost = sum(costs[each.product_code] for each in way.joists)
        return too_low, max(way.most_packing_mm, MOST_PACKING_MM), way.level_mm, cost

    if high_enough:
        return min(high_enough, key=rank)
    return max(ways, key=lambda way: way.level_mm)


def level_with_battens(tops_mm: Mapping[int, int], code: str, height_mm: int) -> Levelled:
    """Pack battens of one height up to the highest joist.

    Args:
        tops_mm: How much higher each joist's top is than that of joist 1, by number. Mapping. [mm]
        code: The batten. Text. [-]
        height_mm: The depth of the battens on top of each other. Scalar. [mm]

    Returns:
        The level and the packing on each joist. Record. [mm]

    Source:
        Common practice, no source; arithmetic.
    """
    highest = max(tops_mm.values())
    joists = tuple(
        JoistSupport(joist=joist, product_code=code, height_mm=height_mm, packing_mm=highest - top)
        for joist, top in tops_mm.items()
    )
    return Levelled(highest + height_mm, joists)


def _kinds(pedestals: Sequence[Pedestal]) -> Iterable[list[Pedestal]]:
    """Pedestals that stand alike, the cheapest of each height: only these may be mixed in one deck."""
    kinds: list[list[Pedestal]] = []
    for each in sorted(pedestals, key=lambda each: (each.height_mm, each.pack_cost / each.pack_size)):
        kind = next((kind for kind in kinds if kind[0].stands_like(each)), None)
        if kind is None:
            kinds.append([each])
        elif kind[-1].height_mm < each.height_mm:
            kind.append(each)
    return kinds


def _ways(tops_mm: Mapping[int, int], kind: Sequence[Pedestal], least_level_mm: int) -> Iterable[Levelled]:
    """Every level at which some joist needs no packing and none is too high, of those that may be taken."""
    highest = max(tops_mm.values())
    top_level = highest + kind[-1].height_mm
    levels = {each.height_mm + top for each in kind for top in tops_mm.values()}
    wanted = {level for level in levels if level >= min(least_level_mm, top_level)}
    for level in sorted(wanted):
        if level - highest >= kind[0].height_mm:
            yield Levelled(level, tuple(_on(joist, level - top, kind) for joist, top in tops_mm.items()))


def _on(joist: int, height_mm: int, kind: Sequence[Pedestal]) -> JoistSupport:
    """The highest pedestal that does not stand above the level."""
    pedestal = next(each for each in reversed(kind) if each.height_mm <= height_mm)
    return JoistSupport(
        joist=joist,
        product_code=pedestal.code,
        height_mm=pedestal.height_mm,
        packing_mm=height_mm - pedestal.height_mm,
    )
