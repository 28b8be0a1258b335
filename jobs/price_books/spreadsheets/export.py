"""The products of an edition as CSV, one column for each value that any role has."""

from __future__ import annotations

import csv
import io

from jobs.price_books.models import Edition, EditionProduct
from jobs.price_books.row_values import product_values
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
