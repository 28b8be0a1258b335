"""A file as spreadsheets write it: any usual encoding and separator, and nothing larger than may be read."""

from __future__ import annotations

import codecs
import io
import zipfile
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.price_books.spreadsheets.bounds import MOST_BYTES, MOST_ROWS, CannotRead
from jobs.price_books.spreadsheets.cells import as_cell, as_text, has_one_meaning
from jobs.price_books.spreadsheets.reading import read_table

TEXT = 'code{0}description{0}pack cost\r\nWOOL{0}"Gwlân £ é, ""best"""{0}23.90\r\n'
WELSH = 'Gwlân £ é, "best"'


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize(
    ("mark", "encoding"),
    [
        (b"", "utf-8"),
        (codecs.BOM_UTF8, "utf-8"),
        (codecs.BOM_UTF16_LE, "utf-16-le"),
        (codecs.BOM_UTF16_BE, "utf-16-be"),
        (b"", "utf-16-le"),
        (b"", "utf-16-be"),
        (b"", "cp1252"),
    ],
)
def test_usual_encodings_and_separators_say_the_same(separator, mark, encoding):
    table = read_table("list.csv", mark + TEXT.format(separator).encode(encoding))
    assert table.headers == ("code", "description", "pack cost")
    assert table.rows == ((2, ("WOOL", WELSH, "23.90")),)


def test_a_line_that_names_the_separator_is_believed():
    table = read_table("list.csv", b"sep=;\ncode;description\nA,1;B\n")
    assert table.rows == ((2, ("A,1", "B")),)


def test_empty_rows_are_left_out_and_rows_keep_their_numbers():
    table = read_table("list.csv", b"\r\ncode,description,,\r\n,,\r\nA,B\r\n")
    assert table.headers == ("code", "description")
    assert table.rows == ((4, ("A", "B")),)


def workbook() -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/worksheets/sheet1.xml", b"0" * (64 * 1024 * 1024))
    return packed.getvalue()


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("list.csv", b"", "empty"),
        ("list.csv", b" , \r\n", "empty"),
        ("list.csv", b"a" * (MOST_BYTES + 1), "larger than 2 MB"),
        ("list.csv", b"code\n" + b"A\n" * (MOST_ROWS + 1), "more than 5000 rows"),
        ("list.csv", b"code\n" + b"\n" * (6 * MOST_ROWS), "more than 5000 rows"),
        ("list.csv", b"a," * 100 + b"b\n", "101 columns"),
        ("list.csv", b'code,"descr\nA,B\n', "cannot be read"),
        ("list.csv", b'code,x\nA,"' + b"b" * 200_000 + b'"\n', "field larger than field limit"),
        ("list.csv", b"\xff\xfe\x00", "letters"),
        ("list.csv", b"code,\x81\n", "letters"),
        ("list.csv", b"code,desc\nAAAAAAAAAA,\x00BBBBBBBBBBBBBBBBBB\n", "not text"),
        ("list.xlsx", workbook(), "unpacks to more than a price list can be"),
        ("list.csv", workbook(), "is called .csv but is no such file"),
        ("list.xlsx", b"code\n", "is called .xlsx but is no such file"),
        ("list.xlsx", b"\xd0\xcf\x11\xe0" * 99, "Only XLSX and CSV"),
        ("list.xlsm", workbook(), "Only XLSX and CSV"),
        ("list.exe", b"code\n", "Only XLSX and CSV"),
    ],
)
def test_what_cannot_be_read_says_what_to_do(name, content, words):
    with pytest.raises(CannotRead, match=words):
        read_table(name, content)


@given(content=st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(content):
    with suppress(CannotRead):
        assert read_table("list.csv", content).headers


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_a_cell_that_a_spreadsheet_would_run_is_made_plain_and_read_back(start):
    for text in (f"{start}1+1", f"'{start}1", f"''{start}"):
        assert as_cell(text) == f"'{text}"
        assert as_text(as_cell(text)) == text
    assert as_cell("'tis") == as_text("'tis") == "'tis"


@given(text=st.text())
def test_every_text_is_read_back_as_it_was(text):
    cell = as_cell(text)
    assert as_text(cell) == text
    assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))


@pytest.mark.parametrize(
    ("cell", "one"), [("£1,234.50", True), ("23.90", True), ("7", True), ("1,234", False), ("23,90", False)]
)
def test_a_number_is_read_only_where_it_has_one_meaning(cell, one):
    assert has_one_meaning(cell) is one
