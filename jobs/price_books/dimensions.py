"""The boxes a product's role needs, read from the core's own records so that they are said once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import MISSING, fields
from decimal import Decimal
from enum import StrEnum
from functools import cache
from typing import Any, Literal, get_args, get_origin, get_type_hints

from django import forms

from estimating.price_book import AnyProduct, Product, Role

_COMMON = {field.name for field in fields(Product)} | {"role"}
_UNITS = {"_mm": ", mm", "_m2": ", m²", "_w_mk": ", W/mK"}
_WORDS = {
    "at_every_seam": "A pedestal under every seam, not by spacing alone",
    "ends": "End edges",
    "sides": "Long edges",
    "tg": "tongued and grooved",
    "square": "square",
    "floating_end_joints": "End joints may float between joists, as the board's own data say",
    "floating_source": "Data that let end joints float",
    "top_plate_mm": "Top plate across the joist, mm",
    "roll_width_mm": "Width of the roll as delivered, mm",
    "roll_diameter_mm": "Diameter of the roll as delivered, mm",
    "folded_length_mm": "Length of the ladder folded, mm",
}
_BOXES: dict[Any, type[forms.Field]] = {
    bool: forms.BooleanField,
    str: forms.CharField,
    int: forms.IntegerField,
    int | None: forms.IntegerField,
    Decimal: forms.DecimalField,
}
_MAY_BE_EMPTY = (bool, str, int | None)
_THROUGH_THE_HATCH = "For the way through the hatch. Leave it empty where it is not known: it is not checked."
_HELP = {
    "roll_width_mm": _THROUGH_THE_HATCH,
    "roll_diameter_mm": _THROUGH_THE_HATCH,
    "folded_length_mm": _THROUGH_THE_HATCH,
    "floating_source": "The maker's document, its date and the page.",
    "top_plate_mm": "Leave it empty where it is not known: ends then meet on the joist's centre line.",
}


@cache
def kind_of(role: Role) -> type[Product]:
    """Return the core's record for a role."""
    return next(kind for kind in get_args(AnyProduct) if role in _roles(kind))


@cache
def _hints(kind: type[Product]) -> dict[str, Any]:
    return get_type_hints(kind)


def _roles(kind: type[Product]) -> tuple[Role, ...]:
    return get_args(_hints(kind)["role"])


def dimension_fields(role: Role) -> Iterator[tuple[str, forms.Field]]:
    """Yield the name and the form field of every dimension that a role needs."""
    kind = kind_of(role)
    hints = _hints(kind)
    for field in fields(kind):
        if field.name not in _COMMON:
            initial = None if field.default is MISSING else field.default
            yield field.name, _form_field(field.name, hints[field.name], initial)


def _form_field(name: str, hint: Any, initial: Any) -> forms.Field:
    box: dict[str, Any] = {"label": label_of(name), "initial": initial, "help_text": _HELP.get(name, "")}
    if hint in _BOXES:
        return _BOXES[hint](required=hint not in _MAY_BE_EMPTY, **box)
    if get_origin(hint) is Literal:
        words = [(word, _WORDS.get(word, word)) for word in get_args(hint)]
    elif isinstance(hint, type) and issubclass(hint, StrEnum):
        words = [(word.value, word.value) for word in hint]
    else:
        raise TypeError(f"no box is known for {name}, {hint}")
    return forms.ChoiceField(choices=words, **box)


def label_of(name: str) -> str:
    """Say a dimension's name in words with its unit: cover_length_mm is "Cover length, mm"."""
    if name in _WORDS:
        return _WORDS[name]
    for ending, unit in _UNITS.items():
        if name.endswith(ending):
            return name.removesuffix(ending).replace("_", " ").capitalize() + unit
    return name.replace("_", " ").capitalize()


def dimensions_in_words(dimensions: dict[str, Any]) -> str:
    """Say a product's dimensions on one line, each unit behind its number."""
    return " · ".join(
        _dimension_in_words(name, value)
        for name, value in dimensions.items()
        if not isinstance(value, bool) and value not in (None, "")
    )


def _dimension_in_words(name: str, value: Any) -> str:
    label, _, unit = label_of(name).partition(", ")
    return f"{label[:1].lower()}{label[1:]} {_WORDS.get(str(value), value)} {unit}".rstrip()
