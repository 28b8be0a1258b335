"""The form that takes photographs; each file is read here, so that a bad one is named beside the box."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile

from estimating.published.hazards import HAZARD_BY_KEY
from jobs.forms import SheetForm
from jobs.surveys.models import Finding, Photograph, Survey
from jobs.surveys.photographs.kept import KeptPhotograph, PhotographRefused, keep_photograph


class PicturesInput(forms.ClearableFileInput):
    allow_multiple_selected = True


class PicturesField(forms.FileField):
    """Several files at once, cleaned to photographs on disk."""

    widget = PicturesInput

    def clean(self, data: Any, initial: Any = None) -> list[KeptPhotograph]:
        files: list[UploadedFile] = [file for file in (data if isinstance(data, list) else [data]) if file]
        kept, refused = [], []
        for file in files:
            try:
                kept.append(keep_photograph(file.read(), name=file.name or "The file"))
            except PhotographRefused as refusal:
                refused.append(str(refusal))
        if refused:
            raise forms.ValidationError(refused)
        return kept


class FindingField(forms.ModelChoiceField):
    def label_from_instance(self, obj: Finding) -> str:
        hazard = HAZARD_BY_KEY.get(obj.hazard)
        return hazard.title if hazard else obj.hazard


class PhotographsForm(SheetForm):
    """Photographs to keep; Next without any just goes on."""

    pictures = PicturesField(
        label="Photographs",
        required=False,
        help_text="JPEG, PNG, WEBP or HEIC. Place and time are taken out of them.",
        widget=PicturesInput(attrs={"accept": "image/jpeg,image/png,image/webp,image/heic,image/heif"}),
    )
    shows = forms.CharField(
        label="What they show", required=False, max_length=Photograph._meta.get_field("shows").max_length
    )
    finding = FindingField(
        label="Belongs to the finding", queryset=Finding.objects.none(), required=False, empty_label="none"
    )

    def __init__(self, *args: Any, survey: Survey, **kwargs: Any) -> None:
        """Offer the findings of a survey; a page that is kept on a tablet has none yet."""
        super().__init__(*args, **kwargs)
        if survey.pk is None:
            return
        self.fields["finding"].queryset = survey.findings.exclude(seen=Finding.Seen.NO)
