"""Every pedestal of a zone on plan, with its joist and its reason."""

from __future__ import annotations

from estimating.design.boards.layout import Layout
from estimating.design.boards.problem import LayoutProblem
from estimating.design.boards.standing import stand_pedestals
from estimating.design.design import PlacedPedestal
from estimating.design.supports import Support
from estimating.design.zones import ZoneFrame
from estimating.plane import Polygon, quarter_turned


def place_pedestals(
    frame: ZoneFrame, problem: LayoutProblem, layout: Layout | None, support: Support, hatch: Polygon
) -> tuple[PlacedPedestal, ...]:
    """Place every pedestal of a zone, none where battens raise it.

    Args:
        frame: The zone in its own frame, with its joists. Record. [mm]
        problem: What is boarded there. Record. [mm]
        layout: Its boards as laid, None where they cannot be. Record. [mm]
        support: What raises the zone. Record. [mm]
        hatch: The hatch on plan. Polygon. [mm]

    Returns:
        The pedestals, joist by joist across the zone. Tuple of records. [mm]

    Source:
        As boards.standing.
    """
    if support.pedestal is None:
        return ()
    numbers = {joist.at_mm: joist.number for joist in frame.joists}
    standing = stand_pedestals(problem, layout, support.pedestal.base_mm, quarter_turned(hatch, frame.turns))
    placed = []
    for x, y, why in standing:
        on = support.on(numbers[x])
        at = frame.on_plan((x, y))
        placed.append(
            PlacedPedestal(at=at, joist=on.joist, height_mm=on.height_mm, why=why, code=on.product_code)
        )
    return tuple(placed)
