"""The firm's own colour on its papers, and whether print in it can be read."""

from __future__ import annotations

import re

HEX = re.compile(r"#[0-9a-f]{6}")
TEXT_CONTRAST, LINE_CONTRAST = 4.5, 3.0
"""Against white: WCAG 2.2, 1.4.3 for text and 1.4.11 for lines that carry meaning."""


class NotAColour(ValueError):
    """What was typed names no colour."""


class TooPale(ValueError):
    """A colour that could not be seen on white paper."""


def as_colour(typed: str) -> str:
    """Return a colour as #rrggbb, or nothing for nothing; raises NotAColour, or TooPale."""
    colour = typed.strip().lower()
    if not colour:
        return ""
    colour = colour if colour.startswith("#") else f"#{colour}"
    if len(colour) == len("#rgb"):
        colour = "#" + "".join(digit * 2 for digit in colour[1:])
    if not HEX.fullmatch(colour):
        raise NotAColour(typed)
    if contrast_with_white(colour) < LINE_CONTRAST:
        raise TooPale(colour)
    return colour


def contrast_with_white(colour: str) -> float:
    """Return the contrast of #rrggbb against white, from 1 to 21, by the formula of WCAG 2.2."""
    red, green, blue = (_linear(int(colour[at : at + 2], 16) / 255) for at in (1, 3, 5))
    return 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05)


def is_for_text(colour: str) -> bool:
    """Whether words in this colour can be read on white; a paler one is used for lines alone."""
    return contrast_with_white(colour) >= TEXT_CONTRAST


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)
