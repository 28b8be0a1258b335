"""What the customer fills in on the link."""

from __future__ import annotations

import unicodedata
from typing import Any

from django import forms

from estimating.choices import Part
from jobs.forms import SheetForm
from jobs.quotes.customer.models import REASONS
from jobs.quotes.frozen import FrozenOffer, frozen_alternatives
from jobs.quotes.models import Revision
from jobs.quotes.rights.told import rights_of


class TypedField(forms.CharField):
    """What a customer types, without the control characters that no letter may carry."""

    def to_python(self, value: Any) -> str:
        typed: str = super().to_python(value)
        return "".join(
            sign for sign in typed if sign in "\r\n\t" or unicodedata.category(sign) not in ("Cc", "Cs")
        ).strip()


class DecisionForm(SheetForm):
    """What accepting and declining share: who decides, and about which revision they were reading."""

    name_typed = TypedField(
        label="Your full name", max_length=120, widget=forms.TextInput(attrs={"autocomplete": "name"})
    )
    letter = forms.CharField(widget=forms.HiddenInput)

    def __init__(self, *args: Any, revision: Revision, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.revision = revision
        self.initial["letter"] = revision.letter

    @property
    def is_for_another_revision(self) -> bool:
        """The page was opened before the revision that is now on offer was issued."""
        return self.is_bound and self.data.get("letter") != self.revision.letter


class AcceptForm(DecisionForm):
    """The name and the ticks that make an acceptance."""

    scope = forms.BooleanField()
    cancel = forms.BooleanField()
    early_start = forms.BooleanField(required=False)
    news = forms.BooleanField(required=False)
    taken = forms.MultipleChoiceField(required=False, widget=forms.MultipleHiddenInput)
    alternative = forms.TypedChoiceField(coerce=int, widget=forms.HiddenInput)

    def __init__(self, *args: Any, revision: Revision, offer: FrozenOffer, **kwargs: Any) -> None:
        super().__init__(*args, revision=revision, **kwargs)
        self.rights = rights_of(revision)
        self.words = {
            "scope": self.rights.scope_statement,
            "cancel": self.rights.cancel_statement,
            "early_start": self.rights.early_start_statement,
            "news": self.rights.news_statement,
        }
        for name, words in self.words.items():
            self.fields[name].label = words
            if not words:  # nothing to agree to here: a business, or a firm that gives no such right
                del self.fields[name]
        several = len(frozen_alternatives(revision))
        self.fields["alternative"].choices = [(number, number) for number in range(several)]
        self.fields["alternative"].required = several > 1
        self.fields["alternative"].empty_value = 0
        for fault in ("required", "invalid_choice"):
            self.fields["alternative"].error_messages[fault] = "Pick one of the alternatives of this quote."
        self.fields["taken"].choices = [(part.value, part.value) for part in offer.optional_parts]
        self.fields["taken"].error_messages["invalid_choice"] = "This quote has no option “%(value)s”."
        self.fields["name_typed"].error_messages["required"] = "Type your full name to accept."
        for name in self.fields.keys() & {"scope", "cancel"}:
            self.fields[name].error_messages["required"] = "Please tick this to accept, or ask us about it."

    @property
    def statements(self) -> list[str]:
        """The exact words that were ticked to accept."""
        return self.rights.statements

    @property
    def wants_early_start(self) -> bool:
        """Whether an early start was asked for, which is kept apart."""
        return bool(self.cleaned_data.get("early_start"))

    @property
    def wants_news(self) -> bool:
        """Whether news may be sent, which is kept apart and never needed."""
        return bool(self.cleaned_data["news"])

    @property
    def taken_parts(self) -> frozenset[Part]:
        return frozenset(Part(part) for part in self.cleaned_data["taken"])


class DeclineForm(DecisionForm):
    """The name, and the reason if the customer gives one."""

    because = forms.ChoiceField(
        label="Would you tell us why?",
        choices=[("", "I would rather not say"), *REASONS],
        required=False,
        widget=forms.RadioSelect,
    )
    reason = TypedField(
        label="In your own words",
        required=False,
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 3}),
    )


class QuestionForm(SheetForm):
    words = TypedField(label="Your question", max_length=2000, widget=forms.Textarea(attrs={"rows": 4}))


class SaidForm(SheetForm):
    """A name, and one clear statement beside it."""

    name_typed = TypedField(
        label="Your full name", max_length=120, widget=forms.TextInput(attrs={"autocomplete": "name"})
    )


class EarlyStartForm(SaidForm):
    """The request to begin within the days for cancelling, after accepting."""

    early_start = forms.BooleanField()

    def __init__(self, *args: Any, words: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["early_start"].label = words
        self.fields["early_start"].error_messages["required"] = "Please tick this to ask for it."


class CancelForm(SaidForm):
    """Out of the contract; a reason is welcome and never needed."""

    reason = TypedField(
        label="Would you tell us why?",
        required=False,
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 3}),
    )
