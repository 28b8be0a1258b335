from __future__ import annotations

from django import forms

from jobs.forms import SheetModelForm
from jobs.orders.models import MaterialsOrder


class OrderForm(SheetModelForm):
    """When an unsent order is wanted, and what else its supplier must know."""

    class Meta:
        model = MaterialsOrder
        fields = ("wanted_on", "note")
        widgets = {"note": forms.Textarea(attrs={"rows": 3})}  # noqa: RUF012 - Django's own form of it
