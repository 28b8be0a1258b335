from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.contrib.auth.models import User
from django.contrib.auth.password_validation import validate_password

from jobs.firm.models import Firm
from jobs.firm.people import ROLES
from jobs.forms import SheetForm, SheetModelForm

ROLE_WORDS = {
    "owner": "Owner: everything, prices and people too",
    "office": "Office: enquiries, quotes, orders, jobs; sees costs",
    "surveyor": "Surveyor: surveys and findings; sees prices, not costs",
    "crew": "Crew: jobs and job sheets; sees no prices",
}


class LogInForm(SheetForm):
    username = forms.CharField(
        label="Name",
        max_length=150,
        widget=forms.TextInput(attrs={"autocomplete": "username", "autocapitalize": "none"}),
    )
    password = forms.CharField(
        strip=False, widget=forms.PasswordInput(attrs={"autocomplete": "current-password"})
    )


class PersonForm(SheetForm):
    """A person of the firm: a name to log in with, a role, and a first password to be told by mouth."""

    username = forms.CharField(label="Log-in name", max_length=150)
    full_name = forms.CharField(label="Full name", max_length=150)
    role = forms.ChoiceField(choices=[(role, ROLE_WORDS[role]) for role in ROLES], widget=forms.RadioSelect)
    password = forms.CharField(
        label="New password", strip=False, required=False, widget=forms.PasswordInput(render_value=False)
    )
    may_log_in = forms.BooleanField(label="May log in", required=False, initial=True)

    def __init__(self, *args: Any, person: User | None = None, **kwargs: Any) -> None:
        self.person = person
        if person:
            role = person.groups.values_list("name", flat=True).first()
            kwargs["initial"] = {
                "username": person.username,
                "full_name": person.get_full_name(),
                "role": role,
                "may_log_in": person.is_active,
            }
        super().__init__(*args, **kwargs)
        self.fields["password"].help_text = (
            "Leave empty to keep the old one." if person else "At least 10 characters, and not a common word."
        )

    def clean_username(self) -> str:
        username: str = self.cleaned_data["username"]
        taken = User.objects.filter(username__iexact=username)
        if taken.exclude(pk=self.person.pk if self.person else None).exists():
            raise forms.ValidationError(f"Log-in name {username} is taken: choose another.")
        return username

    def clean_password(self) -> str:
        password: str = self.cleaned_data["password"]
        if not password and not self.person:
            raise forms.ValidationError("New password is missing.")
        if password:
            typed_name = self.cleaned_data.get("username", "")
            validate_password(password, self.person or User(username=typed_name))
        return password


class FirmForm(SheetModelForm):
    class Meta:
        model = Firm
        fields = (
            "name",
            "address",
            "phone",
            "email",
            "company_number",
            "vat_number",
            "nation",
            "quote_valid_days",
            "deposit_percent",
            "gap_mm",
            "least_headroom_mm",
            "insulation_waste_percent",
            "roof_space",
            "length_unit",
            "prices_checked_days",
            "terms",
        )
        help_texts: ClassVar = {
            "gap_mm": "From the top of the insulation to the underside of the deck. 50 is common practice.",
            "deposit_percent": "Of the price with VAT. 0 for none.",
            "roof_space": "Counted: 0.20 and outside surface 0.04 m²K/W, as usual. Left out: outside surface "
            "0.10 m²K/W. It is printed beside each U-value.",
            "length_unit": "In surveys: 5200 is read as 5 200 mm under millimetres. A survey keeps "
            "the unit it was begun with.",
        }
