"""What lies on the ceiling now."""

from __future__ import annotations

from collections.abc import Iterator

from django import forms

from estimating.survey import InsulationMaterial
from jobs.surveys.forms.fields import CountField, PickField, WordsField, words_of
from jobs.surveys.forms.section import SectionForm
from jobs.surveys.typed.lengths import LengthsField
from jobs.surveys.typed.measures import AreasField

READINGS_FOR_A_MEAN = 5


class InsulationForm(SectionForm):
    needed = ("material",)
    groups = (
        ("What lies there now", ("material", "depth_readings", "areas", "stays", "conductivity_w_mk")),
        ("How it lies", ("gaps_seen", "boarded_now", "hidden_percent")),
    )

    material = PickField(*words_of(InsulationMaterial), label="Insulation on the ceiling")
    depth_readings = LengthsField(
        label="Depths at five points", help_text="From the ceiling up: 100 95 110 100 105."
    )
    areas = AreasField(
        label="Areas that these depths stand for",
        help_text="One for each depth: 12 12 8 8 4. Empty is read as all alike.",
    )
    stays = PickField(("yes", "Stays"), ("no", "Comes out"), label="The old insulation")
    conductivity_w_mk = forms.DecimalField(
        label="Conductivity, W/mK", required=False, max_digits=4, decimal_places=3,
        help_text="Empty is read as 0.044.",
    )  # fmt: skip
    gaps_seen = WordsField("Gaps, squashed or wet places", lines=2)
    boarded_now = WordsField("Boards already there, and what lies under them", lines=2)
    hidden_percent = CountField(
        "Share hidden by boards or goods, per cent", at_most=100, help_text="Empty is read as 0."
    )

    def unmeasured(self) -> Iterator[str]:
        yield from super().unmeasured()
        readings = self.cleaned_data.get("depth_readings")
        if not self._is_bare() and readings and len(readings) < READINGS_FOR_A_MEAN:
            yield "depth_readings"

    def _is_bare(self) -> bool:
        return self.cleaned_data.get("material") in (None, "", InsulationMaterial.NONE)

    def gaps(self) -> Iterator[tuple[str, str]]:
        yield from super().gaps()
        if (
            not self._is_bare()
            and not self.cleaned_data.get("depth_readings")
            and "depth_readings" not in self.errors
        ):
            yield "depth_readings", "is missing: insulation needs at least one depth"
