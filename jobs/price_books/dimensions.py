"""The boxes a product's role needs, read from the core's own records so that they are said once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import MISSING, fields
from decimal import Decimal
from enum import StrEnum
from typing import Any, Literal, get_args, get_origin, get_type_hints

from django import forms

from estimating import price_book
from estimating.price_book import Product, Role

_COMMON = {field.name for field in fields(Product)} | {"role"}
_UNITS = {"_mm": ", mm", "_m2": ", m²", "_w_mk": ", W/mK"}
_WORDS = {
    "at_every_seam": "A pedestal under every seam, not by spacing alone",
    "ends": "End edges",
    "sides": "Long edges",
    "tg": "tongued and grooved",
    "square": "square",
}


def kind_of(role: Role) -> type[Product]:
    """Return the core's record for a role."""
    return next(kind for kind in get_args(price_book.AnyProduct) if role in _roles(kind))


def _roles(kind: type[Product]) -> tuple[Role, ...]:
    return get_args(get_type_hints(kind)["role"])


def dimension_fields(role: Role) -> Iterator[tuple[str, forms.Field]]:
    """Yield the name and the form field of every dimension that a role needs."""
    kind = kind_of(role)
    hints = get_type_hints(kind)
    for field in fields(kind):
        if field.name not in _COMMON:
            initial = None if field.default is MISSING else field.default
            yield field.name, _form_field(field.name, hints[field.name], initial)


def _form_field(name: str, hint: Any, initial: Any) -> forms.Field:
    label = label_of(name)
    if hint is bool:
        return forms.BooleanField(label=label, required=False, initial=initial)
    if get_origin(hint) is Literal:
        words = [(word, _WORDS.get(word, word)) for word in get_args(hint)]
        return forms.ChoiceField(label=label, choices=words, initial=initial)
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        return forms.ChoiceField(
            label=label, choices=[(word.value, word.value) for word in hint], initial=initial
        )
    if hint is Decimal:
        return forms.DecimalField(label=label, initial=initial)
    if hint is int:
        return forms.IntegerField(label=label, initial=initial)
    raise TypeError(f"no box is known for {name}, {hint}")


def label_of(name: str) -> str:
    """Say a dimension's name in words with its unit: cover_length_mm is "Cover length, mm"."""
    if name in _WORDS:
        return _WORDS[name]
    for ending, unit in _UNITS.items():
        if name.endswith(ending):
            return name.removesuffix(ending).replace("_", " ").capitalize() + unit
    return name.replace("_", " ").capitalize()


def dimensions_in_words(role: str, dimensions: dict[str, Any]) -> str:
    """Say a product's dimensions on one line."""
    named = [(label_of(name), value) for name, value in dimensions.items() if not isinstance(value, bool)]
    return " · ".join(f"{label.lower()} {_WORDS.get(str(value), value)}" for label, value in named)
