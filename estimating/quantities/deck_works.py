"""The work of laying a deck, counted from its design in every unit that a rate may be given in."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from estimating.amounts import PENNY
from estimating.choices import Part
from estimating.design.boards.cutting_list import BoardCuts
from estimating.design.design import ZoneDesign
from estimating.price_book import Task
from estimating.quantities.deck_counts import bearer_lengths_mm, count_by_zone
from estimating.quantities.labour import Work
from estimating.working import ARITHMETIC, Figure, Given, Origin, Working, worked_out


def deck_works(zones: Sequence[ZoneDesign], boards: Sequence[BoardCuts]) -> tuple[Work, ...]:
    """List the tasks of the deck with their amounts.

    Args:
        zones: The zones designed. Sequence. [mm]
        boards: How the boards of all zones are cut. Sequence. [mm]

    Returns:
        The tasks. Tuple. [m2, m, count]

    Source:
        Counted from the design.
    """
    area = _deck_area_m2(zones)
    pieces = count_by_zone(
        "pieces", [(zone.zone, len(zone.layout.pieces) if zone.layout else 0) for zone in zones]
    )
    cuts = _saw_cuts(boards)
    bearers = count_by_zone("edge bearers", [(zone.zone, len(zone.edge_bearers)) for zone in zones])
    bearers_m = _metres("edge bearers end to end", bearer_lengths_mm(zones))
    works = [
        Work(Part.DECK, Task.LAY_BOARDS, (area, pieces)),
        Work(Part.DECK, Task.CUT_BOARDS, (cuts,)),
        Work(Part.DECK, Task.FIT_EDGE_BEARERS, (bearers, bearers_m)),
    ]
    if any(zone.battens for zone in zones):
        runs = count_by_zone("battens", [(zone.zone, len(zone.battens) * zone.stacked) for zone in zones])
        run = _metres(
            "battens end to end", [p for zone in zones for p in zone.batten_pieces_mm * zone.stacked]
        )
        return (*works, Work(Part.DECK, Task.FIX_BATTENS, (run, runs, area)))
    pedestals = count_by_zone("pedestals", [(zone.zone, len(zone.pedestals)) for zone in zones])
    return (*works, Work(Part.DECK, Task.FIX_PEDESTALS, (pedestals, area)))


def _saw_cuts(boards: Sequence[BoardCuts]) -> Figure[int]:
    """Zones share boards, so cuts are counted board by board and not zone by zone."""
    sawn = [len(board.cuts) for board in boards if board.cuts]
    inputs = (Given("boards that are cut", len(sawn), "", Origin.WORKED_OUT),)
    working = Working("cuts of each board, added up from the cutting list", inputs, ARITHMETIC)
    return Figure("saw cuts", sum(sawn), "", working)


def _deck_area_m2(zones: Sequence[ZoneDesign]) -> Figure[Decimal]:
    inputs = tuple(worked_out(zone.deck_area_m2) for zone in zones)
    area = sum((zone.deck_area_m2.value for zone in zones), Decimal("0.00"))
    return Figure("deck area", area, "m²", Working("sum of the zones", inputs, ARITHMETIC))


def _metres(name: str, pieces: Sequence[int]) -> Figure[Decimal]:
    inputs = (
        Given("pieces", len(pieces), "", Origin.WORKED_OUT),
        Given("end to end", sum(pieces), "mm", Origin.WORKED_OUT),
    )
    return Figure(
        name,
        (Decimal(sum(pieces)) / 1000).quantize(PENNY),
        "m",
        Working("pieces, end to end / 1000", inputs, ARITHMETIC),
    )
