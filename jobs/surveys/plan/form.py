"""The loft plan as numbers: its outline, the hatch, and the rows of everything in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from django import forms

from estimating.survey import Polygon
from jobs.surveys.forms import PickField, SectionForm, lower_first
from jobs.surveys.plan.rows import CORNERS_HINT, RUNS
from jobs.surveys.plan.stems import with_stem
from jobs.surveys.plan.tables import ROW_KINDS, ROW_TITLES, TABLES, PlanRows, is_row_name
from jobs.surveys.typed.lengths import (
    CornersField,
    LengthField,
    TypedField,
    in_words,
    rectangle,
    without_corner,
)

NORTH = (
    ("0", "Back"), ("45", "Back right"), ("90", "Right"), ("135", "Front right"),
    ("180", "Front"), ("225", "Front left"), ("270", "Left"), ("315", "Back left"),
)  # fmt: skip
STEM = ("stem_side", "stem_from", "stem_width", "stem_depth")
OUTLINE_NEEDS = {
    "rectangle": ("outline_length", "outline_depth"),
    "L": ("outline_length", "outline_depth", "missing_corner", "missing_length", "missing_depth"),
    "T": ("outline_length", "outline_depth", *STEM),
    "corners": ("corners",),
}


class PlanForm(SectionForm):
    needed = ("hatch_left", "hatch_front", "hatch_runs")
    groups = (
        ("Outline of the loft", ("outline_kind", "outline_length", "outline_depth")),
        ("If it is an L-shape", ("missing_corner", "missing_length", "missing_depth")),
        ("If it is a T-shape", STEM),
        ("If it is any other shape", ("corners",)),
        ("North and the hatch", ("north", "hatch_left", "hatch_front", "hatch_runs")),
    )
    folded = frozenset({"If it is an L-shape", "If it is a T-shape", "If it is any other shape"})

    outline_kind = PickField(
        ("rectangle", "Rectangle"), ("L", "L-shape"), ("T", "T-shape"), ("corners", "Any shape"),
        label="Shape",
    )  # fmt: skip
    outline_length = LengthField(label="Length, left gable to right gable")
    outline_depth = LengthField(label="Depth, front eaves to back eaves")
    missing_corner = PickField(
        ("front left", "Front left"), ("front right", "Front right"),
        ("back left", "Back left"), ("back right", "Back right"),
        label="Which corner is missing",
    )  # fmt: skip
    missing_length = LengthField(label="Length of the missing corner, left to right")
    missing_depth = LengthField(label="Depth of the missing corner, front to back")
    stem_side = PickField(
        ("front", "Front"), ("back", "Back"), ("left", "Left"), ("right", "Right"),
        label="The stem sticks out at the",
    )  # fmt: skip
    stem_from = LengthField(label="Stem, from left gable (or front eaves)")
    stem_width = LengthField(label="Stem, how wide")
    stem_depth = LengthField(label="Stem, how far it sticks out")
    corners = CornersField(
        label="Corners of the loft in order", help_text=CORNERS_HINT,
        widget=forms.Textarea(attrs={"rows": 3}),
    )  # fmt: skip
    north = PickField(*NORTH, label="North is towards the")
    hatch_left = LengthField(label="Hatch opening, from left gable")
    hatch_front = LengthField(label="Hatch opening, from front eaves")
    hatch_runs = PickField(*RUNS, label="Long side of the hatch runs")

    def __init__(self, typed: Mapping[str, Any], *, length_unit: str, one_more: str = "") -> None:
        """Bind the plan; `one_more` names the kind of which an empty row is asked for."""
        super().__init__(typed, length_unit=length_unit)
        self.rows: dict[str, PlanRows] = {
            prefix: table(typed, prefix=prefix, length_unit=length_unit, one_more=prefix == one_more)
            for prefix, table in TABLES.items()
        }

    def is_valid(self) -> bool:
        return super().is_valid() and all(rows.is_valid() for rows in self.rows.values())

    def row_groups(self) -> Iterator[tuple[str, str, PlanRows]]:
        """Yield the title, the name and the rows of each kind."""
        for prefix, rows in self.rows.items():
            yield ROW_TITLES[prefix], prefix, rows

    def gaps(self) -> Iterator[tuple[str, str]]:
        yield from super().gaps()
        for name in OUTLINE_NEEDS.get(self.cleaned_data.get("outline_kind") or "", ("outline_kind",)):
            if name not in self.errors and self.cleaned_data.get(name) in (None, ""):
                yield name, "is missing"
        for prefix, rows in self.rows.items():
            rows.is_valid()
            told = rows.filled or ([] if prefix == "keep_outs" else list(enumerate(rows.forms[:1])))
            for place, row in told:
                yield from ((f"{prefix}-{place}-{name}", requirement) for name, requirement in row.gaps())

    def unread(self) -> list[tuple[forms.BoundField | None, str]]:
        rows = [row for group in self.rows.values() for row in group if row.errors]
        return super().unread() + [
            (row[name] if name in row.fields else None, error)
            for row in rows
            for name, errors in row.errors.items()
            for error in errors
        ]

    def typed_fields(self) -> Iterator[forms.BoundField]:
        yield from super().typed_fields()
        for rows in self.rows.values():
            for row in rows:
                yield from (field for field in row if isinstance(field.field, TypedField))

    @classmethod
    def takes(cls, name: str) -> bool:
        return super().takes(name) or is_row_name(name)

    def label_of(self, name: str) -> str:
        """Return the words beside a field; a row is called by its place, and known by its number."""
        prefix, _, rest = name.partition("-")
        if prefix not in self.rows:
            return super().label_of(name)
        number, _, field = rest.partition("-")
        kind, place = ROW_KINDS[prefix], self.rows[prefix].place_of(int(number))
        return f"{kind.called} {place + 1}: {lower_first(str(kind.base_fields[field].label))}"

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        cleaned["outline"] = self._outline()
        return cleaned

    def _outline(self) -> Polygon | None:
        cleaned = self.cleaned_data
        kind = cleaned.get("outline_kind") or ""
        if not kind or any(cleaned.get(name) in (None, "") for name in OUTLINE_NEEDS[kind]):
            return None
        if kind == "corners":
            corners: Polygon = cleaned["corners"]
            return corners
        length_mm, depth_mm = cleaned["outline_length"], cleaned["outline_depth"]
        if kind == "rectangle":
            return rectangle(left_mm=0, front_mm=0, length_mm=length_mm, depth_mm=depth_mm)
        if kind == "T":
            return self._t_shape(length_mm, depth_mm)
        cut_mm = cleaned["missing_length"], cleaned["missing_depth"]
        return without_corner(length_mm, depth_mm, corner=cleaned["missing_corner"], cut_mm=cut_mm)

    def _t_shape(self, length_mm: int, depth_mm: int) -> Polygon | None:
        side, from_mm, width_mm, out_mm = (self.cleaned_data[name] for name in STEM)
        along_mm, across_mm = (length_mm, depth_mm) if side in ("front", "back") else (depth_mm, length_mm)
        if from_mm + width_mm > along_mm:
            self.add_error(
                "stem_width", f"Must end within the loft, {in_words(along_mm)} from where it is measured."
            )
        if out_mm >= across_mm:
            self.add_error("stem_depth", f"Must be less than the whole loft, {in_words(across_mm)}.")
        if "stem_width" in self.errors or "stem_depth" in self.errors:
            return None
        return with_stem(length_mm, depth_mm, side=side, stem_mm=(from_mm, width_mm, out_mm))
