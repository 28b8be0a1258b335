"""The roof from below, and its ceiling joists."""

from __future__ import annotations

from django import forms

from estimating.survey import RoofKind, Underlay
from jobs.surveys.forms.fields import YES_NO, YES_NO_UNSEEN, CountField, PickField, WordsField, words_of
from jobs.surveys.forms.section import SectionForm
from jobs.surveys.lengths import LengthField


class RoofForm(SectionForm):
    needed = ("kind", "pitch_degrees", "span", "ridge_height", "underlay", "joist_depth", "joist_width")
    groups = (
        ("The roof", ("kind", "pitch_degrees", "span", "ridge_height", "rafter_centres", "underlay",
                      "eaves_path_open", "roof_notes")),
        ("The ceiling joists", ("joist_depth", "joist_width", "joist_span", "joist_grade", "binders",
                                "free_truss_bays", "plasterboard_mm")),
        ("Room to work", ("crawling_height", "obstructed")),
    )  # fmt: skip

    kind = PickField(*words_of(RoofKind), label="Kind of roof")
    pitch_degrees = forms.DecimalField(label="Pitch, degrees", required=False, max_digits=4, decimal_places=1)
    span = LengthField(label="Span of the roof, wall plate to wall plate")
    ridge_height = LengthField(label="Top of joists to underside of ridge")
    rafter_centres = LengthField(label="Rafter centres", help_text="Empty is read as 600 mm.")
    underlay = PickField(*words_of(Underlay), label="Underlay (felt)")
    eaves_path_open = PickField(*YES_NO_UNSEEN, label="Air comes in at both eaves")
    roof_notes = WordsField("Truss type, state of the felt, leaks, fire wall", lines=2)
    joist_depth = LengthField(label="Joist depth")
    joist_width = LengthField(label="Joist width")
    joist_span = LengthField(label="Joist span between supports")
    joist_grade = PickField(
        ("C16", "C16"), ("C24", "C24"), label="Strength class, where it is stamped on the timber"
    )
    binders = WordsField("Binders, hangers and supporting walls")
    free_truss_bays = CountField("Bays between trusses free for shelves")
    plasterboard_mm = forms.DecimalField(
        label="Ceiling lining thickness, mm", required=False, max_digits=4, decimal_places=1,
        help_text="Empty is read as 12.5 mm.",
    )  # fmt: skip
    crawling_height = PickField(*YES_NO, label="Most of it is crawling height")
    obstructed = PickField(*YES_NO, label="Obstructed by struts or webs")
