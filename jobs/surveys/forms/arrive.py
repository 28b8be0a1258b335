"""The first questions, asked at the door and under the hatch."""

from __future__ import annotations

from django import forms

from jobs.surveys.forms.fields import YES_NO, CountField, PickField, WordsField
from jobs.surveys.forms.section import SectionForm
from jobs.surveys.typed.lengths import LengthField


class ArriveForm(SectionForm):
    needed = ("hatch_long", "hatch_short", "floor_to_ceiling")
    checked = ("lining_depth", "clear_floor", "headroom_above")
    groups = (
        ("The hatch", ("hatch_long", "hatch_short", "floor_to_ceiling", "lining_depth", "clear_floor",
                       "headroom_above", "over_stairs", "hatch_insulated", "hatch_draught_stripped",
                       "hatch_now")),
        ("The house", ("building", "storeys", "built_year", "listed", "tenure")),
        ("Getting in", ("present", "long_carry", "access")),
    )  # fmt: skip

    hatch_long = LengthField(label="Hatch clear opening, long side")
    hatch_short = LengthField(label="Hatch clear opening, short side")
    floor_to_ceiling = LengthField(label="Floor below to ceiling")
    lining_depth = LengthField(label="Depth of the hatch lining", help_text="Empty is read as 150 mm.")
    clear_floor = LengthField(
        label="Clear floor below the hatch",
        help_text="From under the hatch to the wall or rail, the way a board is tilted. Empty is read as "
        "not in the way.",
    )
    headroom_above = LengthField(
        label="Headroom above the hatch",
        help_text="From the top of the joists to the roof. Empty is worked out from the roof's pitch.",
    )
    over_stairs = PickField(*YES_NO, label="Hatch over the stairs")
    hatch_insulated = PickField(*YES_NO, label="Hatch insulated now")
    hatch_draught_stripped = PickField(*YES_NO, label="Hatch draught-stripped now")
    hatch_now = WordsField("Hatch and ladder as found", help_text="Hinged or push-up, ladder, landing swing.")
    building = PickField(
        ("detached", "Detached"), ("semi-detached", "Semi-detached"), ("terraced", "Terraced"),
        ("bungalow", "Bungalow"), ("flat", "Flat"), label="Kind of building",
    )  # fmt: skip
    storeys = CountField("Storeys")
    built_year = forms.IntegerField(label="Year built, about", required=False, min_value=1000, max_value=2100)
    listed = PickField(*YES_NO, ("not known", "Not known"), label="Listed, or in a conservation area")
    tenure = PickField(("owner", "Owner"), ("tenant", "Tenant"), label="The customer is")
    present = WordsField("Who was present")
    long_carry = PickField(*YES_NO, label="Long carry from the van")
    access = WordsField("Parking, permit, skip place, working hours", lines=3)
