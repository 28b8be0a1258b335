"""How many screws a deck takes, by rule.

A board on pedestals can be screwed only where a pedestal stands, so each piece takes one screw at each
pedestal it rests on. A board on battens has wood under its whole width and is screwed as a floor is. An edge
bearer is held by the boards it stiffens, so its screws go through them and must be as long as theirs.
"""

from __future__ import annotations

from math import ceil

from estimating.design.design import ZoneDesign
from estimating.plane import quarter_turned
from estimating.working import (
    COMMON_PRACTICE,
    Figure,
    Given,
    Origin,
    Working,
    default,
    published,
)

PEDESTAL_SCREWS = 4
EDGE_BEARER_SCREWS = 4
BATTEN_SCREWS_AT_A_JOIST = 2
EDGE_CENTRES_MM = 200
FIELD_CENTRES_MM = 400
EDGE_DISTANCE_MM = 25
_BOARD_SCREWS_SOURCE = "NBS K11/325 as used in a project specification (2014), read second hand"


def board_screws(zone: ZoneDesign) -> Figure[int]:
    """Count the screws that hold a zone's boards down.

    Args:
        zone: The zone designed. Record. [mm]

    Returns:
        The screws. Scalar. [count]

    Source:
        On pedestals one for each piece at each pedestal under it: common practice, no source. On battens
        200 mm along end supports, 400 mm along others, 25 mm from long edges: NBS K11/325 as used in a
        project specification of 2014.
    """
    name = f"board screws of zone {zone.zone}"
    pieces = zone.layout.pieces if zone.layout else ()
    inputs: tuple[Given, ...]
    counted = Given("pieces of board", len(pieces), "", Origin.WORKED_OUT)
    if zone.battens:
        inputs = (
            counted,
            Given("battens under the zone", len(zone.problem.joist_lines), "", Origin.WORKED_OUT),
            published("centres along the ends of a piece", EDGE_CENTRES_MM, "mm"),
            published("centres along other supports", FIELD_CENTRES_MM, "mm"),
            published("distance from the long edges", EDGE_DISTANCE_MM, "mm"),
        )
        formula = (
            "added up for each of the pieces at each of the battens under it: (width − 2 × distance from the "
            "long edges) / centres, rounded up, + 1"
        )
        return Figure(name, _on_battens(zone), "", Working(formula, inputs, _BOARD_SCREWS_SOURCE))
    inputs = (counted, Given("pedestals", len(zone.pedestals), "", Origin.WORKED_OUT))
    formula = "one for each of the pieces at each of the pedestals it rests on, added up"
    return Figure(name, _on_pedestals(zone), "", Working(formula, inputs, COMMON_PRACTICE))


def edge_bearer_screws(zone: ZoneDesign) -> Figure[int]:
    """Count the screws that hold a zone's edge bearers: board screws, for they go through the board.

    Args:
        zone: The zone designed. Record. [mm]

    Returns:
        The screws. Scalar. [count]

    Source:
        Common practice, no source: four for each edge bearer.
    """
    inputs = (
        Given("edge bearers", len(zone.edge_bearers), "", Origin.WORKED_OUT),
        default("screws for one edge bearer", EDGE_BEARER_SCREWS),
    )
    working = Working("edge bearers × screws for one", inputs, COMMON_PRACTICE)
    count = len(zone.edge_bearers) * EDGE_BEARER_SCREWS
    return Figure(f"edge bearer screws of zone {zone.zone}", count, "", working)


def support_screws(zone: ZoneDesign, crossings: int) -> Figure[int]:
    """Count the screws that hold a zone's pedestals or battens to the joists.

    Args:
        zone: The zone designed. Record. [mm]
        crossings: Where one layer of battens crosses joists. Scalar. [count]

    Returns:
        The screws. Scalar. [count]

    Source:
        Common practice, no source: four for each pedestal, two at each crossing.
    """
    inputs: tuple[Given, ...]
    if zone.battens:
        count = crossings * zone.stacked * BATTEN_SCREWS_AT_A_JOIST
        inputs = (
            Given("joists crossed", crossings, "", Origin.WORKED_OUT),
            Given("battens on top of each other", zone.stacked, "", Origin.WORKED_OUT),
            default("screws at a crossing", BATTEN_SCREWS_AT_A_JOIST),
        )
        formula = "joists crossed × battens on top of each other × screws at a crossing"
    else:
        count = len(zone.pedestals) * PEDESTAL_SCREWS
        inputs = (
            Given("pedestals", len(zone.pedestals), "", Origin.WORKED_OUT),
            default("screws for one pedestal", PEDESTAL_SCREWS),
        )
        formula = "pedestals × screws for one"
    return Figure(f"support screws of zone {zone.zone}", count, "", Working(formula, inputs, COMMON_PRACTICE))


def _on_pedestals(zone: ZoneDesign) -> int:
    if not zone.layout:
        return 0
    origin, width = zone.problem.row_origin_mm, zone.problem.product.cover_width_mm
    gap = zone.problem.rules.gap_tolerance_mm  # a piece cut this much short still rests on its pedestal
    by_row: dict[int, list[tuple[int, int, int, int]]] = {}
    for piece in zone.layout.pieces:
        by_row.setdefault(piece.row, []).append((piece.x0, piece.x1, piece.y0, piece.y1))
    count = 0
    for x, y in quarter_turned(tuple(pedestal.at for pedestal in zone.pedestals), zone.turns):
        row = (y - origin) // width
        near = (*by_row.get(row - 1, ()), *by_row.get(row, ()))
        count += sum(x0 - gap <= x <= x1 + gap and y0 <= y <= y1 for x0, x1, y0, y1 in near)
    return count


def _on_battens(zone: ZoneDesign) -> int:
    if not zone.layout:
        return 0
    count, gap = 0, zone.problem.rules.gap_tolerance_mm
    for piece in zone.layout.pieces:
        left, right = piece.x0 - gap, piece.x1 + gap
        under = [line for line in zone.problem.joist_lines if left <= line <= right]
        for place, _ in enumerate(under):
            at_end = place in (0, len(under) - 1)
            centres = EDGE_CENTRES_MM if at_end else FIELD_CENTRES_MM
            across = max(0, piece.width_mm - 2 * EDGE_DISTANCE_MM)
            count += ceil(across / centres) + 1
    return count
