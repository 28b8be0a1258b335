"""What a draft offers, as the office fills it in."""

from __future__ import annotations

import secrets
from typing import Any

from django import forms

from estimating.choices import Choices, Part, RaiseWith
from estimating.price_book import Condition
from estimating.refusals import Refusal, Requirements
from jobs.forms import SheetForm, settle_fields
from jobs.quotes.alternatives import alternatives_of
from jobs.quotes.drafts.box_groups import BoxGroup
from jobs.quotes.drafts.part_boxes import OFFERABLE, part_box, part_field
from jobs.quotes.drafts.piece_boxes import PieceBoxes
from jobs.quotes.drafts.price_boxes import PriceBoxes
from jobs.quotes.models import Revision
from jobs.store.at_hand import rows_at_hand
from jobs.surveys.as_measured import deck_zones_of, wished_parts

_WHOLES = {"vat_classes": "VAT classes", "stages": "Payments before the rest", "discounts": "Discounts"}


class ChoicesForm(SheetForm):
    """What a draft offers: one way to do the job, and what the customer may take or leave.

    `page` marks the page that shows the form, and `after` the one that had changed the draft last before.
    """

    raise_with = forms.ChoiceField(
        label="Raise the deck with", choices=[(way.value, way.value.capitalize()) for way in RaiseWith]
    )
    board_code = forms.ChoiceField(label="Board", required=False)
    target_u_w_m2k = forms.DecimalField(label="Target U-value, W/m²K", decimal_places=2)
    gap_mm = forms.IntegerField(label="Gap above insulation, mm")
    insulate_open_loft = forms.BooleanField(label="Top up the open loft too", required=False)
    fewer_joists = forms.BooleanField(
        label="Leave joists out where the boards reach over them",
        required=False,
        help_text="Fewer pedestals, and more on each joist that carries: ask whoever answers for the joists.",
    )
    left_out_zones = forms.MultipleChoiceField(
        label="Zones left open, not decked", required=False, widget=forms.CheckboxSelectMultiple
    )
    use_store = forms.BooleanField(label="Use what is in the store", required=False)
    lights = forms.IntegerField(label="Lights")
    shelf_bays = forms.IntegerField(label="Shelves, bays between trusses")
    conditions = forms.MultipleChoiceField(
        label="What makes the work slower",
        choices=[(condition.value, condition.value.capitalize()) for condition in Condition],
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )
    miles = forms.DecimalField(label="Miles to drive")
    charge_codes = forms.MultipleChoiceField(
        label="Charges for this job", required=False, widget=forms.CheckboxSelectMultiple
    )
    hatch_cut_with_insulation = forms.BooleanField(
        label="The hatch is cut together with the insulation", required=False
    )
    hatch_reason = forms.CharField(
        label="Why the hatch follows the insulation's VAT rate", required=False, max_length=300
    )
    tax_point = forms.DateField(label="Work expected to be complete on")
    introduction = forms.CharField(
        label="Opening words for the customer", required=False, widget=forms.Textarea(attrs={"rows": 3})
    )

    def __init__(
        self,
        *args: Any,
        revision: Revision,
        alternative: int = 0,
        may_choose_vat_class: bool = False,
        typing: bool = False,
        **kwargs: Any,
    ) -> None:
        self.revision = revision
        self.stored = alternatives_of(revision)[alternative].choices
        kwargs["initial"] = {
            **_initial(self.stored),
            "introduction": revision.introduction,
            "use_store": revision.use_store,
        }
        super().__init__(*args, **kwargs)
        sent = (
            self.data if self.is_bound else {"page": secrets.token_hex(8), "after": revision.changed_on_page}
        )
        self.page: str = sent.get("page", "")[:16]
        self.after: str = sent.get("after", "")
        boards = revision.edition.products.filter(role="board")
        self.fields["board_code"].choices = [
            ("", "The cheapest that suits"),
            *((board.code, board.description) for board in boards),
        ]
        charges = revision.edition.charges.filter(always=False)
        self.fields["charge_codes"].choices = [(charge.code, charge.description) for charge in charges]
        zones = deck_zones_of(revision.quote.survey)
        self.fields["left_out_zones"].choices = [(name, name) for name in zones]
        wished = wished_parts(revision.quote.survey)
        for part in OFFERABLE:
            self.fields[part_field(part)] = part_box(self.stored, part, wished=part in wished)
        self._pieces = PieceBoxes(revision, self.stored, wished=wished)
        self.fields |= self._pieces.fields()
        self._price = PriceBoxes(
            revision,
            self.stored,
            may_choose_vat_class=may_choose_vat_class,
            sent=self.data,
            typing=typing,
        )
        self.fields |= self._price.fields()
        settle_fields(self)

    @property
    def has_store(self) -> bool:
        """Whether there is anything to use, or was when it was ticked."""
        return self.revision.use_store or rows_at_hand().exists()

    @property
    def has_several_zones(self) -> bool:
        """Whether the deck can be offered in more than one size."""
        return len(self.fields["left_out_zones"].choices) > 1

    @property
    def part_fields(self) -> list[forms.BoundField]:
        """The fields that say how each part is offered."""
        return [self[part_field(part)] for part in OFFERABLE]

    @property
    def piece_groups(self) -> list[BoxGroup]:
        """The boxes for walkways and other items, where the edition has any."""
        return self._pieces.groups(self)

    @property
    def waiting(self) -> list[str]:
        """The rows that are half filled while somebody types, and do not count yet."""
        return self._price.waiting

    @property
    def price_groups(self) -> list[BoxGroup]:
        """The boxes about the price, in groups."""
        return self._price.groups(self)

    def clean(self) -> dict[str, Any]:
        """Read the boxes together; one that cannot be read counts as stored, so that all is told at once."""
        cleaned: dict[str, Any] = super().clean() or self.cleaned_data
        unread = set(self.errors)
        stored = {name: self.initial.get(name, self.fields[name].initial) for name in unread & self._alone}
        try:
            self.choices = self._read(stored | cleaned)
        except Refusal as refused:
            for each in refused.each:
                field = each.field if each.field in self.fields else None
                if field not in unread:
                    label = self.fields[field].label if field else _WHOLES.get(each.field, each.field)
                    self.add_error(field, f"{label} {each.requirement}.")
        return cleaned

    @property
    def _alone(self) -> set[str]:
        """The boxes that say something by themselves, not as one of a row."""
        return {*self.base_fields, *map(part_field, Part)}

    def _read(self, asked: dict[str, Any]) -> Choices:
        needs = Requirements()
        how = {part: asked[part_field(part)] for part in OFFERABLE}
        how_pieces, pieces = self._pieces.read(needs, asked)
        how |= how_pieces
        price = self._price.read(needs, asked)
        plain = {
            name: asked[name]
            for name in (
                "target_u_w_m2k", "gap_mm", "insulate_open_loft", "fewer_joists", "lights", "shelf_bays",
                "miles", "hatch_cut_with_insulation", "hatch_reason", "tax_point",
            )
        }  # fmt: skip
        try:
            choices = Choices(
                raise_with=RaiseWith(asked["raise_with"]),
                board_code=asked["board_code"] or None,
                parts=frozenset(part for part in how if how[part] != "no"),
                optional_parts=frozenset(part for part in how if how[part] in ("option", "taken")),
                taken_parts=frozenset(part for part in how if how[part] == "taken"),
                conditions=frozenset(Condition(each) for each in asked["conditions"]),
                charge_codes=frozenset(asked["charge_codes"]),
                left_out_zones=frozenset(asked["left_out_zones"]),
                supply_mode=self.stored.supply_mode,
                insulation_waste_percent=self.stored.insulation_waste_percent,
                perimeter_gap=self.stored.perimeter_gap,
                target_source=self._target_source(asked),
                least_headroom_mm=self.stored.least_headroom_mm,
                roof_space=self.stored.roof_space,
                energy_price_pence_kwh=self.stored.energy_price_pence_kwh,
                pieces=pieces,
                **plain,
                **price,
            )
        except Refusal as refused:
            needs.note(refused)
        needs.settle()
        return choices

    def _target_source(self, asked: dict[str, Any]) -> str:
        """Say where the target comes from: one typed here is no longer the nation's."""
        as_before = asked["target_u_w_m2k"] == self.stored.target_u_w_m2k
        return self.stored.target_source if as_before else "chosen for this quote"


def name_on_page(field: str) -> str | None:
    """Return what the draft's page calls a field of the core's choices, if it asks for it."""
    box = ChoicesForm.base_fields.get(field)
    return box.label if box else _WHOLES.get(field)


def _initial(choices: Choices) -> dict[str, Any]:
    initial = {name: getattr(choices, name) for name in ChoicesForm.base_fields if hasattr(choices, name)}
    initial["raise_with"] = choices.raise_with.value
    initial["board_code"] = choices.board_code or ""
    initial["conditions"] = [each.value for each in choices.conditions]
    initial["charge_codes"] = sorted(choices.charge_codes)
    initial["left_out_zones"] = sorted(choices.left_out_zones)
    return initial


class AlternativeForm(SheetForm):
    """Another way to do the job: its name, and which one it begins as a copy of."""

    name = forms.CharField(label="Name of the alternative", max_length=60)
    copy_of = forms.TypedChoiceField(label="Begins as a copy of", coerce=int)

    def __init__(self, *args: Any, revision: Revision, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["copy_of"].choices = [(each.number, each.shown) for each in alternatives_of(revision)]


class AlternativeNameForm(SheetForm):
    """The name by which the customer picks an alternative."""

    name = forms.CharField(label="Name of the alternative", max_length=60)
