"""How each part of a drawing is inked: one table, from which screen's and paper's style sheets are written.

A page's style sheet reaches the drawings in it on a screen, and there a strict content policy forbids any
other. It does not reach them in a PDF or in a file of their own, so there the same rules go inside the
drawing with the colours of paper put in.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

Palette = Mapping[str, str]

PAPER: Palette = MappingProxyType(
    {
        "sheet": "#ffffff",
        "ink": "#1f2a33",
        "soft-ink": "#57626a",
        "line": "#c9c1b0",
        "chalk": "#1d5fa6",
        "timber": "#e8cf9f",
        "timber-cut": "#dcb878",
        "timber-line": "#8a6428",
        "wool": "#d9a7a0",
        "wool-wash": "#f9efec",
        "red": "#a8281e",
        "family": '"Source Sans 3", "Helvetica", sans-serif',
    }
)
"""The light sheet's colours on white paper; a test holds them to the tokens of the screen."""

CHAIN_DOTTED = "14 3 2 3"

_TEXT = {
    "fill": "ink",
    "stroke": "none",
    "font-family": "family",
    "font-size": "12px",
    "text-anchor": "middle",
}

INK: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        # What is built, heaviest first.
        "wall": {"fill": "sheet", "stroke": "line", "stroke-width": "9", "stroke-linejoin": "miter"},
        "outline": {"fill": "none", "stroke": "ink", "stroke-width": "1.4"},
        "edge": {"fill": "none", "stroke": "ink", "stroke-width": "2.4", "stroke-linejoin": "miter"},
        "bearer": {"fill": "none", "stroke": "timber-line", "stroke-width": "3.4"},
        "batten": {"fill": "none", "stroke": "timber-line", "stroke-width": "2.4"},
        "pedestal": {"fill": "ink", "stroke": "none"},
        "pedestal--base": {"fill": "sheet", "stroke": "ink", "stroke-width": "1"},
        "board": {"fill": "timber", "stroke": "timber-line", "stroke-width": "1"},
        "board--cut": {"fill": "timber-cut"},
        "board--traced": {"fill": "none"},
        "board--chosen": {"stroke": "chalk", "stroke-width": "3"},
        "joist": {
            "fill": "none",
            "stroke": "soft-ink",
            "stroke-width": "0.8",
            "stroke-dasharray": CHAIN_DOTTED,
        },
        "joist--section": {
            "fill": "timber",
            "stroke": "ink",
            "stroke-width": "1.4",
            "stroke-dasharray": "none",
        },
        "ceiling": {"fill": "soft-ink", "stroke": "none"},
        "roof": {"fill": "none", "stroke": "ink", "stroke-width": "2.4", "stroke-linejoin": "miter"},
        "wool": {"fill": "none", "stroke": "wool", "stroke-width": "0.9"},
        "layer": {"fill": "wool-wash", "stroke": "none"},
        "layer-line": {"fill": "none", "stroke": "wool", "stroke-width": "1.2"},
        "keep-out": {"fill": "sheet", "stroke": "ink", "stroke-width": "1.2", "stroke-dasharray": "6 2"},
        "keep-out--chosen": {"stroke": "chalk", "stroke-width": "3"},
        "hatch": {"fill": "sheet", "stroke": "ink", "stroke-width": "1.8"},
        "hatching": {"fill": "none", "stroke": "soft-ink", "stroke-width": "0.6"},
        "offcut": {
            "fill": "sheet",
            "stroke": "timber-line",
            "stroke-width": "0.8",
            "stroke-dasharray": "4 2",
        },
        "cut": {"fill": "none", "stroke": "red", "stroke-width": "1.6", "stroke-dasharray": "7 3"},
        # What is said about it.
        "dimension": {"fill": "none", "stroke": "soft-ink", "stroke-width": "0.8"},
        "tick": {"fill": "none", "stroke": "ink", "stroke-width": "1.4"},
        "extension": {"fill": "none", "stroke": "soft-ink", "stroke-width": "0.7", "stroke-dasharray": "1 3"},
        "leader": {"fill": "none", "stroke": "ink", "stroke-width": "0.7"},
        "mark": {"fill": "none", "stroke": "ink", "stroke-width": "1.2"},
        "mark--solid": {"fill": "ink"},
        "ground": {"fill": "sheet", "stroke": "none"},
        "border": {"fill": "none", "stroke": "ink", "stroke-width": "1.6"},
        "text": _TEXT,
        "text--strong": {"font-weight": "600"},
        "text--soft": {"fill": "soft-ink"},
        "text--start": {"text-anchor": "start"},
        "text--end": {"text-anchor": "end"},
        "text--small": {"font-size": "10px", "fill": "soft-ink", "text-anchor": "start"},
    }
)


def stylesheet(palette: Palette | None = None) -> str:
    """Write the style sheet of the drawings.

    Args:
        palette: Colours and family to put in, or None to name the tokens of the page. Mapping. [-]

    Returns:
        The rules, one a line, in the order of the table. Text. [-]

    Source:
        Line weights and types after BS EN ISO 128-2:2020 and the habits of BS 8541-2:2011, from memory.
    """
    return "".join(_rule(kind, strokes, palette) for kind, strokes in INK.items())


def _rule(kind: str, strokes: Mapping[str, str], palette: Palette | None) -> str:
    declarations = "".join(f" {name}: {_value(value, palette)};" for name, value in strokes.items())
    return f".drawing__{kind} {{{declarations} }}\n"


def _value(value: str, palette: Palette | None) -> str:
    if value not in PAPER:
        return value
    return palette[value] if palette else f"var(--{value})"
