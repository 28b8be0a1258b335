"""What the office fills in about a quote that is with its customer."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils import timezone

from jobs.forms import SheetForm
from jobs.quotes.customer.models import REASONS


class FollowUpForm(SheetForm):
    follow_up_on = forms.DateField(label="Follow up on")
    follow_up_note = forms.CharField(label="What to ask", max_length=200, required=False)

    def clean_follow_up_on(self) -> Any:
        day = self.cleaned_data["follow_up_on"]
        if day < timezone.localdate():
            raise forms.ValidationError("Follow up on must be today or later.")
        return day


class DeclinedForm(SheetForm):
    """A customer declined by word of mouth: who told it, and why."""

    told_by = forms.CharField(label="Who told you", max_length=120)
    because = forms.ChoiceField(
        label="Why", choices=[*REASONS, ("", "No reason was given")], required=False, widget=forms.RadioSelect
    )
    reason = forms.CharField(
        label="In their words", required=False, max_length=2000, widget=forms.Textarea(attrs={"rows": 3})
    )
