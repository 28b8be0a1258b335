"""The products of an edition as CSV or a workbook, one column for each value that any role has."""

from __future__ import annotations

import csv
import io
import re
from datetime import date
from decimal import Decimal
from typing import Any

from jobs.price_books.models import Edition, EditionProduct
from jobs.price_books.row_values import Value, product_values
from jobs.price_books.spreadsheets.cells import as_cell
from jobs.price_books.spreadsheets.columns import header_of, product_columns


def product_cells(row: EditionProduct) -> dict[str, str]:
    """Return one product's cells by our columns' names; what its role does not have is empty."""
    values = product_values(row)
    return {name: as_cell(values.get(name)) for name in product_columns()}


def products_csv(edition: Edition) -> bytes:
    """Return an edition's products; the mark at the beginning tells spreadsheets that it is UTF-8."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow([header_of(name) for name in product_columns()])
    for row in edition.products.all():
        writer.writerow(product_cells(row).values())
    return text.getvalue().encode("utf-8-sig")


def products_xlsx(edition: Edition) -> bytes:
    """Return the same as a workbook: numbers as numbers, days as days, and no text that is run."""
    from openpyxl import Workbook  # noqa: PLC0415 - 30 MB that only a process which writes one needs
    from openpyxl.cell import WriteOnlyCell  # noqa: PLC0415
    from openpyxl.styles import Font  # noqa: PLC0415

    book = Workbook(write_only=True)
    sheet = book.create_sheet("Products")
    sheet.freeze_panes = "C2"

    def cell(value: Any, number_format: str = "") -> Any:
        made = WriteOnlyCell(sheet, value=value)
        if isinstance(value, str):
            made.data_type = "s"  # never a formula and never an error, whatever it looks like
        if number_format:
            made.number_format = number_format
        return made

    heads = [cell(header_of(name)) for name in product_columns()]
    for head in heads:
        head.font = Font(bold=True)
    sheet.append(heads)
    for row in edition.products.all():
        values = product_values(row)
        sheet.append([cell(*_typed(values.get(name))) for name in product_columns()])
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def _typed(value: Value) -> tuple[Any, str]:
    """Return a value as a workbook holds it, with the format that shows its places."""
    if isinstance(value, bool) or not isinstance(value, int | Decimal | date):
        return _NO_PART_OF_XML.sub("", as_cell(value)) or None, "@"
    if isinstance(value, date):
        return value, "yyyy-mm-dd"
    places = -int(value.as_tuple().exponent) if isinstance(value, Decimal) else 0
    return value, "0." + "0" * places if places > 0 else "0"


_NO_PART_OF_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")
