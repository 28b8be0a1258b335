"""The combined method of BS EN ISO 6946 in plain SI numbers.

This is the inner level: floats in m, W/mK and m²K/W, no pint. The estimate asks it hundreds of times while
insulation is chosen; everyone else calls `estimating.checks.heat.u_value`, which takes and returns pint
quantities.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

from estimating.refusals import Refusal

GREATEST_RATIO_OF_LIMITS = 1.5
"""Where upper over lower limit is more, the mean may be wrong by more than a fifth (BS EN ISO 6946)."""


@dataclass(frozen=True, slots=True)
class Slab:
    """One layer as resistances: through what fills it and, where timbers cross it, through the timber.

    Slabs that name the same `timber` are crossed by the very same timbers; slabs that name different ones by
    timbers at right angles, so that every pairing of paths occurs.
    """

    resistance_m2k_w: float
    timber: str = ""
    timber_resistance_m2k_w: float = 0.0
    timber_fraction: float = 0.0


def slab(thickness_mm: float, conductivity_w_mk: float) -> Slab:
    """Make the slab of an unbridged layer.

    Args:
        thickness_mm: Thickness of the layer. Scalar. [mm]
        conductivity_w_mk: Design thermal conductivity. Scalar. [W/mK]

    Returns:
        The slab. Record. [m2K/W]

    Source:
        BS EN ISO 6946: R = thickness / conductivity.
    """
    return Slab(thickness_mm / 1000 / conductivity_w_mk)


def resistance_limits_m2k_w(slabs: Sequence[Slab], surfaces_m2k_w: float) -> tuple[float, float]:
    """Give the upper and the lower limit of the total resistance of a ceiling.

    The upper limit supposes that heat flows straight through each path, the lower that every layer evens
    out its own temperature.

    Args:
        slabs: The layers, in any order. Sequence. [m2K/W]
        surfaces_m2k_w: Surfaces and roof space together. Scalar. [m2K/W]

    Returns:
        Upper limit, lower limit. Pair. [m2K/W]

    Raises:
        Refusal: There is no resistance at all, more than two timbers cross, or one has two fractions.

    Source:
        BS EN ISO 6946 combined method.
    """
    timbers = _fraction_by_timber(slabs)
    upper = 1 / sum(share / path for share, path in _paths(slabs, timbers, surfaces_m2k_w) if share)
    return upper, surfaces_m2k_w + sum(_bridged_m2k_w(each) for each in slabs)


def _fraction_by_timber(slabs: Iterable[Slab]) -> dict[str, float]:
    fractions: dict[str, float] = {}
    for each in slabs:
        if each.timber and fractions.setdefault(each.timber, each.timber_fraction) != each.timber_fraction:
            raise Refusal("timber_fraction", f"must be the same in every layer that the {each.timber} cross")
    if len(fractions) > 2:
        raise Refusal("layers", "must be crossed by two sets of timbers at most: joists, and battens across")
    return fractions


def _paths(
    slabs: Sequence[Slab], timbers: dict[str, float], surfaces_m2k_w: float
) -> Iterable[tuple[float, float]]:
    """Every way through the ceiling: its share of the area, and the resistance along it."""
    for crossed in product((False, True), repeat=len(timbers)):
        through = dict(zip(timbers, crossed, strict=True))
        share = prod(timbers[name] if hit else 1 - timbers[name] for name, hit in through.items())
        path = surfaces_m2k_w + sum(
            each.timber_resistance_m2k_w if through.get(each.timber) else each.resistance_m2k_w
            for each in slabs
        )
        if path <= 0:
            raise Refusal("layers", "must have some resistance together")
        yield share, path


def _bridged_m2k_w(each: Slab) -> float:
    if not each.timber or not each.resistance_m2k_w:
        return each.resistance_m2k_w
    fraction = each.timber_fraction
    return 1 / ((1 - fraction) / each.resistance_m2k_w + fraction / each.timber_resistance_m2k_w)
