"""The forms of the firm's settings: who we are, the look of our papers, quotes and payment, how we work."""

from __future__ import annotations

import re
from typing import Any, ClassVar

from django import forms

from estimating.price.vat_numbers import read_vat_number
from estimating.refusals import Refusal
from jobs.firm import bank
from jobs.firm.accent import NotAColour, TooPale, as_colour
from jobs.firm.kinds import COMPANY_NUMBER, REGISTERED, FirmKind
from jobs.firm.logo import WANTED, Logo, LogoRefused, keep_logo, read_as_logo
from jobs.firm.models import Firm
from jobs.forms import SheetModelForm

Groups = tuple[tuple[str, str, tuple[tuple[str, ...], ...]], ...]


class SettingsForm(SheetModelForm):
    """Settings under their heads: each head with a word about it, and rows of fields that belong together."""

    groups: ClassVar[Groups] = ()

    @property
    def grouped(self) -> list[tuple[str, str, list[list[forms.BoundField]]]]:
        return [
            (title, words, [[self[name] for name in row] for row in rows])
            for title, words, rows in self.groups
        ]


class ParticularsForm(SettingsForm):
    groups = (
        ("Who we are", "At the head of every paper.", (("name",), ("address",), ("phone", "email"))),
        (
            "What we are in law",
            "The law wants a firm's kind and names on its letters, quotes and orders. Ask your adviser if "
            "you are not sure. What does not belong to your kind is not printed.",
            (
                ("kind",),
                ("registered_name", "company_number"),
                ("registered_in",),
                ("registered_office",),
                ("owners", "service_address"),
            ),
        ),
        ("VAT, and where we work", "", (("vat_number", "nation"),)),
    )

    class Meta:
        model = Firm
        fields = (
            "name", "address", "phone", "email", "kind", "registered_name", "company_number",
            "registered_in", "registered_office", "owners", "service_address", "vat_number", "nation",
        )  # fmt: skip
        labels: ClassVar = {"owners": "Name of the owner, or names of the partners"}
        help_texts: ClassVar = {
            "registered_name": "Of a company or limited liability partnership. Empty: as the name above.",
            "company_number": "Eight characters, such as 01234567 or SC123456.",
            "registered_office": "Empty: as the address above.",
            "owners": "Of a sole trader or partnership, each on a line of its own.",
            "service_address": "Where a sole trader or partnership takes letters of law. Empty: as the "
            "address above.",
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["kind"].required = True

    def clean_company_number(self) -> str:
        number: str = re.sub(r"\s", "", self.cleaned_data["company_number"]).upper()
        if number and not COMPANY_NUMBER.fullmatch(number):
            raise forms.ValidationError(
                "Company number must be eight characters, such as 01234567 or SC123456."
            )
        return number

    def clean_vat_number(self) -> str:
        typed: str = self.cleaned_data["vat_number"].strip()
        if not typed:
            return ""
        try:
            return f"GB {read_vat_number(typed).formatted}"
        except Refusal as refused:
            raise forms.ValidationError(f"VAT number {refused.requirement}.") from refused

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = super().clean() or self.cleaned_data
        kind = given.get("kind")
        wanted: dict[str, str] = {}
        if kind in REGISTERED:
            wanted = {"company_number": "Company number", "registered_in": "Registered in"}
        elif kind:
            whose = "the owner" if kind == FirmKind.SOLE_TRADER else "each partner"
            wanted = {"owners": f"Name of {whose}"}
        for field, label in wanted.items():
            if field in given and not str(given[field]).strip():
                self.add_error(field, f"{label} is missing: the law wants it on a {kind}'s letters.")
        return given


class DressForm(SettingsForm):
    groups = (
        ("Logo", "At the head of quotes, orders and letters.", (("logo",), ("no_logo",))),
        ("Colour", "Of the headings, the price and the line under the head.", (("accent_colour",),)),
    )
    logo = forms.FileField(
        required=False,
        help_text=f"{WANTED} It is made small enough to print, and nothing but the picture is kept of it.",
        widget=forms.FileInput(attrs={"accept": "image/png,image/jpeg,image/webp"}),
    )
    no_logo = forms.BooleanField(label="Print no logo", required=False)

    class Meta:
        model = Firm
        fields = ("accent_colour",)
        help_texts: ClassVar = {
            "accent_colour": "As your printer writes it, such as #1d5fa6. Empty: the ink of the papers."
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["accent_colour"].max_length = None  # what was typed is judged as a colour, not by length
        self.fields["accent_colour"].validators = []
        if not self.instance.logo_sha256:
            del self.fields["no_logo"]
            self.groups = (
                ("Logo", "At the head of quotes, orders and letters.", (("logo",),)),
                self.groups[1],
            )

    def clean_accent_colour(self) -> str:
        label = "Colour of headings and lines"
        try:
            return as_colour(self.cleaned_data["accent_colour"])
        except TooPale:
            raise forms.ValidationError(
                f"{label} is too pale to be seen on white paper: take a darker one."
            ) from None
        except NotAColour:
            raise forms.ValidationError(
                f"{label} must be written with # and six digits or letters from a to f, such as #1d5fa6."
            ) from None

    def clean_logo(self) -> Logo | None:
        file = self.cleaned_data["logo"]
        if not file:
            return None
        try:
            return read_as_logo(file.read())
        except LogoRefused as refused:
            raise forms.ValidationError(f"Logo: {refused}") from refused

    def save(self, commit: bool = True) -> Firm:
        logo: Logo | None = self.cleaned_data.get("logo")
        if logo:
            self.instance.logo_sha256 = keep_logo(logo)
            self.instance.logo_width, self.instance.logo_height = logo.width, logo.height
        elif self.cleaned_data.get("no_logo"):
            self.instance.logo_sha256, self.instance.logo_width, self.instance.logo_height = "", 0, 0
        firm: Firm = super().save(commit=commit)
        return firm


class QuotesForm(SettingsForm):
    groups = (
        ("What a new quote starts from", "", (("quote_valid_days", "deposit_percent"),)),
        (
            "Where customers pay",
            "Printed on quotes. Its form is checked; whether it is your account, only you can tell.",
            (("bank_account_name",), ("bank_sort_code", "bank_account_number")),
        ),
        ("Words of a quote", "", (("terms",), ("closing_words",))),
    )

    class Meta:
        model = Firm
        fields = (
            "quote_valid_days", "deposit_percent", "bank_account_name", "bank_sort_code",
            "bank_account_number", "terms", "closing_words",
        )  # fmt: skip
        help_texts: ClassVar = {"deposit_percent": "Of the price with VAT. 0 for none."}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name in ("bank_sort_code", "bank_account_number"):
            self.fields[name].max_length = None
            self.fields[name].validators = []
            self.fields[name].widget.attrs |= {"inputmode": "numeric", "autocomplete": "off"}
            self.fields[name].widget.attrs.pop("maxlength", None)

    def clean_bank_sort_code(self) -> str:
        typed: str = self.cleaned_data["bank_sort_code"]
        try:
            return bank.as_sort_code(typed) if typed.strip() else ""
        except bank.WrongForm:
            raise forms.ValidationError("Sort code must be six digits, such as 12-34-56.") from None

    def clean_bank_account_number(self) -> str:
        typed: str = self.cleaned_data["bank_account_number"]
        try:
            return bank.as_account_number(typed) if typed.strip() else ""
        except bank.WrongForm:
            raise forms.ValidationError(
                "Account number must be eight digits; put noughts before a shorter one."
            ) from None

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = super().clean() or self.cleaned_data
        labels = {
            "bank_account_name": "Name of the account",
            "bank_sort_code": "Sort code",
            "bank_account_number": "Account number",
        }
        if any(given.get(name) for name in labels):
            for name, label in labels.items():
                if name in given and not given[name]:
                    self.add_error(name, f"{label} is missing: nobody can pay without it.")
        return given


class WorkingForm(SettingsForm):
    groups = (
        ("The deck", "What a new quote starts from.", (("gap_mm", "least_headroom_mm"),)),
        ("Insulation and heat", "", (("insulation_waste_percent", "roof_space"),)),
        ("At the desk and in the loft", "", (("length_unit", "prices_checked_days"),)),
    )

    class Meta:
        model = Firm
        fields = (
            "gap_mm", "least_headroom_mm", "insulation_waste_percent", "roof_space", "length_unit",
            "prices_checked_days",
        )  # fmt: skip
        help_texts: ClassVar = {
            "gap_mm": "From the top of the insulation to the underside of the deck. 50 is common practice.",
            "roof_space": "Counted: 0.20 and outside surface 0.04 m²K/W, as usual. Left out: outside surface "
            "0.10 m²K/W. It is printed beside each U-value.",
            "length_unit": "In surveys: 5200 is read as 5 200 mm under millimetres. A survey keeps "
            "the unit it was begun with.",
        }
