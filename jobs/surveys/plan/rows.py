"""One row of the loft plan: a joist field, a keep-out or a deck zone, each with its shape.

The same rows are drawn by touch; whatever draws them writes these same answers.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, ClassVar

from django import forms

from estimating.refusals import Refusal
from estimating.survey import Axis, KeepOutKind, evenly_spaced
from jobs.forms import SheetForm
from jobs.surveys.forms import CountField, Group, PickField, WordsField, groups_of, lower_first, words_of
from jobs.surveys.typed.centres import CentresField, lines_from
from jobs.surveys.typed.lengths import (
    CornersField,
    LengthField,
    LengthsField,
    OffsetsField,
    read_bare_numbers_in,
    rectangle,
)
from jobs.surveys.typed.measures import CutsField, SpansField

RUNS = ((Axis.Y.value, "Front to back"), (Axis.X.value, "Left to right"))
SIDES = ("left", "front", "length", "depth")
EVENLY = ("first", "centres", "count")
CORNERS_HINT = "From left gable, comma, from front eaves; a semicolon between corners."


class PlanRow(SheetForm):
    """A row of the plan's table with a shape: a rectangle by four lengths, or its corners."""

    called: ClassVar[str]
    shape_needed: ClassVar[bool] = True
    groups: ClassVar[tuple[tuple[str, tuple[str, ...]], ...]]
    folded: ClassVar[frozenset[str]] = frozenset({"Another shape"})

    left = LengthField(label="From left gable")
    front = LengthField(label="From front eaves")
    length = LengthField(label="Length, left to right")
    depth = LengthField(label="Depth, front to back")
    corners = CornersField(label="Corners, instead of four lengths", help_text=CORNERS_HINT)

    def __init__(self, *args: Any, length_unit: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        read_bare_numbers_in(self, length_unit)

    @property
    def number(self) -> str:
        """The row's number, as in the names of its answers."""
        return self.prefix.rpartition("-")[2]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        sides = {name: cleaned.get(name) for name in SIDES}
        given = [side for side in sides.values() if side is not None]
        cleaned["outline"] = cleaned.get("corners")
        if cleaned["outline"] and given:
            self.add_error("corners", "Give four lengths or the corners, not both.")
        elif len(given) == len(SIDES):
            cleaned["outline"] = rectangle(**{f"{name}_mm": side for name, side in sides.items()})
        return cleaned

    def grouped(self) -> Iterator[Group]:
        yield from groups_of(self)

    def gaps(self) -> Iterator[tuple[str, str]]:
        """Yield (field, what it must be) for all that a price still needs from this row."""
        for name, errors in self.errors.items():
            yield name, lower_first(errors[0])
        missing = [name for name in SIDES if self.is_gap(name)]
        begun = len(missing) < len(SIDES)
        if not self.cleaned_data.get("outline") and (begun or self.shape_needed):
            yield from ((name, "is missing") for name in (missing if begun else missing[:1]))

    def is_gap(self, name: str) -> bool:
        """Tell whether an answer is not there; one that cannot be read is an error instead."""
        return name not in self.errors and self.cleaned_data.get(name) in (None, "")


class JoistFieldRow(PlanRow):
    called = "Joist field"
    shape_needed = False

    name = WordsField("Name", help_text="Such as main, or over the back bedroom.")
    runs_along = PickField(*RUNS, label="Joists run")
    first = LengthField(label="First joist, centre from left gable (or front eaves)")
    centres = LengthField(label="Centres")
    count = CountField("How many joists")
    spacings = CentresField(
        label="Centres one after another, if they differ",
        help_text="From the first joist on: 395 407 400 x 6.",
    )
    readings = LengthsField(
        label="A tape reading at each joist, instead of centres",
        help_text="To each centre in order: 0 395 802 1190. From the first joist if that is given, "
        "else from the gable or eaves.",
    )
    tops = OffsetsField(
        label="Joist tops against joist 1, if they differ",
        help_text="With a level from the top of joist 1, one for each joist in order, lower ones with a "
        "minus: 0 -4 -6 3.",
    )
    joist_depth = LengthField(label="Joist depth, if not as under Roof")
    joist_width = LengthField(label="Joist width, if not as under Roof")
    joist_span = SpansField(label="Joist spans, if not as under Roof", help_text="In order: 2.7 m, 2.5 m.")
    binder_supports = CountField("How many of the supports between are binders here", at_most=20)
    cuts = CutsField(
        label="Notches, holes and cuts found",
        help_text="One on a line: the joist's number from the left or the front, notch, hole or cut, its "
        "depth or diameter, and how far from the support. 3 notch 20, 600",
        widget=forms.Textarea(attrs={"rows": 3}),
    )

    groups = (
        ("", ("name", "runs_along", "first", "centres", "count")),
        ("Notched, drilled or cut joists", ("cuts",)),
        ("Uneven joists", ("spacings", "readings", "tops")),
        ("Only part of the loft", (*SIDES, "corners")),
        ("Joists of another size here", ("joist_depth", "joist_width", "joist_span",
                                         "binder_supports")),
    )  # fmt: skip
    folded = frozenset(
        {
            "Notched, drilled or cut joists",
            "Uneven joists",
            "Only part of the loft",
            "Joists of another size here",
        }
    )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        self._refuse_two_ways()
        if cleaned.get("spacings"):
            cleaned["centre_lines"] = self._one_after_another()
        else:
            cleaned["centre_lines"] = self._as_read() if cleaned.get("readings") else self._evenly()
        return cleaned

    def _refuse_two_ways(self) -> None:
        """Even centres, centres one after another or tape readings: what two of them say may differ."""
        given = [name for name in ("readings", "spacings") if self.cleaned_data.get(name)]
        evenly = any(self.cleaned_data.get(name) is not None for name in ("centres", "count"))
        if given and len(given) + evenly > 1:
            self.add_error(
                given[0], "Give even centres, centres one after another or tape readings: one of them."
            )

    def _one_after_another(self) -> tuple[int, ...] | None:
        first = self.cleaned_data.get("first")
        return None if first is None else lines_from(first, self.cleaned_data["spacings"])

    def _as_read(self) -> tuple[int, ...]:
        first, readings = self.cleaned_data.get("first"), self.cleaned_data["readings"]
        if first is not None and readings[0] != 0:
            self.add_error("readings", "Must begin at 0, because the first joist is given above.")
        return tuple((first or 0) + reading for reading in readings)

    def _evenly(self) -> tuple[int, ...] | None:
        first, centres, count = (self.cleaned_data.get(name) for name in EVENLY)
        if first is None or centres is None or count is None:
            return None
        try:
            return evenly_spaced(first_mm=first, centres_mm=centres, count=count)
        except Refusal as refused:
            for each in refused.each:
                self.add_error("centres" if each.field == "centres_mm" else "count", each.requirement)
            return None

    def gaps(self) -> Iterator[tuple[str, str]]:
        yield from super().gaps()
        if self.is_gap("runs_along"):
            yield "runs_along", "is missing"
        if self.cleaned_data.get("centre_lines") or not self.is_gap("readings"):
            return
        needed = EVENLY if self.is_gap("spacings") else EVENLY[:1]
        yield from ((name, "is missing") for name in needed if self.is_gap(name))


class KeepOutRow(PlanRow):
    called = "Keep-out"

    name = WordsField("Name", help_text="Empty takes the kind.")
    kind = PickField(*words_of(KeepOutKind), label="What it is")
    litres = CountField("Litres it holds", at_most=5000, help_text="Empty is read as not measured.")
    carried_by = CountField("How many trusses carry it", at_most=50)

    groups = (
        ("", ("kind", "name", *SIDES)),
        ("If it is a tank", ("litres", "carried_by")),
        ("Another shape", ("corners",)),
    )
    folded = frozenset({"If it is a tank", "Another shape"})

    def gaps(self) -> Iterator[tuple[str, str]]:
        yield from super().gaps()
        if self.is_gap("kind"):
            yield "kind", "is missing"


class ZoneRow(PlanRow):
    called = "Deck zone"

    name = WordsField("Name", help_text="Empty is called Deck.")
    joist_field = WordsField("Over which joist field", help_text="Empty takes the only one.")
    edge_may_move = LengthField(
        label="Each edge may move by",
        help_text="In or out, where that saves boards or a narrow strip. Empty lets no edge move.",
    )

    groups = (("", ("name", "joist_field", *SIDES, "edge_may_move")), ("Another shape", ("corners",)))
