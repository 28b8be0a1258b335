"""The sections that are plain lists of questions. Every answer may wait; `needed` says what a price needs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, ClassVar, Protocol

from django import forms

from estimating.choices import RaiseWith
from estimating.survey import InsulationMaterial, RoofKind, Underlay
from jobs.forms import SheetForm, SheetModelForm
from jobs.surveys.lengths import LengthField, LengthsField, TypedField
from jobs.surveys.models import Clearance

YES_NO = (("yes", "Yes"), ("no", "No"))
YES_NO_UNSEEN = (*YES_NO, ("not seen", "Could not be seen"))
OFFERED = (("no", "No"), ("in", "In the price"), ("option", "As an option"))


class PickField(forms.ChoiceField):
    """One of a few, as big buttons; none picked is a gap."""

    def __init__(self, *choices: tuple[str, str], **kwargs: Any) -> None:
        super().__init__(choices=choices, required=False, widget=forms.RadioSelect, **kwargs)


class WordsField(forms.CharField):
    def __init__(self, label: str, *, lines: int = 1, **kwargs: Any) -> None:
        widget = forms.Textarea(attrs={"rows": lines}) if lines > 1 else forms.TextInput()
        super().__init__(label=label, required=False, max_length=2000, widget=widget, **kwargs)


class CountField(forms.IntegerField):
    def __init__(self, label: str, **kwargs: Any) -> None:
        super().__init__(label=label, required=False, min_value=0, max_value=500, **kwargs)


def words_of(kind: type) -> tuple[tuple[str, str], ...]:
    """Return the words of one of the core's kinds as choices."""
    return tuple((each.value, each.value[:1].upper() + each.value[1:]) for each in kind)


class SectionForm(SheetForm):
    """One section, bound to what was typed: from the page just sent, or from the survey's answers."""

    needed: ClassVar[tuple[str, ...]] = ()
    groups: ClassVar[tuple[tuple[str, tuple[str, ...]], ...]] = ()
    folded: ClassVar[frozenset[str]] = frozenset()

    def __init__(self, typed: Mapping[str, Any]) -> None:
        super().__init__(data=typed)
        for name in self.needed:
            self.fields[name].needed = True

    def gaps(self) -> Iterator[tuple[str, str]]:
        """Yield (name of the field, what it must be) for all that a price still needs from this section."""
        for name, errors in self.errors.items():
            yield name, lower_first(errors[0])
        for name in self.needed:
            if name not in self.errors and self.cleaned_data.get(name) in (None, ""):
                yield name, "is missing"

    @classmethod
    def takes(cls, name: str) -> bool:
        """Tell whether an answer of that name belongs to this section."""
        return name in cls.base_fields

    def label_of(self, name: str) -> str:
        """Return the words beside a field."""
        return str(self.fields[name].label) if name in self.fields else name

    def unread(self) -> list[tuple[forms.BoundField | None, str]]:
        """Return what cannot be read, each with its field, for the summary at the top."""
        return [
            (self[name] if name in self.fields else None, error)
            for name, errors in self.errors.items()
            for error in errors
        ]

    def typed_fields(self) -> Iterator[forms.BoundField]:
        """Yield the fields whose reading is told beside them."""
        yield from (field for field in self if isinstance(field.field, TypedField))

    def grouped(self) -> Iterator[Group]:
        yield from groups_of(self)


@dataclass(frozen=True, slots=True)
class Group:
    """Fields that are asked together; `is_folded` while they are seldom wanted and nothing stands in them."""

    title: str
    fields: list[forms.BoundField]
    is_folded: bool


class Grouped(Protocol):
    """A form that says how its fields are grouped."""

    groups: ClassVar[tuple[tuple[str, tuple[str, ...]], ...]]
    folded: ClassVar[frozenset[str]]

    def __getitem__(self, name: str) -> forms.BoundField: ...


def groups_of(form: Grouped) -> Iterator[Group]:
    """Yield a form's fields in their groups."""
    for title, names in form.groups:
        fields = [form[name] for name in names]
        is_empty = not any(field.value() or field.errors for field in fields)
        yield Group(title, fields, title in form.folded and is_empty)


def lower_first(words: str) -> str:
    return words[:1].lower() + words[1:]


class ArriveForm(SectionForm):
    needed = ("hatch_long", "hatch_short", "floor_to_ceiling")
    groups = (
        ("The hatch", ("hatch_long", "hatch_short", "floor_to_ceiling", "lining_depth", "over_stairs",
                       "hatch_insulated", "hatch_draught_stripped", "hatch_now")),
        ("The house", ("building", "storeys", "built_year", "listed", "tenure")),
        ("Getting in", ("present", "long_carry", "access")),
    )  # fmt: skip

    hatch_long = LengthField(label="Hatch clear opening, long side")
    hatch_short = LengthField(label="Hatch clear opening, short side")
    floor_to_ceiling = LengthField(label="Floor below to ceiling")
    lining_depth = LengthField(label="Depth of the hatch lining", help_text="Empty is read as 150 mm.")
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


class WishesForm(SectionForm):
    groups = (
        ("To be stored", ("to_store", "stored_goods")),
        ("The deck", ("raise_with", "gap", "edge_trim")),
        ("Insulation", ("insulation", "open_loft", "downlight_covers")),
        ("Way up and light", ("hatch", "ladder", "draught_strip", "light", "lights", "light_words")),
        ("Shelves", ("shelves", "shelf_bays")),
    )

    to_store = WordsField("What will be stored, and how heavy", lines=2)
    stored_goods = WordsField("Stored goods to be cleared first")
    raise_with = PickField(*words_of(RaiseWith), label="Deck raised with")
    gap = LengthField(label="Gap above the insulation", help_text="Empty takes the firm's own gap.")
    edge_trim = PickField(*OFFERED, label="Edge trim")
    insulation = PickField(*OFFERED, label="Insulation under the deck")
    open_loft = PickField(*YES_NO, label="Insulate the open loft as well")
    downlight_covers = PickField(*OFFERED, label="Covers over recessed lights")
    hatch = PickField(*OFFERED, label="New hatch")
    ladder = PickField(*OFFERED, label="Loft ladder")
    draught_strip = PickField(*OFFERED, label="Insulate and draught-strip the hatch")
    light = PickField(*OFFERED, label="Light")
    lights = CountField("How many lights")
    light_words = WordsField("Switch place, socket, hand rail")
    shelves = PickField(*OFFERED, label="Shelves between trusses")
    shelf_bays = CountField("Bays to be shelved")


class DayForm(SheetForm):
    """The day of a visit that was measured on paper and typed in later."""

    visited_on = forms.DateField(label="Day of the visit")


class ClearanceForm(SheetModelForm):
    class Meta:
        model = Clearance
        fields = ("cleared_by", "qualification", "document", "dated")
