from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields as fields_of
from datetime import date
from decimal import Decimal
from typing import Any

from django import forms

from estimating.json_records import read_record
from estimating.price.likely_vat_class import likely_vat_class
from estimating.price.vat import CONFIRM
from estimating.price_book import PriceBook, PricingRules, Role
from estimating.refusals import Refusal
from estimating.ways_to_price import MarginKind, VatRounding
from jobs.forms import SheetForm, SheetModelForm, settle_fields
from jobs.price_books.dimensions import dimension_fields, kind_of
from jobs.price_books.models import (
    Edition,
    EditionCharge,
    EditionConditionRate,
    EditionLabourRate,
    EditionProduct,
)


class EditionForm(SheetModelForm):
    """How an edition prices."""

    class Meta:
        model = Edition
        fields = (
            "name",
            "dated",
            "hourly_cost",
            "margin_kind",
            "percent",
            "materials_percent",
            "hours_percent",
            "charges_percent",
            "minimum_net",
            "round_to",
            "vat_registered",
            "vat_rounding",
            "least_margin_percent",
        )
        labels = {"dated": "In use from"}  # noqa: RUF012 - Django's own form of it
        help_texts = {  # noqa: RUF012 - Django's own form of it
            "vat_registered": "Registered: costs are typed without VAT. Not registered: with the VAT that "
            "you pay and cannot have back."
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["vat_rounding"].choices = [(method.value, method.in_words) for method in VatRounding]
        self.fields["least_margin_percent"].required = False

        if self.instance.pk and self.instance.told_the_other_way:
            percent = self.instance.percent.normalize()
            self.fields["percent"].help_text = f"{percent:f} % is {self.instance.told_the_other_way}."

    def clean_least_margin_percent(self) -> Decimal:
        """An empty box is no floor."""
        return self.cleaned_data["least_margin_percent"] or Decimal(0)

    def clean(self) -> dict[str, Any]:
        """Let the core judge each value that could be read, so that closing has nothing new to refuse."""
        cleaned: dict[str, Any] = super().clean() or self.cleaned_data
        for refusal in _refusals_of_pricing(cleaned):
            _refuse(self, refusal)
        return cleaned


def _refusals_of_pricing(cleaned: dict[str, Any]) -> Iterator[Refusal]:
    """Yield what the core refuses of how an edition prices; what could not be read was refused already."""
    rules = {each.name: cleaned[each.name] for each in fields_of(PricingRules) if each.name in cleaned}
    if "margin_kind" in rules:
        rules["margin_kind"] = MarginKind(rules["margin_kind"])
    if "vat_rounding" in rules:
        rules["vat_rounding"] = VatRounding(rules["vat_rounding"])
    try:
        PricingRules(**rules)
    except Refusal as refused:
        yield from refused.each
    if "hourly_cost" in cleaned:
        try:
            PriceBook(
                firm="",
                edition="unread",
                dated=date.min,
                products=(),
                hourly_cost=cleaned["hourly_cost"],
                labour_rates=(),
            )
        except Refusal as refused:
            yield from refused.each


def _refuse(form: forms.BaseForm, refusal: Refusal) -> None:
    """Say a refusal of the core at its box and in the box's words, unless the box is refused already."""
    field = refusal.field if refusal.field in form.fields else None
    if field not in form.errors:
        label = form.fields[field].label if field else refusal.field
        form.add_error(field, f"{label} {refusal.requirement}.")


class CopyForm(SheetForm):
    name = forms.CharField(label="Name of the next edition", max_length=60)
    dated = forms.DateField(label="In use from")

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        if Edition.objects.filter(name=name).exists():
            raise forms.ValidationError(f"There is already an edition called {name}: choose another name.")
        return name


class ProductForm(SheetModelForm):
    """One product, with the dimensions that its role needs."""

    class Meta:
        model = EditionProduct
        fields = (
            "code",
            "description",
            "supplier",
            "supplier_code",
            "pack_cost",
            "pack_size",
            "weight_kg",
            "vat_class",
            "checked_on",
        )

    def __init__(self, *args: Any, edition: Edition, role: Role, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.instance.edition, self.instance.role = edition, role.value
        self.role = role
        self.dimension_names = []
        for name, field in dimension_fields(role):
            self.fields[name] = field
            self.dimension_names.append(name)
            if name in self.instance.dimensions:
                self.initial[name] = self.instance.dimensions[name]
        settle_fields(self)

    def hint_at_vat_class(self) -> None:
        """Say what the description makes likely, where another class stands in the box."""
        description = str(self["description"].value() or "")
        likely = likely_vat_class(description)
        if description.strip() and likely != self["vat_class"].value():
            self["vat_class"].help_text = f"By its description likely {likely}. {CONFIRM}"

    @property
    def dimension_boxes(self) -> list[forms.BoundField]:
        return [self[name] for name in self.dimension_names]

    def clean_code(self) -> str:
        code: str = self.cleaned_data["code"]
        twins = self.instance.edition.products.filter(code=code).exclude(pk=self.instance.pk)
        if twins.exists():
            raise forms.ValidationError(f"Code {code} is used in this edition already: choose another.")
        return code

    def clean(self) -> dict[str, Any]:
        cleaned: dict[str, Any] = super().clean() or self.cleaned_data
        self.instance.dimensions = {
            name: _plain(cleaned[name]) for name in self.dimension_names if name in cleaned
        }
        self._ask_core(cleaned)
        return cleaned

    def _ask_core(self, cleaned: dict[str, Any]) -> None:
        """Let the core judge what could be read, so that all that is wrong is told at once.

        What could not be read is stood in for, and was refused already.
        """
        names = (*self.Meta.fields, *self.dimension_names)
        given = {
            name: _plain(cleaned[name]) if name in cleaned else _stand_in(self.fields[name]) for name in names
        }
        try:
            read_record(kind_of(self.role), {"role": self.role.value, **given})
        except Refusal as refused:
            for each in refused.each:
                _refuse(self, each)


def _stand_in(field: forms.Field) -> Any:
    """Return some value that a box could hold."""
    if isinstance(field, forms.ChoiceField):
        return field.choices[0][0]
    if isinstance(field, forms.DecimalField):
        return "1"
    if isinstance(field, forms.IntegerField):
        return 1
    if isinstance(field, forms.DateField):
        return None
    return False if isinstance(field, forms.BooleanField) else "unread"


def _plain(value: Any) -> Any:
    """Return a value as the JSON form writes it."""
    if isinstance(value, Decimal):
        return str(value)
    return value.isoformat() if hasattr(value, "isoformat") else value


class LabourRateForm(SheetModelForm):
    class Meta:
        model = EditionLabourRate
        fields = ("task", "hours", "unit")


class ConditionRateForm(SheetModelForm):
    class Meta:
        model = EditionConditionRate
        fields = ("condition", "percent_longer")


class ChargeForm(SheetModelForm):
    class Meta:
        model = EditionCharge
        fields = ("code", "description", "amount", "per", "always")


ROW_FORMS = {"labour": LabourRateForm, "condition": ConditionRateForm, "charge": ChargeForm}
