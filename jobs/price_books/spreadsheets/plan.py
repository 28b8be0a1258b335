"""Everything that a file would do to an edition, or everything that keeps it from doing anything."""

from __future__ import annotations

import hashlib
from collections import Counter
from copy import copy
from dataclasses import dataclass

from jobs.price_books.models import Edition
from jobs.price_books.row_values import product_values
from jobs.price_books.spreadsheets.cells import as_text
from jobs.price_books.spreadsheets.columns import Columns, find_columns
from jobs.price_books.spreadsheets.reading import Table
from jobs.price_books.spreadsheets.rows import Fault, ReadRow, read_row


@dataclass(frozen=True, slots=True)
class Plan:
    """What each row does. It may be taken only while it has no fault and does something."""

    columns: Columns
    rows: tuple[ReadRow, ...] = ()
    faults: tuple[Fault, ...] = ()
    untouched: int = 0

    @property
    def added(self) -> list[ReadRow]:
        return [row for row in self.rows if row.is_new]

    @property
    def changed(self) -> list[ReadRow]:
        return [row for row in self.rows if row.changes]

    @property
    def same(self) -> int:
        """How many rows say what the edition says already."""
        return len(self.rows) - len(self.added) - len(self.changed)

    @property
    def may_be_taken(self) -> bool:
        return self.columns.may_be_read and not self.faults and bool(self.added or self.changed)

    @property
    def digest(self) -> str:
        """What was shown, so that nothing else is taken: the edition may change between the two steps."""
        shown = [
            [
                sorted((name, str(value)) for name, value in product_values(row.product).items()),
                str(row.changes),
            ]
            for row in (*self.added, *self.changed)
            if row.product is not None
        ]
        return hashlib.sha256(repr(shown).encode()).hexdigest()


def plan_import(edition: Edition, table: Table, remembered: dict[str, str]) -> Plan:
    """Read every row of a table against an edition; nothing is written.

    While a heading is unknown, only what is wrong under the others is told: what a row would do hangs on it.
    """
    columns = find_columns(table.headers, remembered)
    if columns.faults:
        return Plan(columns)
    held = {row.code: row for row in edition.products.all()}
    all_cells = [(number, _named(columns, cells)) for number, cells in table.rows]
    codes = Counter(_code(cells) for _number, cells in all_cells)
    rows, faults = [], []
    for (number, cells), (_, raw) in zip(all_cells, table.rows, strict=True):
        own = list(_beyond(number, raw, len(columns.headers)))
        code = _code(cells)
        if code and codes[code] > 1:
            own.append(Fault(number, "code", code, f"Code {code} stands in {codes[code]} rows."))
        # A row is read into its product, and every row of one code is shown against what the edition says.
        existing = copy(held[code]) if code in held and codes[code] > 1 else held.get(code)
        read = read_row(number, cells, edition, existing)
        faults += [*own, *read.faults]
        rows.append(read)
    if columns.unknown:
        return Plan(columns, faults=tuple(each for each in faults if each.column in ("", *columns.ours)))
    untouched = len(held.keys() - codes.keys())
    return Plan(columns, tuple(rows), tuple(faults), untouched)


def _named(columns: Columns, cells: tuple[str, ...]) -> dict[str, str]:
    """Return a row's cells by our names, as they stand."""
    padded = (*cells, *([""] * (len(columns.ours) - len(cells))))
    return {our: cell for our, cell in zip(columns.ours, padded, strict=False) if our}


def _code(cells: dict[str, str]) -> str:
    """Return a row's code as the form will keep it, to find its product by."""
    return as_text(cells["code"]).strip()


def _beyond(number: int, cells: tuple[str, ...], width: int) -> list[Fault]:
    """A cell beyond the last heading is a separator too many, and would shift the rest of the row."""
    beyond = [cell for cell in cells[width:] if cell.strip()]
    return [Fault(number, "", beyond[0], "There are more cells than headings.")] if beyond else []
