"""A workbook's first sheet to rows of text, as whoever filled it in reads it.

Only values are read: no formula is worked out, no macro run, no other file fetched. What a workbook unpacks
to is bounded before anything of it is unpacked.
"""

from __future__ import annotations

import io
import re
import zipfile
import zlib
from collections.abc import Iterable, Iterator
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from jobs.price_books.spreadsheets.bounds import MOST_COLUMNS, MOST_ROWS, CannotRead
from jobs.price_books.spreadsheets.cells import as_cell

MOST_UNPACKED = 24 * 1024 * 1024
MOST_OF_A_SMALL_PART = 512 * 1024
MOST_PARTS = 300
MOST_CELLS = 1_000_000
_LARGE_PARTS = re.compile(r"xl/(worksheets/[^/]+|sharedStrings)\.xml", re.IGNORECASE)
_NOT_READ = re.compile(
    r"xl/(media|drawings|charts|embeddings|printerSettings|vbaProject\.bin)", re.IGNORECASE
)
_PLACES = re.compile(r"0\.(0+)")
_LEADING_NOUGHTS = re.compile(r"0{2,}")
_NOT_A_WORKBOOK = "The file is not a workbook that can be read: save it as XLSX anew, or as “CSV UTF-8”."
_SHOWN = 5


def read_workbook(content: bytes) -> list[list[str]]:
    """Read the rows of a workbook's first sheet; raises CannotRead."""
    from openpyxl import load_workbook  # noqa: PLC0415 - 30 MB that only a process which reads one needs

    _refuse_what_unpacks_too_far(content)
    try:
        book = load_workbook(io.BytesIO(content), read_only=True, keep_links=False)
        sheet = next(sheet for sheet in book.worksheets if sheet.sheet_state == "visible")
        sheet.reset_dimensions()  # what the file says of its own size is not believed
        return _rows(sheet.rows)
    except CannotRead:
        raise
    except Exception as fault:  # whatever a file that was tampered with makes of the library
        raise CannotRead(_NOT_A_WORKBOOK) from fault


def _refuse_what_unpacks_too_far(content: bytes) -> None:
    """Look at what the parts say they unpack to: no more than that is ever unpacked of them."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            parts = packed.infolist()
            read = [part for part in parts if not _NOT_READ.match(part.filename)]
            too_far = sum(part.file_size for part in read) > MOST_UNPACKED or any(
                part.file_size > MOST_OF_A_SMALL_PART and not _LARGE_PARTS.fullmatch(part.filename)
                for part in read
            )
            if too_far or len(parts) > MOST_PARTS:
                raise CannotRead("The workbook unpacks to more than a price list can be: send it as CSV.")
            if any(part.flag_bits & 1 for part in parts):
                raise CannotRead("The workbook is locked with a password: save it without.")
            if any(_declares_entities(packed.read(part)) for part in read):
                raise CannotRead(_NOT_A_WORKBOOK)
    except (zipfile.BadZipFile, zlib.error, NotImplementedError, OSError, EOFError, ValueError) as fault:
        raise CannotRead(_NOT_A_WORKBOOK) from fault


def _declares_entities(part: bytes) -> bool:
    """No spreadsheet writes a document type; one that is there may grow without end while it is read."""
    return b"<!DOCTYPE" in part.replace(b"\0", b"").upper()


def _rows(rows: Iterable[tuple[Any, ...]]) -> list[list[str]]:
    """Take the text of every row; say of all cells that cannot be taken where they are."""
    found, formulas, faults, visited = [], [], [], 0
    for number, row in enumerate(rows, start=1):
        visited += len(row)
        if number > 4 * MOST_ROWS or visited > MOST_CELLS:
            raise CannotRead(
                f"The sheet has more than {MOST_ROWS} rows, or is far too wide: send it in parts."
            )
        cells = _without_empty_end(row)
        if len(cells) > MOST_COLUMNS:
            raise CannotRead(f"Row {number} has a cell beyond column {MOST_COLUMNS}: take it out.")
        formulas += [place for place, cell in _placed(cells, number) if cell.data_type == "f"]
        faults += [place for place, cell in _placed(cells, number) if cell.data_type == "e"]
        found.append([_text(cell) for cell in cells])
    if formulas:
        raise CannotRead(
            f"Formulas are not worked out here, and {_listed(formulas)}. Paste them as values, and send the "
            "file again."
        )
    if faults:
        raise CannotRead(f"A spreadsheet's error cannot be read, and {_listed(faults)}.")
    return found


def _placed(cells: tuple[Any, ...], number: int) -> Iterator[tuple[str, Any]]:
    for column, cell in enumerate(cells, start=1):
        yield f"{_letters(column)}{number}", cell


def _letters(column: int) -> str:
    """Name a column as spreadsheets do: A, Z, AA."""
    before, last = divmod(column - 1, 26)
    return (_letters(before) if before else "") + chr(ord("A") + last)


def _listed(places: list[str]) -> str:
    """Name the cells: "B2 holds one", "B2, B3 and 40 more cells hold one"."""
    named, more = places[:_SHOWN], len(places) - _SHOWN
    if more > 0:
        return f"{', '.join(named)} and {more} more hold one"
    return f"{', '.join(named)} {'holds' if len(named) == 1 else 'hold'} one"


def _without_empty_end(row: tuple[Any, ...]) -> tuple[Any, ...]:
    end = len(row)
    while end and row[end - 1].value in (None, ""):
        end -= 1
    return row[:end]


def _text(cell: Any) -> str:
    """Write a cell's value as the same value is exported, numbers with the places that its format shows."""
    value = cell.value
    if isinstance(value, bool) or value is None or isinstance(value, str):
        return value if isinstance(value, str) else as_cell(value)
    if isinstance(value, datetime):
        return value.date().isoformat() if value.time() == datetime.min.time() else value.isoformat(" ")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, int | float):
        return _number(value, str(cell.number_format or ""))
    return str(value)


def _number(value: float, shown_as: str) -> str:
    """Spreadsheets show fifteen digits, and keep 18.399999999999999 where 18.4 was typed."""
    exact = Decimal(f"{value:.15g}")
    places = _PLACES.fullmatch(shown_as)
    if places is not None:
        shown = exact.quantize(Decimal(1).scaleb(-len(places[1])))
        exact = shown if shown == exact else exact
    text = f"{exact:f}"
    return text.zfill(len(shown_as)) if _LEADING_NOUGHTS.fullmatch(shown_as) and text.isdigit() else text
