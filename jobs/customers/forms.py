"""Forms for who asks, where and for what. A doubtful postcode or number is asked about once, then kept."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.contrib.auth.models import User

from jobs.customers.models import Customer, Enquiry, Property
from jobs.customers.phones import kept_phone, looks_like_phone, shown_phone
from jobs.customers.postcodes import looks_like_postcode, normal_postcode
from jobs.forms import SheetForm, SheetModelForm


class Doubts:
    """Warnings that can be kept: the form comes back once with the doubt, and the tick says that it is right.

    A form using this has a field `keep_doubtful`, hidden until there is a doubt.
    """

    doubts: list[str]

    @property
    def is_doubtful(self) -> bool:
        """Tell whether the tick is to be shown: there is a doubt, or it was ticked before."""
        return self.is_bound and bool((self.errors and self.doubts) or self.cleaned_data.get("keep_doubtful"))

    def doubt(self, name: str, words: str) -> None:
        """Warn about one field unless the tick says that it is right as typed."""
        if not self.cleaned_data.get("keep_doubtful"):
            self.doubts.append(words)
            self.add_error(name, words)

    def check_doubtful(self) -> None:
        self.doubts = []
        phone, postcode = self.cleaned_data.get("phone"), self.cleaned_data.get("postcode")
        if phone and not looks_like_phone(phone):
            self.doubt(
                "phone", f"{phone} is not a number that can be rung. Mend it, or tick that it is right."
            )
        if postcode and not looks_like_postcode(postcode):
            self.doubt("postcode", f"{postcode} is no usual postcode. Mend it, or tick that it is right.")


def keep_doubtful_field() -> forms.BooleanField:
    return forms.BooleanField(label="Keep the number and postcode as typed", required=False)


class CustomerForm(Doubts, SheetModelForm):
    keep_doubtful = keep_doubtful_field()

    class Meta:
        model = Customer
        fields = ("name", "kind", "phone", "email", "note")
        widgets: ClassVar = {
            "phone": forms.TextInput(attrs={"inputmode": "tel", "autocomplete": "off"}),
            "email": forms.EmailInput(attrs={"autocomplete": "off"}),
            "note": forms.Textarea(attrs={"rows": 2}),
            "kind": forms.RadioSelect,
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.initial["phone"] = shown_phone(self.initial.get("phone", ""))

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        self.check_doubtful()
        if cleaned.get("phone"):
            cleaned["phone"] = kept_phone(cleaned["phone"])
        return cleaned


class PropertyForm(Doubts, SheetModelForm):
    keep_doubtful = keep_doubtful_field()
    postcode = forms.CharField(max_length=12, widget=forms.TextInput(attrs={"autocapitalize": "characters"}))

    class Meta:
        model = Property
        fields = ("address", "locality", "town", "postcode", "nation", "description", "built_year", "note")
        widgets: ClassVar = {"note": forms.Textarea(attrs={"rows": 2})}

    def clean_postcode(self) -> str:
        postcode = normal_postcode(self.cleaned_data["postcode"])
        if len(postcode) > Property._meta.get_field("postcode").max_length:
            raise forms.ValidationError("Postcode is too long: at most seven letters and digits.")
        return postcode

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        self.check_doubtful()
        return cleaned


class WishForm(SheetModelForm):
    """What is asked for, whoever asks and wherever it is."""

    class Meta:
        model = Enquiry
        fields = ("wants", "to_store", "when_wanted")
        widgets: ClassVar = {"wants": forms.Textarea(attrs={"rows": 3})}


class SurveyorField(forms.ModelChoiceField):
    def label_from_instance(self, obj: User) -> str:
        return obj.get_full_name() or obj.get_username()


class VisitForm(SheetForm):
    """When the survey is, and who goes."""

    day = forms.DateField(label="Day of the visit")
    time = forms.TimeField(
        label="Time", widget=forms.TimeInput(format="%H:%M", attrs={"type": "time"}), input_formats=["%H:%M"],
        error_messages={"invalid": "Time must be like 09:30."},
    )  # fmt: skip
    surveyor = SurveyorField(queryset=User.objects.none(), empty_label="choose")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        goes = User.objects.filter(is_active=True, groups__name__in=("surveyor", "office", "owner"))
        self.fields["surveyor"].queryset = goes.distinct().order_by("first_name", "username")


class CloseForm(SheetForm):
    because = forms.CharField(
        label="Why it is closed", max_length=Enquiry._meta.get_field("closed_because").max_length
    )
