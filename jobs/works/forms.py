from __future__ import annotations

from decimal import Decimal
from typing import Any

from django import forms
from django.contrib.auth.models import User
from django.core.validators import MaxValueValidator, MinValueValidator

from jobs.forms import SheetForm
from jobs.works.models import Job


class BookForm(SheetForm):
    starts_on = forms.DateField(label="First day")
    ends_on = forms.DateField(label="Last day")
    crew = forms.ModelMultipleChoiceField(
        label="Crew",
        queryset=User.objects.none(),
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": "Crew is missing: tick at least one person."},
    )
    note = forms.CharField(
        label="Note for the crew", required=False, widget=forms.Textarea(attrs={"rows": 3})
    )

    def __init__(self, *args: Any, job: Job, **kwargs: Any) -> None:
        super().__init__(
            *args,
            initial={
                "starts_on": job.starts_on,
                "ends_on": job.ends_on,
                "crew": [person.pk for person in job.crew.all()],
                "note": job.note,
            },
            **kwargs,
        )
        crew = self.fields["crew"]
        assert isinstance(crew, forms.ModelMultipleChoiceField)  # noqa: S101 (tells the type checker)
        crew.queryset = User.objects.filter(is_active=True).order_by("first_name", "username")
        crew.error_messages["required"] = "Crew is missing: tick at least one person."
        crew.label_from_instance = lambda person: person.get_full_name() or person.username

    def clean(self) -> dict[str, Any] | None:
        cleaned = super().clean() or {}
        first, last = cleaned.get("starts_on"), cleaned.get("ends_on")
        if first and last and last < first:
            self.add_error("ends_on", "Last day is before the first day.")
        return cleaned


class CompleteForm(SheetForm):
    hours_taken = forms.DecimalField(
        label="Person-hours it took",
        max_digits=7,
        decimal_places=2,
        help_text="All of you together: two people for six hours are 12.",
        validators=[MinValueValidator(Decimal("0.25")), MaxValueValidator(Decimal(2000))],
    )
    note = forms.CharField(
        label="What was not as on the sheet, and what the office must know",
        required=False,
        widget=forms.Textarea(attrs={"rows": 4}),
    )


class HandOverForm(SheetForm):
    to = forms.CharField(label="Who took it over", max_length=120, help_text="The name as signed.")
