from __future__ import annotations

from typing import Any

from django import forms
from django.contrib.auth.models import User
from django.contrib.auth.password_validation import validate_password

from jobs.firm.people import ROLES
from jobs.forms import SheetForm

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
