"""The insurances as rows, with an empty one at the end."""

from __future__ import annotations

from typing import Any

from django import forms

from jobs.firm.insurance_models import Insurance
from jobs.forms import SheetModelForm


class InsuranceForm(SheetModelForm):
    class Meta:
        model = Insurance
        fields = ("what", "insurer", "policy_number", "until")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.instance.pk is None:
            self.fields["what"].widget.attrs["placeholder"] = "Public liability, £2,000,000"


class _Rows(forms.BaseModelFormSet):
    def add_fields(self, form: forms.BaseForm, index: int | None) -> None:
        super().add_fields(form, index)
        if "DELETE" in form.fields:
            form.fields["DELETE"].label = "Take it off the quotes"

    @property
    def kept(self) -> list[Insurance]:
        """What would be held if this were saved: rows that were understood and are not taken off."""
        return [
            form.instance
            for form in self.forms
            if form.is_valid() and form.cleaned_data.get("until") and not form.cleaned_data.get("DELETE")
        ]


InsuranceRows = forms.modelformset_factory(
    Insurance, form=InsuranceForm, formset=_Rows, extra=1, can_delete=True
)
