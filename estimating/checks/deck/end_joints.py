"""What the crew and the customer are told where end joints are not on the joists' centre lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from estimating.checks.verdicts import Verdict
from estimating.design.boards.joint_places import lies_on_joist
from estimating.design.design import ZoneDesign
from estimating.design.laying_rules import LEAST_END_BEARING_MM, joint_tolerance_mm
from estimating.price_book import Board, Pedestal, PriceBook
from estimating.survey import Severity
from estimating.working import Figure, Working, default, worked_out


def end_joint_verdicts(zones: Iterable[ZoneDesign], board: Board, price_book: PriceBook) -> Iterator[Verdict]:
    """Tell of end joints that float between joists, and of those that use the width of a top plate.

    Args:
        zones: The zones designed. Sequence. [mm]
        board: The board; its data say whether joints may float. Record. [mm]
        price_book: The pedestals with their top plates. Record. [mm]

    Returns:
        A note for each zone with such joints. Iterator. [-]

    Source:
        The board's own data; NHBC Standards 6.4.19 where they are silent; glue in the joints: the same.
    """
    for zone in zones:
        if zone.layout is None:
            continue
        off = [joint for joint in zone.layout.joints if not lies_on_joist(zone.problem, joint.x)]
        if off:
            yield Verdict(
                subject="boards",
                severity=Severity.NOTE,
                words=(
                    f"Zone {zone.zone}: {len(off)} of {len(zone.layout.joints)} end joints float between "
                    f"joists, as the data of {board.description} allow. They are factory ends, tongue in "
                    "groove: glue every one."
                ),
                source=board.floating_source,
                figure=_floating(zone, len(off), board.floating_source),
            )
        support = price_book.product(zone.support_code)
        gap_mm = zone.problem.rules.gap_tolerance_mm
        tolerance = joint_tolerance_mm(support, gap_mm) if isinstance(support, Pedestal) else None
        lines = set(zone.problem.joist_lines)
        if tolerance and any(joint.x not in lines for joint in zone.layout.joints if joint not in off):
            yield Verdict(
                subject="boards",
                severity=Severity.NOTE,
                words=(
                    f"Zone {zone.zone}: end joints lie up to {tolerance.value} mm off a joist's centre line, "
                    f"where each end still bears {LEAST_END_BEARING_MM} mm on the pedestals' top plates."
                ),
                source=tolerance.working.source,
                figure=tolerance,
            )


def _floating(zone: ZoneDesign, count: int, source: str) -> Figure[int]:
    rules = zone.problem.rules
    joints = len(zone.layout.joints) if zone.layout else 0
    every = Figure("end joints", joints, "", Working("ends that meet in a row, counted", (), "geometry"))
    inputs = (worked_out(every), default("joint tolerance", rules.joint_tolerance_mm, "mm"))
    formula = "end joints further from every joist's centre line than the joint tolerance, counted"
    return Figure(f"floating end joints of zone {zone.zone}", count, "", Working(formula, inputs, source))
