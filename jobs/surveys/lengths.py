"""Form fields for lengths as people write them; the core reads them, the form says what was understood."""

from __future__ import annotations

import re
from typing import Any

from django import forms

from estimating.amounts import read_length_mm
from estimating.plane import bounds
from estimating.refusals import Refusal
from estimating.survey import Polygon

_WITH_UNIT = r"\d+(?:\.\d+)?\s*[a-z]+"
_ALIKE = r"\d+(?:\.\d+)?\s*(mm|cm|m)(?:\s+\d+(?:\.\d+)?\s*\1)*"
"""Lengths that all carry the same metric unit: 2.7 m 2.5 m cannot be one length."""
_PLAIN_TEXT = {"autocomplete": "off", "autocapitalize": "none", "spellcheck": "false"}


def in_words(length_mm: int) -> str:
    """Write millimetres as drawings do: 3 730 mm, the space one that never breaks the line."""
    return f"{length_mm:,}".replace(",", "\N{NO-BREAK SPACE}") + "\N{NO-BREAK SPACE}mm"


class TypedField(forms.Field):
    """Text that the core reads. What was typed stays in the box; `understood` says how it was read.

    An empty box is a gap and no error: gaps are told by the survey's progress list.
    """

    unit = ""

    def __init__(self, *, widget: forms.Widget | None = None, **kwargs: Any) -> None:
        super().__init__(required=False, widget=widget or forms.TextInput(attrs=_PLAIN_TEXT), **kwargs)
        self.understood = ""

    def to_python(self, value: Any) -> Any:
        text = str(value or "").strip()
        if not text:
            return None
        try:
            read = self.read(text)
        except Refusal as refused:
            raise forms.ValidationError(refused.requirement[:1].upper() + refused.requirement[1:]) from None
        self.understood = self.say(read)
        return read

    def read(self, text: str) -> Any:
        """Return what the text means; raises the core's Refusal."""
        raise NotImplementedError

    def say(self, read: Any) -> str:
        """Say what was understood."""
        raise NotImplementedError


class LengthField(TypedField):
    """One length, cleaned to whole millimetres."""

    unit = "mm, m or ft"

    def read(self, text: str) -> int:
        return read_length_mm(text, field=str(self.label))

    def say(self, read: int) -> str:
        return in_words(read)


class LengthsField(TypedField):
    """Several lengths, such as tape readings along a wall, cleaned to a tuple of whole millimetres."""

    unit = "mm, m or ft"

    def read(self, text: str) -> tuple[int, ...]:
        return tuple(read_length_mm(each, field=str(self.label)) for each in split_list(text))

    def say(self, read: tuple[int, ...]) -> str:
        return f"{len(read)} lengths: " + ", ".join(in_words(each) for each in read)


class OffsetsField(TypedField):
    """How much higher or lower each of several things is, cleaned to a tuple of whole millimetres."""

    unit = "mm, m or ft"

    def read(self, text: str) -> tuple[int, ...]:
        plain = re.sub(r"([+-])\s+", r"\1", text.replace("\N{MINUS SIGN}", "-"))
        return tuple(self._read_offset(each.strip()) for each in split_list(plain))

    def _read_offset(self, piece: str) -> int:
        offset = read_length_mm(piece.lstrip("+-"), field=str(self.label))
        return -offset if piece.startswith("-") else offset

    def say(self, read: tuple[int, ...]) -> str:
        return f"{len(read)} readings: " + ", ".join(f"{each:+d}" if each else "0" for each in read) + " mm"


class CornersField(TypedField):
    """The corners of a shape, "0,0; 8200,0; 8200,4000; 0,4000", cleaned to a polygon."""

    def read(self, text: str) -> Polygon:
        pieces = [piece for piece in re.split(r"[;\n]", text) if piece.strip()]
        return tuple(self._read_corner(piece) for piece in pieces)

    def _read_corner(self, piece: str) -> tuple[int, int]:
        sides = piece.split(",")
        if len(sides) != 2:
            raise Refusal(
                str(self.label),
                f'"{piece.strip()}" is not one corner: write from left gable, comma, from front eaves, '
                "with a semicolon between corners",
            )
        left, front = (read_length_mm(side, field=str(self.label)) for side in sides)
        return left, front

    def say(self, read: Polygon) -> str:
        left, front, right, back = bounds(read)
        return f"{len(read)} corners, {in_words(right - left)} × {in_words(back - front)} over all"


def split_list(text: str) -> list[str]:
    """Split a typed list; spaces may stand between lengths only where they cannot stand within one."""
    if re.search(r"[,;\n]", text):
        return [piece for piece in re.split(r"[,;\n]", text) if piece.strip()]
    if re.fullmatch(_ALIKE, text.strip().lower()):
        return re.findall(_WITH_UNIT, text.lower())
    pieces = text.split()
    units = {re.sub(r"[-+\d.]", "", piece) for piece in pieces}
    if len(pieces) > 1 and (len(units) > 1 or units & {"'", "ft"}):
        raise Refusal("lengths", f'"{text}" can be read in two ways: put commas between the lengths')
    return pieces


def rectangle(*, left_mm: int, front_mm: int, length_mm: int, depth_mm: int) -> Polygon:
    """Return the corners of a rectangle on plan, counter-clockwise from the left front."""
    right, back = left_mm + length_mm, front_mm + depth_mm
    return ((left_mm, front_mm), (right, front_mm), (right, back), (left_mm, back))


def without_corner(length_mm: int, depth_mm: int, *, corner: str, cut_mm: tuple[int, int]) -> Polygon:
    """Return an L-shape: the rectangle from the datum with one corner left out."""
    cut_x, cut_y = cut_mm
    shape = {
        "front left": (
            (cut_x, 0), (length_mm, 0), (length_mm, depth_mm), (0, depth_mm), (0, cut_y), (cut_x, cut_y),
        ),
        "front right": (
            (0, 0), (length_mm - cut_x, 0), (length_mm - cut_x, cut_y), (length_mm, cut_y),
            (length_mm, depth_mm), (0, depth_mm),
        ),
        "back right": (
            (0, 0), (length_mm, 0), (length_mm, depth_mm - cut_y), (length_mm - cut_x, depth_mm - cut_y),
            (length_mm - cut_x, depth_mm), (0, depth_mm),
        ),
        "back left": (
            (0, 0), (length_mm, 0), (length_mm, depth_mm), (cut_x, depth_mm), (cut_x, depth_mm - cut_y),
            (0, depth_mm - cut_y),
        ),
    }  # fmt: skip
    return shape[corner]
