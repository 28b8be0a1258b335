"""One row of a file against the product of that code, by the form and so by the rules of the screen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django import forms

from estimating.price_book import Role
from jobs.price_books.comparing import Change, changes_between
from jobs.price_books.dimensions import kind_of
from jobs.price_books.forms import ProductForm
from jobs.price_books.models import Edition, EditionProduct
from jobs.price_books.row_values import dimensions_of, every_dimension, product_values
from jobs.price_books.spreadsheets.cells import as_choice, as_text, as_tick, has_one_meaning
from jobs.price_books.spreadsheets.columns import header_of, product_columns
from jobs.price_books.spreadsheets.export import product_cells

_NO_COMMAS = "Write it without commas: they may part thousands or pence off."
_STAND_IN = "1"
"""Stands in for a number that is refused already, so that its cell is not told of twice."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One cell that cannot be taken: row as a spreadsheet numbers it, our column, what stands there, why."""

    row: int
    column: str
    cell: str
    words: str


@dataclass(frozen=True, slots=True)
class ReadRow:
    """What one row does: a product to add, one to change with its changes, or neither; or its faults."""

    product: EditionProduct | None = None
    is_new: bool = False
    changes: tuple[Change, ...] = ()
    faults: tuple[Fault, ...] = ()


class _RowForm(ProductForm):
    """The screen's form without what asks the database: the plan has looked at codes already."""

    def clean_code(self) -> str:
        return self.cleaned_data["code"]

    def _get_validation_exclusions(self) -> set[str]:
        """The cost's box says what the table's constraint would, without a question for each row."""
        return {*super()._get_validation_exclusions(), "pack_cost"}


def read_row(
    number: int, cells: dict[str, str], edition: Edition, existing: EditionProduct | None
) -> ReadRow:
    """Read the cells of one row, by our columns' names, over the product that has its code."""
    if existing is not None and product_cells(existing).items() >= cells.items():
        return ReadRow(existing)
    role, fault = _role(number, cells, existing)
    if role is None:
        return ReadRow(faults=(fault,) if fault else ())
    faults = [fault] if fault else []
    faults += [
        Fault(number, name, cells[name], f"No {role} has a {header_of(name)}: leave the cell empty.")
        for name in every_dimension()
        if cells.get(name, "").strip() and name not in dimensions_of(role)
    ]
    before = product_values(existing) if existing is not None else {}
    row = existing or EditionProduct(edition=edition, vat_class=_usual_vat(role))
    form = _RowForm({}, edition=edition, role=role, instance=row)
    form.data, odd = _sent(number, cells, form)
    for field in form.fields.values():
        if isinstance(field, forms.ChoiceField):
            field.error_messages["invalid_choice"] = f"It must be one of: {_allowed(field)}."
    if not form.is_valid():
        faults += [
            Fault(number, name if name in form.fields else "", cells.get(name, ""), words)
            for name, several in form.errors.items()
            for words in several
        ]
    if odd or faults:
        return ReadRow(faults=(*odd, *faults))
    after = product_values(form.instance)
    changes = changes_between(before, after, EditionProduct) if existing is not None else ()
    return ReadRow(form.instance, existing is None, changes)


def _role(
    number: int, cells: dict[str, str], existing: EditionProduct | None
) -> tuple[Role | None, Fault | None]:
    """A product keeps its role: its dimensions hang on it."""
    cell = cells.get("role", "")
    named = as_choice(cell, [(role.value, role.value) for role in Role])
    known = Role(named) if named in list(Role) else None
    allowed = f"It must be one of: {', '.join(Role)}."
    if existing is not None:
        role = Role(existing.role)
        if not cell.strip() or known is role:
            return role, None
        words = f"{existing.code} stays in its role, {role}: use another code for another role."
        return role, Fault(number, "role", cell, words if known else f"{words} {allowed}")
    if known is None:
        words = "Role is missing" if not cell.strip() else "There is no such role"
        return None, Fault(number, "role", cell, f"{words}. {allowed}")
    return known, None


def _usual_vat(role: Role) -> str:
    return kind_of(role).__dataclass_fields__["vat_class"].default.value


def _sent(number: int, cells: dict[str, str], form: ProductForm) -> tuple[dict[str, Any], list[Fault]]:
    """Lay the row's cells over what the product has, as the boxes of the screen would send it.

    An empty cell empties what may be empty; what may not keeps its value, or the usual one of a new product.
    """
    sent: dict[str, Any] = {}
    faults = []
    for name, field in form.fields.items():
        cell = cells.get(name, "")
        held = form.get_initial_for_field(field, name)
        is_tick = isinstance(field, forms.BooleanField)
        keeps = name not in cells or (not cell.strip() and (field.required or is_tick))
        if keeps:
            sent[name] = held
        elif is_tick:
            sent[name] = as_tick(cell)
            if sent[name] is None:
                faults.append(Fault(number, name, cell, "It must be yes or no."))
        elif isinstance(field, forms.ChoiceField):
            sent[name] = as_choice(cell, list(field.choices))
        elif isinstance(field, forms.DecimalField | forms.IntegerField):
            sent[name] = cell
            if not has_one_meaning(cell):
                sent[name] = _STAND_IN
                faults.append(Fault(number, name, cell, _NO_COMMAS))
        else:
            sent[name] = as_text(cell)
    return sent, faults


def emptied_by_an_empty_cell() -> list[str]:
    """Return our columns that an empty cell empties; whatever else a product has stays as it is."""
    forms_of = (ProductForm(edition=Edition(), role=role) for role in Role)
    may_be_empty = {
        name
        for form in forms_of
        for name, field in form.fields.items()
        if not field.required and not isinstance(field, forms.BooleanField)
    }
    return [name for name in product_columns() if name in may_be_empty]


def _allowed(field: forms.ChoiceField) -> str:
    return ", ".join(str(kept) for kept, _words in field.choices if kept)
