"""Setting out: what two people with a tape mark on each joist, from one datum."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from estimating.design.design import SettingOut
from estimating.plane import Point
from estimating.survey import Axis, JoistField
from estimating.working import ARITHMETIC, Figure, Working, from_price_book

DATUM = {Axis.Y: "front eaves", Axis.X: "left gable"}


def setting_out(
    joist_field: JoistField, points: Iterable[tuple[int, Point]], packing_mm: Mapping[int, int] | None = None
) -> tuple[SettingOut, ...]:
    """List the positions along each joist, measured from the datum its joists start at.

    Joists that run from front to back are measured from the front eaves, others from the left gable.

    Args:
        joist_field: The joists. Record. [mm]
        points: Joist numbers with points on plan. Sequence. [mm]
        packing_mm: What goes under the supports of a joist, by its number. Mapping. [mm]

    Returns:
        One list of positions for each joist, in order of the joists. Tuple. [mm]

    Source:
        Common practice, no source.
    """
    along = 1 if joist_field.runs_along is Axis.Y else 0
    marks: dict[int, set[int]] = {}
    for joist, point in points:
        marks.setdefault(joist, set()).add(point[along])
    return tuple(
        SettingOut(
            joist=joist,
            joist_line_mm=joist_field.centre_lines_mm[joist - 1],
            positions_mm=tuple(sorted(marks[joist])),
            packing_mm=(packing_mm or {}).get(joist, 0),
        )
        for joist in sorted(marks)
    )


def gauge_mm(cover_width_mm: int, base_mm: int) -> Figure[int]:
    """Give the length of the stick that sets pedestals out: the clear distance between their bases.

    Pedestals at every seam stand one cover width apart, centre to centre.

    Args:
        cover_width_mm: What a board covers across its row. Scalar. [mm]
        base_mm: The length of a pedestal's base along the joist. Scalar. [mm]

    Returns:
        The clear distance. Scalar. [mm]

    Source:
        Arithmetic; common practice, no source.
    """
    inputs = (
        from_price_book("board cover width", cover_width_mm, "mm"),
        from_price_book("pedestal base", base_mm, "mm"),
    )
    working = Working("board cover width − pedestal base", inputs, ARITHMETIC)
    return Figure("gauge between pedestal bases", cover_width_mm - base_mm, "mm", working)


def crossings(lines: Sequence[int], start: int, end: int) -> tuple[int, ...]:
    """List the joists that a batten crosses.

    Args:
        lines: Joist centre lines, rising. Sequence. [mm]
        start: Where the batten begins. Scalar. [mm]
        end: Where it ends. Scalar. [mm]

    Returns:
        The lines from start to end. Tuple. [mm]

    Source:
        Geometry.
    """
    return tuple(line for line in lines if start <= line <= end)
