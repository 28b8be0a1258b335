"""Boards that no joist carries: both their ends are free and lie on edge bearers alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from estimating.checks.verdicts import Verdict
from estimating.design.boards.bearers import edge_bearers
from estimating.design.design import ZoneDesign
from estimating.survey import Severity
from estimating.working import COMMON_PRACTICE


def edge_bearer_verdicts(zones: Iterable[ZoneDesign]) -> Iterator[Verdict]:
    """Caution where edge bearers have no joist to lever on, because something must then carry them.

    Args:
        zones: The zones designed. Sequence. [mm]

    Returns:
        A verdict for each zone with such boards. Iterator. [-]

    Source:
        Common practice, no source.
    """
    for zone in zones:
        bearers = edge_bearers(zone.problem, zone.layout) if zone.layout else ()
        alone = sum(bearer.levers_on is None for bearer in bearers)
        if alone:
            line = "batten" if zone.battens else "joist"
            yield Verdict(
                subject="edge bearers",
                severity=Severity.CAUTION,
                words=(
                    f"Zone {zone.zone}: {alone} edge bearers are under boards that lie between two {line}s. "
                    f"Fix cross-pieces from {line} to {line} below them, or move the edge of the deck to a "
                    f"{line}."
                ),
                source=COMMON_PRACTICE,
            )
