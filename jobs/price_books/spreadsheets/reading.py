"""A file's bytes to a table of text, whatever encoding and separator a spreadsheet wrote it with."""

from __future__ import annotations

import codecs
import csv
import io
import itertools
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import PurePath

from jobs.price_books.spreadsheets.bounds import MOST_BYTES, MOST_COLUMNS, MOST_ROWS, CannotRead
from jobs.price_books.spreadsheets.workbook import read_workbook

SEPARATORS = (",", ";", "\t")
_WORKBOOK = b"PK\x03\x04"
_OLD_WORKBOOK = b"\xd0\xcf\x11\xe0"
_TELLING = 0.2
"""So large a part of noughts at every other byte is UTF-16 without a mark."""


@dataclass(frozen=True, slots=True)
class Table:
    """The first row's names, and the rows under it with their numbers as a spreadsheet shows them."""

    headers: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]


def read_table(name: str, content: bytes) -> Table:
    """Read a file by its ending; raises CannotRead."""
    if len(content) > MOST_BYTES:
        raise CannotRead("The file is larger than 2 MB: send it in parts.")
    ending = PurePath(name).suffix.lower()
    reader = READERS.get(ending)
    if reader is None or content.startswith(_OLD_WORKBOOK):
        raise CannotRead("Only XLSX and CSV files can be read: save the sheet as one of them.")
    if (reader is read_workbook) != content.startswith(_WORKBOOK):
        raise CannotRead(f"The file is called {ending} but is no such file: save the sheet anew.")
    return _as_table(reader(content))


def _as_table(rows: list[list[str]]) -> Table:
    """Take the first row that says anything for the names; leave empty rows out, and keep every number."""
    numbered = [
        (number, row) for number, row in enumerate(rows, start=1) if any(cell.strip() for cell in row)
    ]
    if not numbered:
        raise CannotRead("The file is empty.")
    (_, headers), *below = numbered
    while headers and not headers[-1].strip():
        headers = headers[:-1]
    if len(headers) > MOST_COLUMNS:
        raise CannotRead(f"The file has {len(headers)} columns; at most {MOST_COLUMNS} are read.")
    if len(below) > MOST_ROWS:
        raise CannotRead(f"The file has more than {MOST_ROWS} rows: send it in parts.")
    return Table(tuple(headers), tuple((number, tuple(row)) for number, row in below))


def read_text(content: bytes) -> list[list[str]]:
    """Read comma, semicolon or tab separated text."""
    text = _decoded(content)
    if "\0" in text:
        raise CannotRead("The file is not text: save the sheet as CSV.")
    first, _, rest = text.partition("\n")
    if first.strip().lower().startswith("sep=") and first.strip()[4:] in SEPARATORS:
        return _parsed(rest, first.strip()[4:])
    if first.rstrip("\r").lower() == "sep=\t":
        return _parsed(rest, "\t")
    return _parsed(text, _separator(text))


def _decoded(content: bytes) -> str:
    """Go by the mark at the beginning, else by what the bytes can be."""
    if content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        tries = ["utf-16"]
    elif _noughts(content[1::2]) > _TELLING:
        tries = ["utf-16-le"]
    elif _noughts(content[::2]) > _TELLING:
        tries = ["utf-16-be"]
    else:
        tries = ["utf-8-sig", "cp1252"]
    for encoding in tries:
        try:
            return content.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise CannotRead("The letters of the file cannot be read: save the sheet as “CSV UTF-8”.")


def _noughts(some: bytes) -> float:
    return some.count(0) / len(some) if some else 0


def _separator(text: str) -> str:
    """Take the separator that parts the first row into the most cells; a comma where none does."""

    def cells(separator: str) -> int:
        lines = io.StringIO(text.lstrip("\r\n"), newline="")
        try:
            return len(next(csv.reader(lines, delimiter=separator), []))
        except csv.Error:
            return 0

    return max(SEPARATORS, key=cells)


def _parsed(text: str, separator: str) -> list[list[str]]:
    """Stop soon after the most rows that are read, so that no file costs more than it may."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    try:
        rows = list(itertools.islice(reader, 4 * MOST_ROWS))
    except csv.Error as fault:
        raise CannotRead(f"Row {reader.line_num} cannot be read: {fault}.") from fault
    if len(rows) == 4 * MOST_ROWS:
        raise CannotRead(f"The file has more than {MOST_ROWS} rows: send it in parts.")
    return rows


READERS: dict[str, Callable[[bytes], list[list[str]]]] = {
    ".csv": read_text,
    ".tsv": read_text,
    ".txt": read_text,
    ".xlsx": read_workbook,
}
"""What reads a file, by its ending. A reader takes the bytes and returns rows of text; it refuses by
CannotRead, and one that unpacks must bound what it unpacks before it does."""
