"""The roof from below, and its ceiling joists."""

from __future__ import annotations

from collections.abc import Iterator

from django import forms

from estimating.checks.structure.joist_in_loft import (
    BEARING_TAKEN_MM,
    GRADE_TAKEN,
    GRADED_SINCE,
    OLD_GRADE_TAKEN,
)
from estimating.survey import RoofKind, Underlay
from jobs.surveys.forms.fields import YES_NO, YES_NO_UNSEEN, CountField, PickField, WordsField, words_of
from jobs.surveys.forms.section import SectionForm
from jobs.surveys.typed.lengths import LengthField
from jobs.surveys.typed.measures import OpeningField, SpansField

OF_CUT_ROOFS = frozenset({"joist_span", "joist_bearing", "joist_grade"})
"""A truss is not checked as a joist, so nobody need measure it as one."""


class RoofForm(SectionForm):
    needed = ("kind", "pitch_degrees", "span", "ridge_height", "underlay", "joist_depth", "joist_width")
    checked = ("eaves_opening", "ridge_opening", "joist_span", "joist_bearing", "joist_grade")
    groups = (
        ("The roof", ("kind", "pitch_degrees", "span", "ridge_height", "rafter_centres", "underlay",
                      "roof_notes")),
        ("Air into the roof", ("eaves_path_open", "eaves_opening", "ridge_opening")),
        ("The ceiling joists", ("joist_depth", "joist_width", "joist_span", "binder_supports",
                                "joist_bearing", "binders", "joist_grade", "plasterboard_mm",
                                "free_truss_bays")),
        ("Room to work", ("crawling_height", "obstructed")),
    )  # fmt: skip

    kind = PickField(*words_of(RoofKind), label="Kind of roof")
    pitch_degrees = forms.DecimalField(label="Pitch, degrees", required=False, max_digits=4, decimal_places=1)
    span = LengthField(label="Span of the roof, wall plate to wall plate")
    ridge_height = LengthField(label="Top of joists to underside of ridge")
    rafter_centres = LengthField(label="Rafter centres", help_text="Empty is read as 600 mm.")
    underlay = PickField(*words_of(Underlay), label="Underlay (felt)")
    eaves_path_open = PickField(*YES_NO_UNSEEN, label="Air comes in at both eaves")
    eaves_opening = OpeningField(
        label="Free opening at each eaves",
        help_text="As a gap all along, such as 10 mm, or 10000 mm²/m. Empty is read as not measured: the "
        "quote then says what is asked for.",
    )
    ridge_opening = OpeningField(label="Free opening at the ridge", help_text="The same way; 0 for none.")
    roof_notes = WordsField("Truss type, state of the felt, leaks, fire wall", lines=2)
    joist_depth = LengthField(label="Joist depth")
    joist_width = LengthField(label="Joist width")
    joist_span = SpansField(
        label="Joist span between supports",
        help_text="Clear; in order where one length runs on over supports: 2.7 m, 2.5 m. Empty is read as "
        "the whole loft, the worst.",
    )
    binder_supports = CountField(
        "How many of the supports between are binders", at_most=20, help_text="Empty is read as 0: all walls."
    )
    joist_bearing = LengthField(
        label="Bearing of a joist on its support", help_text=f"Empty is read as {BEARING_TAKEN_MM} mm."
    )
    joist_grade = PickField(
        ("C14", "C14"), ("C16", "C16"), ("C24", "C24"), ("TR26", "TR26"), ("unmeasured", "Not stamped"),
        label="Strength class, where it is stamped on the timber",
        help_text=f"Not stamped is taken as {GRADE_TAKEN}, before {GRADED_SINCE} as {OLD_GRADE_TAKEN}.",
    )  # fmt: skip
    binders = WordsField("Binders, hangers and supporting walls")
    free_truss_bays = CountField("Bays between trusses free for shelves")
    plasterboard_mm = forms.DecimalField(
        label="Ceiling lining thickness, mm", required=False, max_digits=4, decimal_places=1,
        help_text="Empty is read as 12.5 mm.",
    )  # fmt: skip
    crawling_height = PickField(*YES_NO, label="Most of it is crawling height")
    obstructed = PickField(*YES_NO, label="Obstructed by struts or webs")

    def unmeasured(self) -> Iterator[str]:
        trussed = self.cleaned_data.get("kind") == RoofKind.TRUSSED
        yield from (name for name in super().unmeasured() if not (trussed and name in OF_CUT_ROOFS))
