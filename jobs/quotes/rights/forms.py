"""What the office writes down of a contract's rights: when the last goods came, what was done and paid."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django import forms
from django.core.validators import MaxValueValidator, MinValueValidator
from django.utils import timezone

from estimating.contracts.kind import HowAgreed
from jobs.forms import SheetForm
from jobs.quotes.customer.models import Decision
from jobs.quotes.rights.models import Cancellation

ALL = Decimal(100)


class HowAgreedForm(SheetForm):
    """Which kind of contract a yes will be: asked when a quote is issued, the cautious answer first."""

    how_agreed = forms.ChoiceField(
        label="How will the customer agree?",
        choices=[
            (each.name, each.value[:1].upper() + each.value[1:])
            for each in sorted(HowAgreed, key=lambda each: each is not HowAgreed.WITHOUT_MEETING)
        ],
        required=False,
        help_text="It decides what the law wants told. If unsure, leave the first.",
    )

    def __init__(self, *args: Any, sent_with: str = "", **kwargs: Any) -> None:
        """Begin the form; `sent_with` is the id of another form on the page with which the answer is sent."""
        super().__init__(*args, **kwargs)
        self.fields["how_agreed"].is_one_of_many = True  # one is always chosen: nothing to call optional
        if sent_with:
            self.fields["how_agreed"].widget.attrs["form"] = sent_with

    @property
    def agreed(self) -> HowAgreed:
        """Return the answer, or the cautious one."""
        return HowAgreed[self.cleaned_data["how_agreed"] or HowAgreed.WITHOUT_MEETING.name]


class GoodsCameForm(SheetForm):
    last_goods_on = forms.DateField(
        label="Last goods came to the customer on",
        required=False,
        help_text="The days for cancelling run from then, if later. Once the work is complete all have come.",
    )

    def __init__(self, *args: Any, decision: Decision, **kwargs: Any) -> None:
        super().__init__(*args, initial={"last_goods_on": decision.last_goods_on}, **kwargs)

    def clean_last_goods_on(self) -> Any:
        day = self.cleaned_data["last_goods_on"]
        if day and day > timezone.localdate():
            raise forms.ValidationError("Last goods cannot have come on a day that is still ahead.")
        return day


class SettleForm(SheetForm):
    """The two things that only the office knows."""

    done_percent = forms.DecimalField(
        label="Share of the whole work that was done, per cent",
        max_digits=5,
        decimal_places=2,
        validators=(MinValueValidator(0), MaxValueValidator(100)),
        help_text="Of the whole price: what was fitted, and the labour for it. 0 when nothing was begun.",
    )
    paid = forms.DecimalField(
        label="Paid by the customer until then, £",
        max_digits=9,
        decimal_places=2,
        validators=(MinValueValidator(0),),
        help_text="The deposit and all other payments.",
    )

    def __init__(self, *args: Any, said: Cancellation, **kwargs: Any) -> None:
        share = said.share_done
        initial = {"done_percent": None if share is None else (share * ALL).normalize(), "paid": said.paid}
        if initial["done_percent"] is not None:
            initial["done_percent"] = format(initial["done_percent"], "f")
        super().__init__(*args, initial=initial, **kwargs)

    @property
    def share_done(self) -> Decimal:
        """Return the share from 0 to 1."""
        return Decimal(self.cleaned_data["done_percent"]) / ALL


class WriteDownForm(SheetForm):
    """A cancellation that came by letter, e-mail or telephone."""

    name_typed = forms.CharField(label="Who cancelled", max_length=120)
    said_on = forms.DateField(label="Sent or said on", help_text="A letter counts from the day it was sent.")
    reason = forms.CharField(
        label="What they said, and how it came", max_length=2000, widget=forms.Textarea(attrs={"rows": 3})
    )

    def clean_said_on(self) -> Any:
        day = self.cleaned_data["said_on"]
        if day > timezone.localdate():
            raise forms.ValidationError("Sent or said on must not be a day that is still ahead.")
        return day
