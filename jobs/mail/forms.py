from __future__ import annotations

from typing import Any

from django import forms

from jobs.forms import SheetForm
from jobs.mail.services import LINK_PLACE, Recipient


class QuoteMailForm(SheetForm):
    """Who gets a quote, and the words around its link."""

    name = forms.CharField(label="To, name", max_length=120)
    address = forms.EmailField(label="To, e-mail", max_length=254)
    also_address = forms.EmailField(
        label="Also to, e-mail",
        max_length=254,
        required=False,
        help_text="Gets a message of their own, with the same link.",
    )
    subject = forms.CharField(max_length=200)
    text = forms.CharField(
        label="Words",
        max_length=10_000,
        widget=forms.Textarea(attrs={"rows": 18}),
        help_text=f"Plain text. The address of the quote comes where {LINK_PLACE} stands.",
    )
    once = forms.CharField(widget=forms.HiddenInput, max_length=64)

    @property
    def recipients(self) -> list[Recipient]:
        """Return who gets a message: each address once."""
        given: dict[str, Any] = self.cleaned_data
        first = Recipient(given["name"], given["address"])
        also = given["also_address"]
        return [first] if not also or also == first.address else [first, Recipient("", also)]

    def refuse(self, field: str, words: str) -> None:
        """Put what the outbox refused beside the box it is about."""
        self.add_error(field if field in self.fields else None, words)
