from __future__ import annotations

from typing import Any

from django import forms

from jobs.forms import SheetModelForm
from jobs.orders.models import MaterialsOrder


class OrderForm(SheetModelForm):
    """When an unsent order is wanted, and what else its supplier must know."""

    class Meta:
        model = MaterialsOrder
        fields = ("wanted_on", "note")
        widgets = {"note": forms.Textarea(attrs={"rows": 3})}  # noqa: RUF012 - Django's own form of it
        help_texts = {"wanted_on": "Needed before the order is marked as sent."}  # noqa: RUF012

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["wanted_on"].is_one_of_many = True  # it may wait, but nobody is told that it is optional
