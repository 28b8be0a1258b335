"""The boxes of a survey: one of a few, words, counts. Every answer may wait, so none of them is required."""

from __future__ import annotations

from typing import Any

from django import forms

YES_NO = (("yes", "Yes"), ("no", "No"))
YES_NO_UNSEEN = (*YES_NO, ("not seen", "Could not be seen"))
OFFERED = (("no", "No"), ("in", "In the price"), ("option", "As an option"))


class PickField(forms.ChoiceField):
    """One of a few, as big buttons; none picked is a gap."""

    def __init__(self, *choices: tuple[str, str], **kwargs: Any) -> None:
        super().__init__(choices=choices, required=False, widget=forms.RadioSelect, **kwargs)


class WordsField(forms.CharField):
    def __init__(self, label: str, *, lines: int = 1, **kwargs: Any) -> None:
        widget = forms.Textarea(attrs={"rows": lines}) if lines > 1 else forms.TextInput()
        super().__init__(label=label, required=False, max_length=2000, widget=widget, **kwargs)


class CountField(forms.IntegerField):
    def __init__(self, label: str, *, at_most: int = 500, **kwargs: Any) -> None:
        super().__init__(label=label, required=False, min_value=0, max_value=at_most, **kwargs)


def words_of(kind: type) -> tuple[tuple[str, str], ...]:
    """Return the words of one of the core's kinds as choices."""
    return tuple((each.value, each.value[:1].upper() + each.value[1:]) for each in kind)
