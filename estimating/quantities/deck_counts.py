"""What both the buying and the work of a deck are counted from."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from estimating.design.design import ZoneDesign
from estimating.working import ARITHMETIC, Figure, Given, Origin, Working


def count_by_zone(name: str, counts: Sequence[tuple[str, int]]) -> Figure[int]:
    """Add up what was counted zone by zone, so that the working names each.

    Args:
        name: What is counted. Text. [-]
        counts: The zones' names with their counts. Sequence. [count]

    Returns:
        The sum. Scalar. [count]

    Source:
        Arithmetic.
    """
    inputs = tuple(Given(f"zone {zone}", count, "", Origin.WORKED_OUT) for zone, count in counts)
    working = Working("counted from the design, zone by zone, and added up", inputs, ARITHMETIC)
    return Figure(name, sum(count for _, count in counts), "", working)


def bearer_lengths_mm(zones: Iterable[ZoneDesign]) -> list[int]:
    """Measure every edge bearer from end to end.

    Args:
        zones: The zones designed. Sequence. [mm]

    Returns:
        The lengths, in the order of the zones. List. [mm]

    Source:
        Geometry.
    """
    return [
        max(abs(end[0] - start[0]), abs(end[1] - start[1]))
        for zone in zones
        for start, end in zone.edge_bearers
    ]
