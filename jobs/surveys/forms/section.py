"""What every section's form can do: say what a price still needs, and in which groups to ask."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, ClassVar, Protocol

from django import forms

from jobs.forms import SheetForm
from jobs.surveys.typed.lengths import TypedField, read_bare_numbers_in


class SectionForm(SheetForm):
    """One section, bound to what was typed: from the page just sent, or from the survey's answers."""

    needed: ClassVar[tuple[str, ...]] = ()
    checked: ClassVar[tuple[str, ...]] = ()
    groups: ClassVar[tuple[tuple[str, tuple[str, ...]], ...]] = ()
    folded: ClassVar[frozenset[str]] = frozenset()

    def __init__(self, typed: Mapping[str, Any], *, length_unit: str) -> None:
        """Bind the form; bare numbers in it are in `length_unit`, the survey's own (Survey.length_unit)."""
        super().__init__(data=typed)
        read_bare_numbers_in(self, length_unit)
        for name in self.needed:
            self.fields[name].needed = True
        for name in self.checked:
            self.fields[name].checked = True

    def gaps(self) -> Iterator[tuple[str, str]]:
        """Yield (name of the field, what it must be) for all that a price still needs from this section."""
        for name, errors in self.errors.items():
            yield name, lower_first(errors[0])
        for name in self.needed:
            if name not in self.errors and self.cleaned_data.get(name) in (None, ""):
                yield name, "is missing"

    def unmeasured(self) -> Iterator[str]:
        """Yield the names of the fields that the checks take as usual, because nothing stands in them."""
        for name in self.checked:
            if name not in self.errors and self.cleaned_data.get(name) in (None, ""):
                yield name

    @classmethod
    def takes(cls, name: str) -> bool:
        """Tell whether an answer of that name belongs to this section."""
        return name in cls.base_fields

    def label_of(self, name: str) -> str:
        """Return the words beside a field."""
        return str(self.fields[name].label) if name in self.fields else name

    def unread(self) -> list[tuple[forms.BoundField | None, str]]:
        """Return what cannot be read, each with its field, for the summary at the top."""
        return [
            (self[name] if name in self.fields else None, error)
            for name, errors in self.errors.items()
            for error in errors
        ]

    def typed_fields(self) -> Iterator[forms.BoundField]:
        """Yield the fields whose reading is told beside them."""
        yield from (field for field in self if isinstance(field.field, TypedField))

    def grouped(self) -> Iterator[Group]:
        yield from groups_of(self)


@dataclass(frozen=True, slots=True)
class Group:
    """Fields that are asked together; `is_folded` while they are seldom wanted and nothing stands in them."""

    title: str
    fields: list[forms.BoundField]
    is_folded: bool


class Grouped(Protocol):
    """A form that says how its fields are grouped."""

    groups: ClassVar[tuple[tuple[str, tuple[str, ...]], ...]]
    folded: ClassVar[frozenset[str]]

    def __getitem__(self, name: str) -> forms.BoundField: ...


def groups_of(form: Grouped) -> Iterator[Group]:
    """Yield a form's fields in their groups."""
    for title, names in form.groups:
        fields = [form[name] for name in names]
        is_empty = not any(field.value() or field.errors for field in fields)
        yield Group(title, fields, title in form.folded and is_empty)


def lower_first(words: str) -> str:
    return words[:1].lower() + words[1:]
