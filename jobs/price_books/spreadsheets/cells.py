"""Values as cells, and cells as the text of a form's boxes."""

from __future__ import annotations

import re
from datetime import date

from jobs.price_books.row_values import Value

_RUN_BY_SPREADSHEETS = re.compile(r"'*[=+\-@\t\r]")
_MADE_PLAIN = re.compile(r"'+[=+\-@\t\r]")
YES, NO = ("yes", "y", "true", "1"), ("no", "n", "false", "0")


def as_cell(value: Value) -> str:
    """Write a value; a text that a spreadsheet would run as a formula gets an apostrophe before it."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, date):
        return value.isoformat()
    if not isinstance(value, str):
        return f"{value:f}" if not isinstance(value, int) else str(value)
    return f"'{value}" if _RUN_BY_SPREADSHEETS.match(value) else value


def as_text(cell: str) -> str:
    """Read a text back: the apostrophe that `as_cell` may have written is taken off, and no other."""
    return cell[1:] if _MADE_PLAIN.match(cell) else cell


def has_one_meaning(number: str) -> bool:
    """Tell whether a number is the same to everybody: 1,234 is another one where commas part pence off."""
    return "," not in number or "." in number


def as_tick(cell: str) -> bool | None:
    """Read yes or no, in any of the ways that spreadsheets write them; None for anything else."""
    word = cell.strip().casefold()
    return True if word in YES else False if word in NO else None


def as_choice(cell: str, choices: list[tuple[str, str]]) -> str:
    """Read one of a box's choices by what it is kept as or by its words; anything else is left as it is."""
    word = cell.strip().casefold()
    for kept, words in choices:
        if word in (kept.casefold(), words.casefold()):
            return kept
    return cell.strip()
