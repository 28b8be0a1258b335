"""Cables, pipes, flues and moisture."""

from __future__ import annotations

from jobs.surveys.forms.fields import CountField, PickField, WordsField
from jobs.surveys.forms.section import SectionForm


class ServicesForm(SectionForm):
    needed = ("downlights",)
    groups = (
        ("Electrical", ("downlights", "downlight_words", "cables", "inverter")),
        ("Water, gas and air", ("tanks", "flue", "extract_fans", "aerials")),
        ("Moisture", ("condensation", "eaves_vents")),
    )

    downlights = CountField("Recessed lights below the loft", help_text="0 if there are none.")
    downlight_words = WordsField("Recessed lights: marking, rating, drivers")
    cables = WordsField("Cables: sizes, circuits, junction boxes", lines=2)
    inverter = WordsField("Solar inverter, aerial amplifier or other equipment")
    tanks = WordsField("Tanks and pipes", lines=2)
    flue = WordsField("Boiler or flue")
    extract_fans = PickField(
        ("outside", "Blow outside"), ("loft", "Blow into the loft"), ("none", "None"), label="Extract fans"
    )
    aerials = WordsField("Aerials and ducts")
    condensation = WordsField("Condensation, mould or stains", lines=2)
    eaves_vents = WordsField("Eaves and ridge vents")
