"""The tables of the loft plan: which rows there are, and how each is known wherever it is measured.

A row keeps the number that it was given for good. Two tablets may measure the same loft without a signal;
were rows moved up when one is removed, the second tablet's figures would land on another row.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from django import forms
from django.forms.formsets import BaseFormSet, formset_factory

from jobs.surveys.plan.rows import JoistFieldRow, KeepOutRow, PlanRow, ZoneRow

REMOVED = "DELETE"
UNNUMBERED = "__n__"
"""Stands for the number in the empty row from which a page makes new ones."""


class PlanRows(BaseFormSet):  # type: ignore[type-arg]
    """The rows of one kind, numbered as they were given. An empty row is no row."""

    def __init__(
        self, typed: Mapping[str, Any], *, prefix: str, length_unit: str, one_more: bool = False
    ) -> None:
        self.numbers = list(_rows_in(typed, prefix))
        if one_more or not self.numbers:
            self.numbers.append(next_number(typed, prefix))
        counts = {f"{prefix}-TOTAL_FORMS": str(len(self.numbers)), f"{prefix}-INITIAL_FORMS": "0"}
        super().__init__(data={**typed, **counts}, prefix=prefix, form_kwargs={"length_unit": length_unit})

    @property
    def filled(self) -> list[tuple[int, PlanRow]]:
        """Return (place, row) of every row that says something and is not to be removed."""
        return [
            (place, row)
            for place, row in enumerate(self.forms)
            if row.has_changed() and not row.cleaned_data.get(REMOVED)
        ]

    def add_prefix(self, index: int | str) -> str:
        number = self.numbers[index] if isinstance(index, int) else UNNUMBERED
        return f"{self.prefix}-{number}"

    def add_fields(self, form: forms.Form, index: int | None) -> None:
        super().add_fields(form, index)
        form.fields[REMOVED].label = "Remove this one"

    def place_of(self, number: int) -> int:
        """Return where a row stands among its kind, counted from 0; a number that is not there stays."""
        return self.numbers.index(number) if number in self.numbers else number


ROW_KINDS: Mapping[str, type[PlanRow]] = {"joists": JoistFieldRow, "keep_outs": KeepOutRow, "zones": ZoneRow}
ROW_TITLES = {"joists": "Joist fields", "keep_outs": "Keep-outs", "zones": "Deck zones"}
MOST_ROWS = 200
TABLES = {
    prefix: formset_factory(
        kind, formset=PlanRows, can_delete=True, max_num=MOST_ROWS, absolute_max=MOST_ROWS
    )
    for prefix, kind in ROW_KINDS.items()
}
_ROW_NAME = re.compile(rf"({'|'.join(ROW_KINDS)})-([0-9]{{1,12}})-(\w+)")


def is_row_name(name: str) -> bool:
    """Tell whether an answer of that name belongs to a row."""
    found = _ROW_NAME.fullmatch(name)
    return bool(found) and (found[3] == REMOVED or found[3] in ROW_KINDS[found[1]].base_fields)


def next_number(typed: Mapping[str, Any], prefix: str) -> int:
    """Return a number that no row of a kind ever had, not even one that was removed."""
    return max((number for number, _, _ in _named(typed, prefix)), default=-1) + 1


def removals_as_emptied(
    fields: Mapping[str, tuple[str, str]], answers: Mapping[str, str]
) -> dict[str, tuple[str, str]]:
    """Return changed answers, (before, after) by name, with each row to be removed emptied.

    Its number stays among the answers, and is not given again.
    """
    removed = {
        name.removesuffix(REMOVED)
        for name, (_, after) in fields.items()
        if after and name.endswith(f"-{REMOVED}") and is_row_name(name)
    }
    told = {name: change for name, change in fields.items() if not name.endswith(f"-{REMOVED}")}
    for name in {**answers, **told}:
        if name[: name.rfind("-") + 1] in removed:
            before = told[name][0] if name in told else str(answers[name])
            told[name] = (before, "")
    return told


def _rows_in(typed: Mapping[str, Any], prefix: str) -> Iterator[int]:
    """Yield the numbers of the rows that say something, in order."""
    said = {number for number, _, answer in _named(typed, prefix) if answer}
    yield from sorted(said)[:MOST_ROWS]


def _named(typed: Mapping[str, Any], prefix: str) -> Iterator[tuple[int, str, Any]]:
    """Yield (number, field, answer) of every answer that belongs to a row of a kind."""
    for name, answer in typed.items():
        found = _ROW_NAME.fullmatch(name)
        if found and found[1] == prefix:
            yield int(found[2]), found[3], answer
