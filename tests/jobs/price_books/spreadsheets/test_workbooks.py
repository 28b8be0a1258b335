"""Workbooks in and out: values as they were typed, nothing run, nothing unpacked without bound."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from contextlib import suppress
from datetime import date, datetime
from decimal import Decimal
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import Workbook, load_workbook

from jobs.demo.price_book import demo_price_book
from jobs.price_books.as_price_book import fill_edition
from jobs.price_books.models import Edition, EditionProduct
from jobs.price_books.spreadsheets.bounds import MOST_COLUMNS, MOST_ROWS, CannotRead
from jobs.price_books.spreadsheets.columns import header_of, product_columns
from jobs.price_books.spreadsheets.export import product_cells, products_csv, products_xlsx
from jobs.price_books.spreadsheets.plan import plan_import
from jobs.price_books.spreadsheets.reading import read_table

DATED = date(2026, 11, 1)
MIDNIGHT = datetime(2026, 11, 1)


@pytest.fixture
def open_edition(firm) -> Edition:
    edition = Edition.objects.create(name="Winter", dated=DATED, hourly_cost=1)
    fill_edition(edition, demo_price_book(firm=firm.name, dated=DATED))
    return edition


def workbook(*rows: tuple[Any, ...], then: Callable[[Any], None] = lambda _sheet: None) -> bytes:
    """Return a workbook as a spreadsheet saves it."""
    book = Workbook()
    for row in rows:
        book.active.append(row)
    then(book.active)
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def with_part(content: bytes, name: str, part: bytes) -> bytes:
    """Return a workbook in which one part is another, or is added."""
    changed = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(content)) as old,
        zipfile.ZipFile(changed, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for each in old.infolist():
            if each.filename != name:
                new.writestr(each, old.read(each))
        new.writestr(name, part)
    return changed.getvalue()


def rows_of(content: bytes) -> list[tuple[str, ...]]:
    return [cells for _number, cells in read_table("list.xlsx", content).rows]


def test_values_are_read_as_they_were_typed():
    def formats(sheet) -> None:
        sheet["D2"].number_format = "0.00"
        sheet["E2"].number_format = "00000"

    content = workbook(
        ("text", "float", "whole", "places", "code", "day", "moment", "tick", "nothing", "digits"),
        ("Gwlân £", 18.399999999999999, 12, 23.9, 123, DATED, MIDNIGHT, True, None, "007"),
        then=formats,
    )  # fmt: skip
    assert rows_of(content) == [
        ("Gwlân £", "18.4", "12", "23.90", "00123", "2026-11-01", "2026-11-01", "yes", "", "007")
    ]


def test_rows_keep_their_numbers_over_empty_ones():
    def far_below(sheet) -> None:
        sheet["A9"] = "B"

    table = read_table("list.xlsx", workbook(("code",), ("A",), then=far_below))
    assert table.rows == ((2, ("A",)), (9, ("B",)))


def test_every_formula_and_error_is_named_and_none_is_worked_out():
    content = workbook(("code", "pack cost"), ("A", "=1+1"), ("B", 5), ("C", '=HYPERLINK("http://x")'))
    with pytest.raises(CannotRead, match=r"B2, B4 hold one\. Paste them as values"):
        read_table("list.xlsx", content)
    many = workbook(("code",), *((f"={number}",) for number in range(40)))
    with pytest.raises(CannotRead, match="A2, A3, A4, A5, A6 and 35 more hold one"):
        read_table("list.xlsx", many)
    with pytest.raises(CannotRead, match="error cannot be read, and A2 holds one"):
        read_table("list.xlsx", workbook(("code",), ("#N/A",)))


def test_only_the_first_sheet_that_is_shown_is_read():
    book = Workbook()
    book.active.append(("hidden",))
    book.active.sheet_state = "hidden"
    shown, later = book.create_sheet("Prices"), book.create_sheet("Notes")
    shown.append(("code",))
    shown.append(("A",))
    later.append(("other",))
    book.active = 1
    written = io.BytesIO()
    book.save(written)
    table = read_table("list.xlsx", written.getvalue())
    assert (table.headers, table.rows) == (("code",), ((2, ("A",)),))


def test_macros_and_pictures_are_left_alone_however_large():
    content = workbook(("code",), ("A",))
    content = with_part(content, "xl/vbaProject.bin", b"\0" * 40_000_000)
    assert rows_of(content) == [("A",)]


BOMB = b'<worksheet xmlns="x"><sheetData>' + b" " * (64 * 1024 * 1024)
ENTITIES = b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "aaaa">]><worksheet>&a;</worksheet>'


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (with_part(workbook(("code",)), "xl/worksheets/sheet1.xml", BOMB), "unpacks to more"),
        (with_part(workbook(("code",)), "xl/styles.xml", b" " * 600_000), "unpacks to more"),
        (with_part(workbook(("code",)), "xl/worksheets/sheet1.xml", ENTITIES), "not a workbook"),
        (
            with_part(workbook(("code",)), "xl/worksheets/sheet1.xml", ENTITIES.decode().encode("utf-16")),
            "not a workbook",
        ),
        (with_part(workbook(("code",)), "xl/workbook.xml", b"<workbook/>"), "not a workbook"),
        (workbook(("code",))[:-200], "not a workbook"),
        (b"PK\x03\x04" + b"x" * 99, "not a workbook"),
        (workbook(("code",), ("A",) * (MOST_COLUMNS + 1)), f"beyond column {MOST_COLUMNS}"),
        (workbook(("code",), *([("A",)] * (MOST_ROWS + 1))), "more than 5000 rows"),
        (workbook(("code",), then=lambda sheet: sheet.cell(1_048_576, 1, "A")), "more than 5000 rows"),
        (workbook(()), "empty"),
    ],
)
def test_what_cannot_be_read_is_refused(content, words):
    with pytest.raises(CannotRead, match=words):
        read_table("list.xlsx", content)


def test_a_sheet_of_far_cells_is_refused_before_they_fill_the_memory():
    def wide(sheet) -> None:
        for row in range(1, 80):
            sheet.cell(row, 16_384).number_format = "0.00"

    with pytest.raises(CannotRead, match="far too wide"):
        read_table("list.xlsx", workbook(("code",), then=wide))


@settings(max_examples=60, deadline=None)
@given(place=st.integers(0, 4000), what=st.binary(min_size=1, max_size=40))
def test_a_damaged_workbook_is_read_or_refused(place, what):
    whole = workbook(("code", "pack cost"), ("A", 5))
    damaged = whole[:place] + what + whole[place + len(what) :]
    with suppress(CannotRead):
        assert read_table("list.xlsx", damaged).headers


WORDS = st.text(
    st.characters(exclude_categories=("Cs", "Cc"), exclude_characters="\ufffe\uffff"), min_size=1, max_size=20
).map(str.strip).filter(bool)  # fmt: skip


@pytest.mark.django_db
@settings(max_examples=30, deadline=None)
@given(
    text=WORDS | st.sampled_from(["=1+1", "+44", "-x", "@home", "'=x", "#N/A", "00123", "1e5", "TRUE"]),
    cost=st.decimals(Decimal("0.01"), 999_999, places=2),
    weight=st.decimals(0, 9999, places=3),
    checked=st.none() | st.dates(date(1990, 1, 1), date(2090, 1, 1)),
)
def test_importing_what_was_exported_changes_nothing(text, cost, weight, checked):
    edition, _ = Edition.objects.get_or_create(name="Any", defaults={"dated": DATED, "hourly_cost": 1})
    edition.products.all().delete()
    row = EditionProduct(
        edition=edition, role="light", code="L", description=text, supplier=text, pack_cost=cost,
        weight_kg=weight, checked_on=checked,
    )  # fmt: skip
    row.save()
    row.refresh_from_db()
    table = read_table("list.xlsx", products_xlsx(edition))
    plan = plan_import(edition, table, {})
    assert (plan.faults, plan.added, plan.changed, plan.same) == ((), [], [], 1)
    assert (
        table.rows[0][1][: len(product_cells(row))]
        == tuple(product_cells(row).values())[: len(table.rows[0][1])]
    )


@pytest.mark.django_db
def test_the_demos_price_book_comes_back_and_makes_the_same_edition(open_edition):
    exported = products_xlsx(open_edition)
    plan = plan_import(open_edition, read_table("list.xlsx", exported), {})
    assert (plan.faults, plan.added, plan.changed) == ((), [], [])
    assert plan.same == open_edition.products.count()
    empty = Edition.objects.create(name="Empty", dated=DATED, hourly_cost=1)
    plan = plan_import(empty, read_table("list.xlsx", exported), {})
    EditionProduct.objects.bulk_create([row.product for row in plan.added])
    assert products_csv(empty) == products_csv(open_edition)


@pytest.mark.django_db
def test_an_export_holds_numbers_and_days_and_runs_nothing(open_edition, office, logged_in):
    open_edition.products.filter(code="WOOL-100").update(description="=1+1", pack_cost=Decimal("23.90"))
    answer = logged_in(office).get(reverse("edition_workbook", args=[open_edition.pk]))
    assert answer["Content-Disposition"] == 'attachment; filename="price-book-winter.xlsx"'
    sheet = load_workbook(io.BytesIO(answer.content)).active
    heads = [cell.value for cell in sheet[1]]
    assert heads == [header_of(name) for name in product_columns()]
    wool = next(row for row in sheet.iter_rows(min_row=2) if row[0].value == "WOOL-100")
    cells = dict(zip(heads, wool, strict=True))
    assert (cells["description"].value, cells["description"].data_type) == ("'=1+1", "s")
    assert (cells["pack cost"].value, cells["pack cost"].number_format) == (23.9, "0.00")
    assert cells["checked on"].is_date
    assert not [cell for row in sheet for cell in row if cell.data_type == "f"]


@pytest.mark.django_db
def test_a_workbook_is_sent_looked_at_and_taken(open_edition, owner, logged_in):
    client = logged_in(owner)
    file = SimpleUploadedFile("list.xlsx", workbook(("code", "pack cost"), ("WOOL-100", 25.93)))
    preview = client.post(reverse("import_new", args=[open_edition.pk]), {"file": file}).url
    page = client.get(preview)
    client.post(preview + "take/", {"shown": page.context["plan"].digest})
    assert open_edition.products.get(code="WOOL-100").pack_cost == Decimal("25.93")
    refused = client.post(
        reverse("import_new", args=[open_edition.pk]),
        {"file": SimpleUploadedFile("list.xlsx", workbook(("code",), ("=1",)))},
    )
    assert refused.status_code == 422
    assert "Formulas are not worked out here" in refused.content.decode()


@pytest.mark.django_db
@pytest.mark.parametrize(("person", "status"), [("office", 200), ("surveyor", 403), ("crew", 403)])
def test_whoever_reads_the_price_book_takes_it_out(open_edition, request, logged_in, person, status):
    client = logged_in(request.getfixturevalue(person))
    assert client.get(reverse("edition_workbook", args=[open_edition.pk])).status_code == status
