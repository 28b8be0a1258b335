"""Setting words in lines of a given width."""

from __future__ import annotations

from collections.abc import Sequence

from estimating.drawing.svg import text_width_px


def wrapped(parts: Sequence[str], width_px: float, *, between: str = " ") -> tuple[str, ...]:
    """Set parts in as few lines as hold them, breaking only between parts.

    Args:
        parts: Words or phrases. Sequence of text. [-]
        width_px: How wide a line may be. Scalar. [px]
        between: What stands between two parts of a line, and at the end of a line that goes on. Text. [-]

    Returns:
        The lines; a part wider than a line has one to itself. Tuple of text. [-]

    Source:
        Own definition.
    """
    lines: list[str] = []
    for part in parts:
        longer = f"{lines[-1]}{between}{part}" if lines else part
        if lines and text_width_px(longer) <= width_px:
            lines[-1] = longer
        else:
            lines.append(part)
    return tuple(line + between.rstrip() for line in lines[:-1]) + tuple(lines[-1:])
