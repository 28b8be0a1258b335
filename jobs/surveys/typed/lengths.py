"""Form fields for lengths as people write them; the core reads them, the form says what was understood."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms

from estimating.lengths import in_words, read_corners_mm, read_length_mm, read_lengths_mm, read_offsets_mm
from estimating.lengths.text import trimmed
from estimating.plane import bounds
from estimating.refusals import Refusal
from estimating.survey import Polygon
from jobs.firm.length_units import LengthUnit

__all__ = [
    "CornersField", "LengthField", "LengthsField", "OffsetsField", "TypedField", "as_typed", "in_words",
    "read_bare_numbers_in", "rectangle", "without_corner",
]  # fmt: skip

_PLAIN_TEXT = {"autocomplete": "off", "autocapitalize": "none", "spellcheck": "false"}


class TypedField(forms.Field):
    """Text that the core reads. What was typed stays in the box; `understood` says how it was read.

    An empty box is a gap and no error: gaps are told by the survey's progress list.
    """

    unit = ""
    reads: ClassVar[str] = ""
    """What the page's own reader calls this kind of answer; what it cannot read is left to the server."""

    def __init__(self, *, widget: forms.Widget | None = None, **kwargs: Any) -> None:
        super().__init__(required=False, widget=widget or forms.TextInput(), **kwargs)
        self.widget.attrs = {**_PLAIN_TEXT, **self.widget.attrs}
        self.understood = ""
        self.default_unit: str | None = LengthUnit.MILLIMETRES.value

    def read_bare_numbers_in(self, unit: str) -> None:
        """Set the unit of numbers that stand without one, and tell the page's own reader."""
        self.default_unit = None if unit == LengthUnit.ALWAYS_ASK else LengthUnit(unit).value
        if self.reads:
            self.widget.attrs |= {"data-reads": self.reads, "data-unit": self.default_unit or ""}

    def to_python(self, value: Any) -> Any:
        text = trimmed(str(value or ""))
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

    def how(self) -> dict[str, Any]:
        """Return how the core's readers are to read: for whom a refusal is, and the unit of bare numbers."""
        return {"field": str(self.label), "default_unit": self.default_unit}


class MeasuredField(TypedField):
    """Lengths; beside the box stands the unit that a bare number takes."""

    def read_bare_numbers_in(self, unit: str) -> None:
        super().read_bare_numbers_in(unit)
        self.unit = f"{self.default_unit} unless you say" if self.default_unit else "write the unit"


class LengthField(MeasuredField):
    """One length, cleaned to whole millimetres."""

    reads = "length"

    def read(self, text: str) -> int:
        return read_length_mm(text, **self.how())

    def say(self, read: int) -> str:
        return in_words(read)


class LengthsField(MeasuredField):
    """Several lengths, such as tape readings along a wall, cleaned to a tuple of whole millimetres."""

    reads = "lengths"

    def read(self, text: str) -> tuple[int, ...]:
        return read_lengths_mm(text, **self.how())

    def say(self, read: tuple[int, ...]) -> str:
        return f"{len(read)} lengths: " + ", ".join(in_words(each) for each in read)


class OffsetsField(MeasuredField):
    """How much higher or lower each of several things is, cleaned to a tuple of whole millimetres."""

    reads = "offsets"

    def read(self, text: str) -> tuple[int, ...]:
        return read_offsets_mm(text, **self.how())

    def say(self, read: tuple[int, ...]) -> str:
        signs = {-1: "-", 0: "", 1: "+"}
        told = (f"{signs[(each > 0) - (each < 0)]}{in_words(abs(each))}" for each in read)
        return f"{len(read)} readings: " + ", ".join(told)


class CornersField(TypedField):
    """The corners of a shape, "0,0; 8200,0; 8200,4000; 0,4000", cleaned to a polygon."""

    reads = "corners"

    def read(self, text: str) -> Polygon:
        return read_corners_mm(text, **self.how())

    def say(self, read: Polygon) -> str:
        left, front, right, back = bounds(read)
        return f"{len(read)} corners, {in_words(right - left)} × {in_words(back - front)} over all"


def as_typed(length_mm: int, unit: str) -> str:
    """Write a length into an answer whose bare numbers are in a unit: as drawings do, bare in millimetres."""
    return str(length_mm) if unit == LengthUnit.MILLIMETRES else f"{length_mm} mm"


def read_bare_numbers_in(form: forms.BaseForm, unit: str) -> None:
    """Let every box of a form take bare numbers in one unit, that of the survey it belongs to."""
    for field in form.fields.values():
        if isinstance(field, TypedField):
            field.read_bare_numbers_in(unit)


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
