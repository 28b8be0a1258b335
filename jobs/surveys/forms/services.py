"""Cables, pipes, flues and moisture."""

from __future__ import annotations

from django import forms

from estimating.published.sap_climate import CLIMATE_REGIONS
from estimating.published.sap_fuels import FUELS
from jobs.surveys.forms.fields import CountField, PickField, WordsField
from jobs.surveys.forms.section import SectionForm
from jobs.surveys.typed.measures import CablesField

USUAL_EFFICIENCY_PERCENT = {
    "mains gas": 85, "heating oil": 85, "bulk LPG": 85, "electricity": 100, "wood logs": 65,
    "wood pellets, bulk": 75, "house coal": 55,
}  # fmt: skip
"""Of a boiler or stove of middling age, electricity in heaters and not in a heat pump: common practice, no
source."""


class ServicesForm(SectionForm):
    needed = ("downlights",)
    checked = ("heating_fuel", "heating_efficiency")
    groups = (
        ("Heating", ("heating_fuel", "heating_efficiency", "climate_region")),
        ("Electrical", ("downlights", "downlight_words", "cables", "covered_cables", "inverter")),
        ("Water, gas and air", ("tanks", "flue", "extract_fans", "aerials")),
        ("Moisture", ("condensation", "eaves_vents")),
    )

    heating_fuel = PickField(*((name, name[:1].upper() + name[1:]) for name in FUELS), label="Heated with")
    heating_efficiency = forms.DecimalField(
        label="Efficiency, per cent", required=False, max_digits=4, decimal_places=1,
        help_text="Useful heat out of the fuel; a heat pump about 280. Empty is read as the usual one: "
        + ", ".join(f"{fuel} {percent}" for fuel, percent in USUAL_EFFICIENCY_PERCENT.items()) + ".",
    )  # fmt: skip
    climate_region = forms.ChoiceField(
        label="Climate", required=False, help_text="Empty follows the postcode, and is "
        "read as the country's average where that is not known.",
        choices=[("", "By the postcode"),
                 *((str(number), region.name) for number, region in CLIMATE_REGIONS.items())],
    )  # fmt: skip
    downlights = CountField("Recessed lights below the loft", help_text="0 if there are none.")
    downlight_words = WordsField("Recessed lights: marking, rating, drivers")
    cables = WordsField("Cables: sizes, circuits, junction boxes", lines=2)
    covered_cables = CablesField(
        label="Cables that insulation would cover",
        help_text="One on a line: size, fuse or breaker, length covered, circuit: 2.5, 20 A, 400 mm cooker.",
        widget=forms.Textarea(attrs={"rows": 2}),
    )
    inverter = WordsField("Solar inverter, aerial amplifier or other equipment")
    tanks = WordsField("Tanks and pipes", lines=2)
    flue = WordsField("Boiler or flue")
    extract_fans = PickField(
        ("outside", "Blow outside"), ("loft", "Blow into the loft"), ("none", "None"), label="Extract fans"
    )
    aerials = WordsField("Aerials and ducts")
    condensation = WordsField("Condensation, mould or stains", lines=2)
    eaves_vents = WordsField("Eaves and ridge vents")
