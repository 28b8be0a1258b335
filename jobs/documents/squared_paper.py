"""Squared paper to sketch a loft on, as SVG: squares of 5 mm, so that 250 mm a square is a plan at 1:50."""

from __future__ import annotations

SQUARE_MM = 5
SQUARES_WIDE, SQUARES_HIGH = 35, 22
HEAVY_EVERY = 4
EDGE_MM = 5
"""Room round the squares for what each side is called."""
_TITLE = (
    "Squared paper for the loft plan: left gable at the left, front eaves at the foot, "
    "back eaves at the top, right gable at the right"
)


def squared_paper() -> str:
    """Return the paper as SVG text, its sides named, every fourth line heavier."""
    wide, high = SQUARES_WIDE * SQUARE_MM, SQUARES_HIGH * SQUARE_MM
    left, top = EDGE_MM, EDGE_MM
    across, down = left + wide + EDGE_MM, top + high + EDGE_MM
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{across}mm" height="{down}mm" '
        f'viewBox="0 0 {across} {down}"><title>{_TITLE}</title>'
        f'<g fill="none" stroke="currentColor" transform="translate({left} {top})">'
        f'<path stroke-width="0.1" d="{_lines(wide, high, heavy=False)}"/>'
        f'<path stroke-width="0.25" d="{_lines(wide, high, heavy=True)}"/>'
        f'<rect stroke-width="0.5" width="{wide}" height="{high}"/></g>'
        f'<g fill="currentColor" font-family="Source Sans 3" font-size="3.2" text-anchor="middle">'
        f'<text x="{across / 2}" y="{top - 1.4}">back eaves</text>'
        f'<text x="{across / 2}" y="{down - 1.4}">front eaves</text>'
        f'<text transform="translate({left - 1.4} {down / 2}) rotate(-90)">left gable</text>'
        f'<text transform="translate({across - 1.4} {down / 2}) rotate(-90)">right gable</text>'
        "</g></svg>"
    )


def _lines(wide: int, high: int, *, heavy: bool) -> str:
    """Return the path of the light or of the heavy lines; both are counted from the datum, at the foot."""
    upright = [n * SQUARE_MM for n in range(1, SQUARES_WIDE) if (n % HEAVY_EVERY == 0) == heavy]
    level = [high - n * SQUARE_MM for n in range(1, SQUARES_HIGH) if (n % HEAVY_EVERY == 0) == heavy]
    return "".join([f"M{x} 0V{high}" for x in upright] + [f"M0 {y}H{wide}" for y in level])
