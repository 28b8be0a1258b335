"""What the customer fills in on the link."""

from __future__ import annotations

from typing import Any

from django import forms

from estimating.choices import Part
from jobs.forms import SheetForm
from jobs.quotes.frozen import optional_parts
from jobs.quotes.models import REASONS, Revision

STATEMENTS = {
    "scope": "I have read what will be done, what will not be done and what could change the price.",
    "cancel": "I know that I may cancel within 14 days after accepting, and how.",
}
EARLY_START = (
    "Please start within those 14 days. I know that if I cancel once work has begun I pay for what was done."
)


class DecisionForm(SheetForm):
    """What accepting and declining share: who decides, and about which revision they were reading."""

    name_typed = forms.CharField(
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

    scope = forms.BooleanField(label=STATEMENTS["scope"])
    cancel = forms.BooleanField(label=STATEMENTS["cancel"])
    early_start = forms.BooleanField(label=EARLY_START, required=False)
    taken = forms.MultipleChoiceField(required=False, widget=forms.MultipleHiddenInput)

    def __init__(self, *args: Any, revision: Revision, **kwargs: Any) -> None:
        super().__init__(*args, revision=revision, **kwargs)
        self.fields["taken"].choices = [(part.value, part.value) for part in optional_parts(revision)]
        self.fields["taken"].error_messages["invalid_choice"] = "This quote has no option “%(value)s”."
        self.fields["name_typed"].error_messages["required"] = "Type your full name to accept."
        for name in STATEMENTS:
            self.fields[name].error_messages["required"] = "Please tick this to accept, or ask us about it."

    @property
    def statements(self) -> list[str]:
        """The exact words that were ticked."""
        agreed = list(STATEMENTS.values())
        return [*agreed, EARLY_START] if self.cleaned_data["early_start"] else agreed

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
    reason = forms.CharField(
        label="In your own words",
        required=False,
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 3}),
    )


class QuestionForm(SheetForm):
    words = forms.CharField(label="Your question", max_length=2000, widget=forms.Textarea(attrs={"rows": 4}))
