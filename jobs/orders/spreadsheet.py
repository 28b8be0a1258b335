"""A materials order as CSV, for a supplier's own system."""

from __future__ import annotations

import csv
import io
from decimal import Decimal

from jobs.orders.models import MaterialsOrder

HEADERS = (
    "supplier code", "code", "description", "packs", "pieces in a pack",
    "pack cost GBP", "cost GBP", "weight kg",
)  # fmt: skip
RUN_BY_SPREADSHEETS = ("=", "+", "-", "@", "\t", "\r")


def order_csv(order: MaterialsOrder) -> str:
    """Return an order's lines as CSV, costs without VAT."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(HEADERS)
    for line in order.lines.all():
        cells = (
            line.supplier_code, line.code, line.description, line.packs, line.pack_size,
            line.pack_cost, line.cost, line.weight_kg,
        )  # fmt: skip
        writer.writerow([plain_cell(cell) for cell in cells])
    return text.getvalue()


def plain_cell(cell: str | int | Decimal) -> str:
    """Return a cell that no spreadsheet takes for a formula; numbers stay numbers."""
    text = str(cell)
    starts_one = isinstance(cell, str) and text.startswith(RUN_BY_SPREADSHEETS)
    return f"'{text}" if starts_one else text
