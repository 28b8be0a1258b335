"""Whether a deck stands on all joists under it, or some carry the share of those left out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from estimating.checks.verdicts import Verdict
from estimating.design.design import ZoneDesign
from estimating.plane import bounds
from estimating.survey import Axis, Severity, Survey
from estimating.working import Figure, Working, measured

_SOURCE = "statics: half of each bay is carried by the joist at either side of it"


def joists_left_out_verdicts(survey: Survey, zones: Iterable[ZoneDesign]) -> Iterator[Verdict]:
    """Warn where a zone stands on some of its joists only, because those then carry more.

    Args:
        survey: The joists. Record. [mm]
        zones: The zones designed. Sequence. [mm]

    Returns:
        A caution for each such zone. Iterator. [-]

    Source:
        Statics: a joist carries half of the bay at either side of it.
    """
    for zone in zones:
        if zone.battens:
            continue
        every = _lines_under(survey, zone)
        carrying = zone.problem.joist_lines
        if len(carrying) >= len(every):
            continue
        inputs = (
            measured("joists under the zone", len(every)),
            measured("joists it stands on", len(carrying)),
            measured("widest bay between all joists", _widest(every), "mm"),
            measured("widest bay between those it stands on", _widest(carrying), "mm"),
        )
        working = Working("joists under the zone − joists it stands on", inputs, _SOURCE)
        left_out = len(every) - len(carrying)
        yield Verdict(
            subject="joists",
            severity=Severity.CAUTION,
            words=(
                f"Zone {zone.zone} stands on {len(carrying)} of the {len(every)} joists under it, which "
                "carry the share of the others too: ask a structural engineer, or the truss designer where "
                "the roof is of trussed rafters."
            ),
            source=_SOURCE,
            figure=Figure(f"joists left out under zone {zone.zone}", left_out, "", working),
        )


def _lines_under(survey: Survey, zone: ZoneDesign) -> tuple[int, ...]:
    joists = survey.joist_field(zone.joist_field)
    left, low, right, high = bounds(zone.finished_edge)
    first, last = (left, right) if joists.runs_along is Axis.Y else (low, high)
    return tuple(line for line in joists.centre_lines_mm if first <= line <= last)


def _widest(lines: tuple[int, ...]) -> int:
    return max((after - before for before, after in pairwise(lines)), default=0)
