"""Whether the board may span the distance between what carries it: its own data, then the published table."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from estimating.checks.verdicts import Verdict
from estimating.design.design import ZoneDesign
from estimating.price_book import Board
from estimating.published.panel_centres import SOURCE, greatest_centres_mm
from estimating.survey import Severity
from estimating.working import Figure, Working, measured

LEAST_LINES = 2


def widest_bay_mm(zone: ZoneDesign) -> Figure[int]:
    """Give the greatest distance between neighbouring supports of the boards in a zone.

    Args:
        zone: The zone designed. Record. [mm]

    Returns:
        The distance, 0 when there is one support only. Scalar. [mm]

    Source:
        Geometry.
    """
    lines = zone.problem.joist_lines
    widest = max((after - before for before, after in pairwise(lines)), default=0)
    carried_by = "batten" if zone.battens else "joist"
    inputs = (measured(f"{carried_by} lines under the zone", len(lines)),)
    working = Working(f"the greatest distance from one {carried_by} line to the next", inputs, "geometry")
    return Figure(f"widest bay of zone {zone.zone}", widest, "mm", working)


def board_verdicts(zones: Iterable[ZoneDesign], board: Board) -> Iterator[Verdict]:
    """Compare the widest bay of every zone with what the board allows.

    The price book's limit is the maker's and stops the job; the published table is for floors of full
    domestic load, so that being outside it is a caution. On one line of supports there is no bay to compare
    and the deck would tip, which stops the job.

    Args:
        zones: The zones designed. Sequence. [mm]
        board: The board. Record. [mm]

    Returns:
        One verdict for each zone. Iterator. [-]

    Source:
        NHBC Standards 6.4.19 Table 7; LABC Warranty, floor decks; two lines at least: common practice, no
        source.
    """
    published = greatest_centres_mm(board.thickness_mm)
    for zone in zones:
        bay = widest_bay_mm(zone)
        spans = f"Zone {zone.zone}: {board.description} spans {bay.value} mm"
        if len(zone.problem.joist_lines) < LEAST_LINES:
            severity = Severity.STOP
            carried_by = "batten" if zone.battens else "joist"
            words = f"Zone {zone.zone} stands on one {carried_by} only and would tip: widen or move the zone."
        elif bay.value > board.max_joist_centres_mm:
            severity = Severity.STOP
            words = (
                f"{spans}, outside the {board.max_joist_centres_mm} mm its data allow: choose another board"
            )
        elif published is None or bay.value > published:
            severity = Severity.CAUTION
            limit = f"of {published} mm" if published else "which starts at 18 mm boards"
            words = f"{spans}, outside the table {limit} for floors: ask a structural engineer"
        else:
            severity = Severity.NOTE
            words = f"{spans}, within the published table ({published} mm for floors)."
        yield Verdict(subject="boards", severity=severity, words=words, source=SOURCE, figure=bay)


def layout_verdicts(zones: Iterable[ZoneDesign]) -> Iterator[Verdict]:
    """Stop the job where boards cannot be laid by the rules, and say why.

    Args:
        zones: The zones designed. Sequence. [mm]

    Returns:
        A verdict for each zone without a layout. Iterator. [-]

    Source:
        Board laying rules: NHBC Standards 6.4.19 and LABC Warranty, floor decks.
    """
    for zone in zones:
        if zone.no_layout:
            yield Verdict(
                subject="boards",
                severity=Severity.STOP,
                words=f"Zone {zone.zone}: the boards cannot be laid by the rules. {zone.no_layout.why}",
                source="NHBC Standards 6.4.19; LABC Warranty, floor decks",
            )
