"""A question of the visit as it stands on paper: in the words of the screen, with room for a pencil."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

from django import forms

from jobs.surveys.forms import Grouped, groups_of
from jobs.surveys.typed.lengths import LengthField, MeasuredField, TypedField
from jobs.surveys.typed.measures import OpeningField

UNITS_TO_RING = ("mm", "m", "ft-in")
MOST_BOXES = 9
"""A longer list of choices is written and not ticked: it would fill the paper."""
MOST_LETTERS_BESIDE = 12
"""A few short choices stand beside their question, as they do on the screen."""
MOST_LETTERS_OF_A_HINT_BESIDE = 110
MOST_LETTERS_ON_A_LINE = 40
"""A longer question leaves no room to write on its own line."""


@dataclass(frozen=True, slots=True)
class Box:
    """A choice with a box to tick."""

    words: str
    is_picked: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A question with its room: boxes to tick, a short box, or so many lines for words."""

    label: str
    mark: str
    hint: str
    filled: str
    boxes: tuple[Box, ...] = ()
    is_short: bool = False
    lines: int = 0
    """How many lines there are to write on, the first of which the question itself stands on."""
    units: tuple[str, ...] = ()

    @property
    def is_beside(self) -> bool:
        """Tell whether the answer fits on the line of its question."""
        if len(self.hint) > MOST_LETTERS_OF_A_HINT_BESIDE:
            return False
        return self.is_short or (bool(self.boxes) and self._letters <= MOST_LETTERS_BESIDE)

    @property
    def _letters(self) -> int:
        return sum(len(box.words) for box in self.boxes)

    @property
    def unit_words(self) -> str:
        return " / ".join(self.units)

    @property
    def more_lines(self) -> range:
        """The lines below the one that the question stands on."""
        return range(self.lines - 1)


@dataclass(frozen=True, slots=True)
class AskedGroup:
    """Questions that are asked together."""

    title: str
    questions: tuple[Asked, ...]

    @property
    def in_cells(self) -> list[tuple[Asked, ...]]:
        """The questions in order, short ones that follow each other as the cells of one row."""
        runs = groupby(self.questions, key=lambda question: question.is_short)
        return [row for is_short, run in runs for row in ([tuple(run)] if is_short else zip(run))]


def asked_groups(form: Grouped) -> Iterator[AskedGroup]:
    """Yield the questions of a form in its own groups and order."""
    for group in groups_of(form):
        yield AskedGroup(group.title, tuple(asked(each) for each in group.fields))


def asked(bound: forms.BoundField) -> Asked:
    """Return one question with the room that its kind of answer needs and what stands in it already."""
    field = bound.field
    boxes, typed = _boxes(bound), str(bound.value() or "").strip()
    listed = bool(boxes) and len(boxes) <= MOST_BOXES
    is_short = not boxes and isinstance(field, LengthField | OpeningField | forms.IntegerField)
    lines = 0 if listed or is_short else _lines(field)
    is_long = len(f"{field.label}{field.help_text}{_mark(field)}") > MOST_LETTERS_ON_A_LINE
    return Asked(
        label=str(field.label),
        mark=_mark(field),
        hint=str(field.help_text),
        filled="" if listed else _shown(boxes, typed),
        boxes=boxes if listed else (),
        is_short=is_short,
        lines=max(lines, 2) if lines and is_long else lines,
        units=_units(field),
    )


def answer_of(bound: forms.BoundField) -> str:
    """Return what stands in a box already, a choice in its own words."""
    return _shown(_boxes(bound), str(bound.value() or "").strip())


def _boxes(bound: forms.BoundField) -> tuple[Box, ...]:
    if not isinstance(bound.field, forms.ChoiceField):
        return ()
    picked = str(bound.value() or "")
    return tuple(Box(str(words), picked != "" and value == picked) for value, words in bound.field.choices)


def _shown(boxes: Iterable[Box], typed: str) -> str:
    return next((box.words for box in boxes if box.is_picked), "" if boxes else typed)


def _lines(field: forms.Field) -> int:
    return int(field.widget.attrs.get("rows", 1))


def _mark(field: forms.Field) -> str:
    if getattr(field, "needed", False):
        return "for a price"
    return "for the checks" if getattr(field, "checked", False) else ""


def _units(field: forms.Field) -> tuple[str, ...]:
    if isinstance(field, MeasuredField):
        return UNITS_TO_RING
    unit = field.unit if isinstance(field, TypedField) else ""
    return (unit,) if unit else ()
