"""What the office adds to a survey: the day of the visit, and clearances."""

from __future__ import annotations

from django import forms

from jobs.forms import SheetForm, SheetModelForm
from jobs.surveys.models import Clearance


class DayForm(SheetForm):
    """The day of a visit that was measured on paper and typed in later."""

    visited_on = forms.DateField(label="Day of the visit")


class ClearanceForm(SheetModelForm):
    class Meta:
        model = Clearance
        fields = ("cleared_by", "qualification", "document", "dated")
