"""What lies on the ceiling now."""

from __future__ import annotations

from collections.abc import Iterator

from django import forms

from estimating.survey import InsulationMaterial
from jobs.surveys.forms.fields import PickField, WordsField, words_of
from jobs.surveys.forms.section import SectionForm
from jobs.surveys.lengths import LengthsField


class InsulationForm(SectionForm):
    needed = ("material",)
    groups = (
        ("What lies there now", ("material", "depth_readings", "stays", "conductivity_w_mk")),
        ("How it lies", ("gaps_seen", "boarded_now")),
    )

    material = PickField(*words_of(InsulationMaterial), label="Insulation on the ceiling")
    depth_readings = LengthsField(
        label="Depths at five points", help_text="From the ceiling up: 100 95 110 100 105."
    )
    stays = PickField(("yes", "Stays"), ("no", "Comes out"), label="The old insulation")
    conductivity_w_mk = forms.DecimalField(
        label="Conductivity, W/mK", required=False, max_digits=4, decimal_places=3,
        help_text="Empty is read as 0.044.",
    )  # fmt: skip
    gaps_seen = WordsField("Gaps, squashed or wet places", lines=2)
    boarded_now = WordsField("Boards already there, and what lies under them", lines=2)

    def gaps(self) -> Iterator[tuple[str, str]]:
        yield from super().gaps()
        bare = self.cleaned_data.get("material") in (None, "", InsulationMaterial.NONE)
        if not bare and not self.cleaned_data.get("depth_readings") and "depth_readings" not in self.errors:
            yield "depth_readings", "is missing: insulation needs at least one depth"
