"""The values of an edition's rows by name, to compare two editions, or a file and an edition."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from functools import cache
from typing import Any, get_args, get_type_hints

from django.core.exceptions import FieldDoesNotExist
from django.db.models import Model

from estimating.price_book import Product, Role
from estimating.ways_to_price import VatRounding
from jobs.price_books.dimensions import kind_of, label_of
from jobs.price_books.models import (
    Edition,
    EditionCharge,
    EditionConditionRate,
    EditionLabourRate,
    EditionProduct,
)

Value = str | int | bool | Decimal | date | None

EVERY_PRODUCT = (
    "code", "role", "description", "supplier", "supplier_code", "pack_cost", "pack_size", "weight_kg",
    "vat_class", "checked_on",
)  # fmt: skip
PRICING = (
    "hourly_cost", "margin_kind", "percent", "minimum_net", "round_to", "vat_registered", "vat_rounding",
    "least_margin_percent", "materials_percent", "hours_percent", "charges_percent",
)  # fmt: skip
_POUNDS = ("pack_cost", "amount", "hourly_cost", "minimum_net", "round_to")
_OTHERS: dict[type[Model], tuple[str, ...]] = {
    Edition: PRICING,
    EditionLabourRate: ("task", "hours", "unit"),
    EditionConditionRate: ("condition", "percent_longer"),
    EditionCharge: ("code", "description", "amount", "per", "always"),
}
_NOT_DIMENSIONS = {*get_type_hints(Product), "role"}


@cache
def dimensions_of(role: Role) -> dict[str, Any]:
    """Return the dimensions of a role with their types, in the core's order."""
    hints = get_type_hints(kind_of(role))
    return {name: hint for name, hint in hints.items() if name not in _NOT_DIMENSIONS}


def every_dimension() -> tuple[str, ...]:
    """Return the dimensions of all roles, each name once, in the order of the roles."""
    return tuple(dict.fromkeys(name for role in Role for name in dimensions_of(role)))


def product_values(row: EditionProduct) -> dict[str, Value]:
    """Return what a product is, each value as what it is: 18.4 and 18.40 are the same cost."""
    values: dict[str, Value] = {name: getattr(row, name) for name in EVERY_PRODUCT}
    for name, hint in dimensions_of(Role(row.role)).items():
        values[name] = _dimension(row, name, hint)
    return values


def _dimension(row: EditionProduct, name: str, hint: Any) -> Value:
    """Return one dimension; a row that is older than the dimension has what the core takes for it."""
    value = row.dimensions.get(name)
    if value is None:
        default = kind_of(Role(row.role)).__dataclass_fields__[name].default
        value = default if isinstance(default, str | int | Decimal) else None
    is_decimal = hint is Decimal or Decimal in get_args(hint)
    return Decimal(str(value)) if value is not None and is_decimal else value


def row_values(row: Model) -> dict[str, Value]:
    """Return what a rate, a charge or an edition's own pricing says."""
    return {name: getattr(row, name) for name in _OTHERS[type(row)]}


def value_label(name: str, model: type[Model] = EditionProduct) -> str:
    """Say what a value is, in the words of its box."""
    try:
        words = str(model._meta.get_field(name).verbose_name)
    except FieldDoesNotExist:
        words = label_of(name)
    return words[:1].upper() + words[1:]


def value_in_words(name: str, value: Value) -> str:
    """Say a value as a person reads it."""
    if value is None or value == "":
        return "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, date):
        return f"{value:%-d %b %Y}"
    if name in _POUNDS:
        return f"{value:.2f}"
    if name == "vat_rounding":
        return VatRounding(value).in_words
    return str(value)
