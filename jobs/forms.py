"""The manners of every form: nothing typed is lost, and every message names its label."""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation
from functools import partial
from typing import Any

from django import forms
from django.http import HttpRequest


class SheetForm(forms.Form):
    """A plain form whose errors are shown by the page, not by the browser's own bubbles."""

    use_required_attribute = False

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        settle_fields(self)


class SheetModelForm(forms.ModelForm):
    """The same manners over a record."""

    use_required_attribute = False

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        settle_fields(self)


LIMITS = {
    "max_length": "must not be longer than %(limit_value)d characters.",
    "min_value": "must be at least %(limit_value)s.",
    "max_value": "must be at most %(limit_value)s.",
    "max_decimal_places": "must not have more than %(max)s decimal places.",
    "max_digits": "must not have more than %(max)s digits.",
    "max_whole_digits": "must not have more than %(max)s digits before the point.",
}
"""What a field's own limits say when they are passed, after its label."""

_POUNDS = re.compile(r"([-+]?)\s*£\s*")
_PER_CENT = re.compile(r"\s*%$")
_GROUPED = re.compile(r"[-+]?[1-9]\d{0,2}([,\s])\d{3}(\1\d{3})*(\.\d+)?")


def settle_fields(form: forms.BaseForm) -> None:
    """Give every field a text box with the right keypad, and a message that names the field."""
    for name, field in form.fields.items():
        label = (field.label or name.replace("_", " ")).strip()
        label = label[:1].upper() + label[1:]
        field.label = label
        field.error_messages["required"] = f"{label} is missing."
        for code, words in LIMITS.items():
            field.error_messages.setdefault(code, f"{label} {words}")
        if isinstance(field, forms.DecimalField | forms.IntegerField):
            # Browsers lose what was typed in a number box that they cannot read; a text box keeps it.
            keypad = "decimal" if isinstance(field, forms.DecimalField) else "numeric"
            field.widget = forms.TextInput(attrs={"inputmode": keypad, **field.widget.attrs})
            field.widget.is_required = field.required
            for attribute in ("step", "min", "max"):
                field.widget.attrs.pop(attribute, None)
            field.error_messages["invalid"] = f"{label} must be a number."
            field.to_python = partial(_read_number, field)
        elif isinstance(field, forms.DateField):
            field.widget = forms.DateInput(format="%Y-%m-%d", attrs={"type": "date", **field.widget.attrs})
            field.error_messages["invalid"] = f"{label} must be a date such as 25/11/2026."
            field.input_formats = ["%Y-%m-%d", "%d/%m/%Y", "%d.%m.%Y"]


def _read_number(field: forms.DecimalField | forms.IntegerField, typed: Any) -> Any:
    """Read a number box; what was typed stays in the box as it was typed."""
    label = str(field.label)
    plain = plain_number(typed, label=label) if isinstance(typed, str) else typed
    try:
        return type(field).to_python(field, plain)
    except forms.ValidationError:
        if isinstance(field, forms.IntegerField) and _is_number(plain):
            words = f"{label} must be a whole number."
            raise forms.ValidationError(words, code="invalid") from None
        raise


def plain_number(typed: str, *, label: str = "") -> str:
    """Read £1,234.50 as 1234.50 and 5 % as 5; a sign that the label contradicts is left, to be refused.

    Commas and spaces part thousands and nothing else: 20,5 and 0,500 are left as well.
    """
    bare = typed.strip().replace("\u2212", "-")
    if "per cent" not in label.casefold() and (pounds := _POUNDS.match(bare)):
        bare = pounds[1] + bare[pounds.end() :]
    if "£" not in label:
        bare = _PER_CENT.sub("", bare)
    return re.sub(r"[,\s]", "", bare) if _GROUPED.fullmatch(bare) else bare


def _is_number(plain: Any) -> bool:
    try:
        return Decimal(str(plain)).is_finite()
    except InvalidOperation:
        return False


def status_of(form: forms.BaseForm) -> int:
    """Return the status to answer a form with: 422 when it was sent and cannot be taken."""
    return 422 if form.is_bound and not form.is_valid() else 200


def sent(request: HttpRequest) -> dict[str, Any] | None:
    """Return what was sent, or None for a page that is only looked at."""
    return request.POST if request.method == "POST" else None
