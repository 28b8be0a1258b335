"""Where the rows of a deck start: with a whole row at one edge or the other, or ripped at both.

Wherever a row edge of the deck falls inside a row, a strip of board is left beside it. Strips too narrow to
lay are avoided first; what is left of the choice belongs to whoever counts boards.
"""

from __future__ import annotations

from estimating.design.boards.edges import edges_of
from estimating.design.boards.problem import LayoutProblem
from estimating.plane import Polygon, bounds

_LOW_AND_HIGH_ON_PLAN = (("front edge", "back edge"), ("left-hand edge", "right-hand edge"))


def row_origins_mm(outline: Polygon, cover_width_mm: int, least_strip_mm: int) -> tuple[int, ...]:
    """List the lines that the rows may start from, those that leave the fewest narrow strips.

    Whole rows at the low edge come first, then at the high edge, then a row edge of a step in line with a
    seam, and last both outer rows ripped alike. Only where all of those leave a narrow strip is any other
    line looked at.

    Args:
        outline: The finished edge in the zone's frame. Polygon. [mm]
        cover_width_mm: What a row covers. Scalar. [mm]
        least_strip_mm: The narrowest strip to lay. Scalar. [mm]

    Returns:
        Row origins at or below the low edge, the usual one first. Tuple. [mm]

    Source:
        Common practice, no source.
    """
    _, low, _, high = bounds(outline)
    over = (high - low) % cover_width_mm
    if high - low <= cover_width_mm:
        return (low,)
    seams = [low, high, *(edge.at_mm for edge in edges_of(outline) if not edge.is_end)]
    usual = [low - (low - seam) % cover_width_mm for seam in seams]
    if over:
        usual.append(low - (cover_width_mm - (over + cover_width_mm) // 2))
    narrow = {line: narrow_strips(outline, line, cover_width_mm, least_strip_mm) for line in usual}
    fewest = min(narrow.values())
    if not fewest:
        return tuple(line for line, strips in narrow.items() if not strips)
    anywhere = (*narrow, *range(low - 1, low - cover_width_mm, -1))
    return (min(anywhere, key=lambda line: narrow_strips(outline, line, cover_width_mm, least_strip_mm)),)


def narrow_strips(outline: Polygon, origin_mm: int, cover_width_mm: int, least_strip_mm: int) -> int:
    """Count the row edges of a deck that leave a strip of board too narrow to lay.

    Args:
        outline: The finished edge in the zone's frame. Polygon. [mm]
        origin_mm: Where the rows start. Scalar. [mm]
        cover_width_mm: What a row covers. Scalar. [mm]
        least_strip_mm: The narrowest strip to lay. Scalar. [mm]

    Returns:
        How many edges do. Scalar. [count]

    Source:
        Least strip of 80 mm: common practice, no source.
    """
    return sum(
        0 < strip_mm < least_strip_mm
        for edge in edges_of(outline)
        if not edge.is_end
        for strip_mm in ((edge.outward * (edge.at_mm - origin_mm)) % cover_width_mm,)
    )


def outer_rows_mm(problem: LayoutProblem) -> tuple[int, int]:
    """Give the widths of the first and the last row, as far as the deck reaches into them.

    Args:
        problem: The layout problem. Record. [mm]

    Returns:
        First and last row, counted from the low edge of the zone's frame. Pair. [mm]

    Source:
        Arithmetic.
    """
    _, low, _, high = bounds(problem.outline)
    width = problem.product.cover_width_mm
    first = width - (low - problem.row_origin_mm) % width
    if high - low <= first:
        return high - low, high - low
    return first, (high - problem.row_origin_mm - 1) % width + 1


def start_in_words(problem: LayoutProblem, turns: int = 0) -> str:
    """Say how the rows start, as what could be done instead.

    Args:
        problem: The layout problem. Record. [mm]
        turns: Quarter turns from the plan into the zone's frame. Scalar. [-]

    Returns:
        Half a sentence. Text. [-]

    Source:
        Own definition.
    """
    low_edge, high_edge = _LOW_AND_HIGH_ON_PLAN[turns % 2]
    first, last = outer_rows_mm(problem)
    if first == problem.product.cover_width_mm:
        return f"the rows started whole at the {low_edge}"
    if last == problem.product.cover_width_mm:
        return f"the rows started whole at the {high_edge}"
    return f"the row at the {low_edge} ripped to {first} mm"


def rows_in_words(problem: LayoutProblem, turns: int = 0) -> str:
    """Say from which edge the rows start whole, and how wide the outer rows are ripped.

    Args:
        problem: The layout problem. Record. [mm]
        turns: Quarter turns from the plan into the zone's frame. Scalar. [-]

    Returns:
        One sentence. Text. [-]

    Source:
        Own definition.
    """
    names = _LOW_AND_HIGH_ON_PLAN[turns % 2]
    first, last = outer_rows_mm(problem)
    width = problem.product.cover_width_mm
    if (first, last) == (width, width):
        return f"Every row is whole, from the {names[0]} to the {names[1]}."
    if first == width:
        return f"Rows start whole at the {names[0]}; the last, at the {names[1]}, is {last} mm wide."
    if last == width:
        return f"Rows start whole at the {names[1]}; the last, at the {names[0]}, is {first} mm wide."
    _, low, _, high = bounds(problem.outline)
    if high - low == first:
        return f"One row, {first} mm wide."
    return f"Both outer rows are ripped: {first} mm wide at the {names[0]}, {last} mm wide at the {names[1]}."
