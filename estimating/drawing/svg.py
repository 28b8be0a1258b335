"""SVG text, piece by piece: words escaped, numbers written one way, nothing left to chance."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from estimating.drawing.ink import Palette, stylesheet

Spot = tuple[float, float]

TEXT_PX = 12.0
"""The one size of text on a drawing. At 96 px to the inch its figures stand 2.1 mm high on paper."""

LETTER_WIDTHS = {"narrow": 0.3, "wide": 0.85, "capital": 0.6, "other": 0.52}
"""Widths in parts of the text size, measured on Source Sans 3 and taken a little wide."""

_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"})
_NOT_XML = dict.fromkeys((*range(9), 11, 12, *range(14, 32), *range(0xD800, 0xE000), 0xFFFE, 0xFFFF))


def escaped(words: str) -> str:
    """Escape words so that they can stand anywhere in SVG, and drop characters that XML cannot hold.

    Args:
        words: What a person wrote. Text. [-]

    Returns:
        The words as XML text. Text. [-]

    Source:
        W3C XML 1.0 (fifth edition), 2.2 Characters and 2.4 Character data.
    """
    return words.translate(_NOT_XML).translate(_ESCAPES)


def number(value: float) -> str:
    """Write a coordinate to a tenth of a pixel, without a needless zero.

    Args:
        value: The coordinate. Scalar. [px]

    Returns:
        The coordinate as text. Text. [px]

    Source:
        Own definition.
    """
    text = f"{value:.1f}"
    return "0" if text == "-0.0" else text.removesuffix(".0")


def text_width_px(words: str, size_px: float = TEXT_PX) -> float:
    """Estimate how wide words will be set, a little on the wide side, so that labels can be kept apart.

    Args:
        words: What will be written. Text. [-]
        size_px: The size of the text. Scalar. [px]

    Returns:
        The width. Scalar. [px]

    Source:
        Measured on the figures and lower case of Source Sans 3.
    """
    return size_px * sum(_width(each) for each in words)


def _width(letter: str) -> float:
    if letter in "fijlrt.,:;'()| ":
        return LETTER_WIDTHS["narrow"]
    if letter in "mwMW":
        return LETTER_WIDTHS["wide"]
    return LETTER_WIDTHS["capital" if letter.isupper() else "other"]


@dataclass(slots=True)
class Canvas:
    """Collects the elements of one drawing, in painting order.

    `prefix` keeps the ids of its patterns apart from those of other drawings on the same page.
    """

    width_px: float
    height_px: float
    prefix: str
    _parts: list[str] = field(default_factory=list)
    _definitions: list[str] = field(default_factory=list)

    def open_clipped(self, name: str, corners: Sequence[Spot]) -> None:
        """Begin a group of which only what lies within the corners is seen."""
        points = " ".join(_spot(corner) for corner in corners)
        self.define(f'<clipPath id="{self.prefix}-{name}"><polygon points="{points}"/></clipPath>')
        self._parts.append(f'<g clip-path="url(#{self.prefix}-{name})">')

    def close_group(self) -> None:
        """End the group begun last."""
        self._parts.append("</g>")

    def line(self, kind: str, start: Spot, end: Spot) -> None:
        """Draw one straight line."""
        self.path(kind, f"M{_spot(start)}L{_spot(end)}")

    def lines(self, kind: str, pairs: Iterable[tuple[Spot, Spot]]) -> None:
        """Draw many straight lines as one element."""
        outline = "".join(f"M{_spot(start)}L{_spot(end)}" for start, end in pairs)
        if outline:
            self.path(kind, outline)

    def path(self, kind: str, outline: str) -> None:
        """Draw a path already written as SVG path text."""
        self._parts.append(f'<path{_class(kind)} d="{outline}"/>')

    def polygon(self, kind: str, corners: Sequence[Spot], *, fill: str = "", **facts: str) -> None:
        """Draw a closed shape; `fill` names a pattern of this drawing."""
        filled = f' fill="url(#{self.prefix}-{fill})"' if fill else ""
        points = " ".join(_spot(corner) for corner in corners)
        self._parts.append(f'<polygon{_class(kind)}{_facts(facts)}{filled} points="{points}"/>')

    def box(self, kind: str, corner: Spot, size: Spot, *, fill: str = "", **facts: str) -> None:
        """Draw an upright rectangle from its upper left corner."""
        (left, top), (width, height) = corner, size
        filled = f' fill="url(#{self.prefix}-{fill})"' if fill else ""
        self._parts.append(
            f'<rect{_class(kind)}{_facts(facts)}{filled} x="{number(left)}" y="{number(top)}"'
            f' width="{number(width)}" height="{number(height)}"/>'
        )

    def circle(self, kind: str, centre: Spot, radius_px: float) -> None:
        """Draw a circle."""
        x, y, r = number(centre[0]), number(centre[1]), number(radius_px)
        self._parts.append(f'<circle{_class(kind)} cx="{x}" cy="{y}" r="{r}"/>')

    def words(self, kind: str, at: Spot, words: str, *, upright: bool = False) -> None:
        """Write words with their middle on the base line at a spot; upright words read from the right."""
        place = (
            f' transform="translate({_spot(at)}) rotate(-90)"'
            if upright
            else f' x="{number(at[0])}" y="{number(at[1])}"'
        )
        self._parts.append(f"<text{_class(kind)}{place}>{escaped(words)}</text>")

    def insert(self, drawing: str) -> None:
        """Place a whole drawing within this one."""
        self._parts.append(drawing)

    def define(self, element: str) -> None:
        """Keep a pattern or clip among the definitions."""
        self._definitions.append(element)

    def svg(self, *, title: str, description: str, palette: Palette | None) -> str:
        """Return the drawing as one SVG element; a palette puts its colours inside, for paper and files."""
        style = f"<style>{stylesheet(palette)}</style>" if palette else ""
        definitions = f"<defs>{''.join(self._definitions)}</defs>" if self._definitions else ""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing__picture" role="img"'
            f' viewBox="0 0 {number(self.width_px)} {number(self.height_px)}">'
            f"<title>{escaped(title)}</title><desc>{escaped(description)}</desc>"
            f"{style}{definitions}{''.join(self._parts)}</svg>"
        )


def _spot(spot: Spot) -> str:
    return f"{number(spot[0])} {number(spot[1])}"


def _class(kind: str) -> str:
    """The class attribute: block and element always, a modifier after "--" beside its plain element."""
    if not kind:
        return ""
    plain, _, modifier = kind.partition("--")
    names = f"drawing__{plain}" + (f" drawing__{kind}" if modifier else "")
    return f' class="{names}"'


def _facts(facts: dict[str, str]) -> str:
    return "".join(f' data-{name.replace("_", "-")}="{escaped(words)}"' for name, words in facts.items())
