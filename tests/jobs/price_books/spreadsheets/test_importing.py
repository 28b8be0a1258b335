"""Products out to a spreadsheet and back: all or nothing, every fault at once, a round trip no change."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from datetime import date, timedelta
from decimal import Decimal
from typing import Any, get_args

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.price_book import Role
from estimating.survey import InsulationMaterial
from estimating.ways_to_price import VatClass
from jobs.demo.price_book import demo_price_book
from jobs.price_books.as_price_book import as_price_book, fill_edition
from jobs.price_books.import_models import ColumnMapping, PriceImport
from jobs.price_books.models import Edition, EditionProduct
from jobs.price_books.row_values import dimensions_of
from jobs.price_books.services import close_edition
from jobs.price_books.spreadsheets.columns import header_of, product_columns
from jobs.price_books.spreadsheets.export import product_cells, products_csv
from jobs.price_books.spreadsheets.importing import (
    PlanChanged,
    forget_ended_imports,
    keep_import,
    plan_of,
    remember_columns,
    take_import,
)
from jobs.price_books.spreadsheets.plan import Plan, plan_import
from jobs.price_books.spreadsheets.reading import read_table
from jobs.tasks import run_due

pytestmark = pytest.mark.django_db
DATED = date(2026, 11, 1)


@pytest.fixture
def open_edition(firm) -> Edition:
    edition = Edition.objects.create(name="Winter", dated=DATED, hourly_cost=1)
    fill_edition(edition, demo_price_book(firm=firm.name, dated=DATED))
    return edition


def as_file(*rows: Iterable[str]) -> bytes:
    text = io.StringIO(newline="")
    csv.writer(text).writerows(rows)
    return text.getvalue().encode()


def planned(edition: Edition, content: bytes, remembered: dict[str, str] | None = None) -> Plan:
    return plan_import(edition, read_table("list.csv", content), remembered or {})


def faults_of(plan: Plan) -> list[tuple[int, str, str]]:
    return [(fault.row, fault.column, fault.words) for fault in plan.faults]


# What may stand in a row: text as the screen's boxes keep it, and numbers as the columns hold them.
WORDS = st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\0"), max_size=30).map(
    str.strip
)
SOME_WORDS = WORDS.filter(bool)
BY_TYPE: dict[Any, st.SearchStrategy[Any]] = {
    bool: st.booleans(),
    str: WORDS,
    int: st.integers(1, 10**6),
    int | None: st.none() | st.integers(1, 10**6),
    Decimal: st.decimals(Decimal("0.001"), 1000, places=3).map(str),
    InsulationMaterial: st.sampled_from([each.value for each in InsulationMaterial]),
}


@st.composite
def product_rows(draw: st.DrawFn) -> EditionProduct:
    role = draw(st.sampled_from(Role))
    dimensions = {
        name: draw(BY_TYPE[hint] if hint in BY_TYPE else st.sampled_from(get_args(hint)))
        for name, hint in dimensions_of(role).items()
    }
    if dimensions.get("floating_end_joints"):
        dimensions |= {"ends": "tg", "floating_source": draw(SOME_WORDS)}
    return EditionProduct(
        role=role.value,
        code=draw(SOME_WORDS),
        description=draw(SOME_WORDS),
        supplier=draw(SOME_WORDS),
        supplier_code=draw(WORDS),
        pack_cost=draw(st.decimals(Decimal("0.01"), 999_999, places=2)),
        pack_size=draw(st.integers(1, 10**6)),
        weight_kg=draw(st.decimals(0, 9999, places=3)),
        vat_class=draw(st.sampled_from([each.value for each in VatClass])),
        checked_on=draw(st.none() | st.dates(date(1990, 1, 1), date(2090, 1, 1))),
        dimensions=dimensions,
    )


@settings(max_examples=60)
@given(rows=st.lists(product_rows(), max_size=6, unique_by=lambda row: row.code))
def test_importing_what_was_exported_changes_nothing(rows):
    edition, _ = Edition.objects.get_or_create(name="Any", defaults={"dated": DATED, "hourly_cost": 1})
    edition.products.all().delete()
    for row in rows:
        row.edition = edition
    EditionProduct.objects.bulk_create(rows)
    exported = products_csv(edition)
    plan = planned(edition, exported)
    assert plan.columns.may_be_read
    assert faults_of(plan) == []
    assert (plan.added, plan.changed, plan.same, plan.untouched) == ([], [], len(rows), 0)
    # The same into an edition without a product makes the same edition.
    empty, _ = Edition.objects.get_or_create(name="Empty", defaults={"dated": DATED, "hourly_cost": 1})
    empty.products.all().delete()
    plan = planned(empty, exported)
    assert faults_of(plan) == []
    EditionProduct.objects.bulk_create([row.product for row in plan.added])
    assert products_csv(empty) == exported


def test_the_demos_price_book_comes_back_through_semicolons_and_spreadsheets_ways(open_edition):
    rows = list(csv.reader(io.StringIO(products_csv(open_edition).decode("utf-8-sig"), newline="")))
    cost = rows[0].index("pack cost")
    for row in rows[1:]:
        row[cost] = f"£{Decimal(row[cost]).normalize():f}"
        row[:] = [cell.upper() if cell in ("yes", "no", "standard", "tg") else cell for cell in row]
    text = io.StringIO(newline="")
    csv.writer(text, delimiter=";").writerows(rows)
    plan = planned(open_edition, text.getvalue().encode("utf-16"))
    assert faults_of(plan) == []
    assert (plan.added, plan.changed) == ([], [])


def test_a_code_that_is_there_is_changed_and_only_in_the_columns_of_the_file(open_edition, owner):
    before = as_price_book(open_edition).product("WOOL-100")
    content = as_file(("Code", "Cost of one pack, £"), ("WOOL-100", "25.93"))
    kept = keep_import(open_edition, name="list.csv", content=content, by=owner)
    plan = plan_of(kept)
    (row,) = plan.changed
    assert [(each.label, each.before, each.after) for each in row.changes] == [
        ("Cost of one pack, £", "23.90", "25.93")
    ]
    take_import(kept, shown=plan.digest)
    after = as_price_book(open_edition).product("WOOL-100")
    assert after.pack_cost == Decimal("25.93")
    assert (after.thickness_mm, after.supplier_code, after.checked_on) == (
        before.thickness_mm, before.supplier_code, before.checked_on,
    )  # fmt: skip
    assert not PriceImport.objects.exists()


@pytest.mark.parametrize("code", ["=1", "'=1", "'\t0", "''@x"])
def test_a_code_that_looks_like_a_formula_finds_its_product_again(open_edition, code):
    open_edition.products.filter(code="WOOL-100").update(code=code)
    plan = planned(open_edition, products_csv(open_edition))
    assert (plan.added, plan.changed, plan.faults) == ([], [], ())


def test_a_new_code_is_added_with_the_usual_values_of_its_role(open_edition, owner):
    content = as_file(
        ("code", "role", "description", "supplier", "pack cost", "thickness mm", "conductivity w mk",
         "coverage m2"),
        ("WOOL-270", "Insulation Roll", "A thick roll", "Ashvale", "31", "270", "0.04", "5.5"),
    )  # fmt: skip
    kept = keep_import(open_edition, name="list.csv", content=content, by=owner)
    take_import(kept, shown=plan_of(kept).digest)
    added = as_price_book(open_edition).product("WOOL-270")
    assert (added.vat_class, added.pack_size, added.weight_kg) == (VatClass.ENERGY_SAVING, 1, 0)
    assert (added.thickness_mm, added.roll_width_mm) == (270, None)


def test_every_bad_cell_is_told_at_once_with_its_row_and_what_it_may_be(open_edition, owner):
    content = as_file(
        ("code", "role", "description", "pack cost", "pack size", "vat class", "height mm", "checked on",
         "at every seam", "supplier"),
        ("PED-175", "pedestal", "Pedestal", "0", "12", "half", "0", "31/02/2026", "perhaps", "B"),
        ("NEW-1", "sprocket", "What", "1", "1", "standard", "", "", "", "B"),
        ("NEW-2", "", "What", "1", "1", "standard", "", "", "", "B"),
        ("WOOL-100", "board", "Wool", "1,234", "1", "standard", "90", "", "", "B"),
        ("", "light", "No code", "1", "1", "standard", "", "", "", "B"),
        ("LIGHT-LED", "", "Light", "1", "1", "standard", "", "", "", "B", "", "stray"),
        ("LIGHT-LED", "", "Light", "1", "1", "standard", "", "", "", "B"),
        ("NEW-3", "screw", "A screw", "1", "1", "standard", "", "", "", "B"),
        ("WOOL-170", "fleece", "Wool", "1", "1", "standard", "", "", "", "B"),
    )  # fmt: skip
    before = products_csv(open_edition)
    plan = planned(open_edition, content)
    told = {(row, column): words for row, column, words in faults_of(plan)}
    assert set(told) == {
        (2, "pack_cost"), (2, "vat_class"), (2, "height_mm"), (2, "checked_on"), (2, "at_every_seam"),
        (3, "role"), (4, "role"), (5, "role"), (5, "height_mm"), (5, "pack_cost"),
        (6, "code"), (7, ""), (7, "code"), (8, "code"), (9, "length_mm"), (9, "fixes"), (10, "role"),
    }  # fmt: skip
    assert told[2, "vat_class"] == f"It must be one of: {', '.join(VatClass)}."
    assert told[2, "at_every_seam"] == "It must be yes or no."
    assert told[3, "role"] == f"There is no such role. It must be one of: {', '.join(Role)}."
    stays = "WOOL-100 stays in its role, insulation roll: use another code for another role."
    assert told[5, "role"] == stays
    assert told[5, "pack_cost"] == "Write it without commas: they may part thousands or pence off."
    allowed = f"It must be one of: {', '.join(Role)}."
    assert told[10, "role"] == f"{stays.replace('100', '170')} {allowed}"
    assert told[5, "height_mm"] == "No insulation roll has a height mm: leave the cell empty."
    assert told[7, ""] == "There are more cells than headings."
    assert told[8, "code"] == "Code LIGHT-LED stands in 2 rows."
    assert told[9, "fixes"] == "Fixes is missing."
    assert not plan.may_be_taken
    kept = keep_import(open_edition, name="list.csv", content=content, by=owner)
    with pytest.raises(PlanChanged):
        take_import(kept, shown=plan.digest)
    assert products_csv(open_edition) == before


def test_an_empty_cell_empties_what_may_be_empty_and_keeps_what_may_not(open_edition):
    content = as_file(
        ("code", "supplier code", "checked on", "pack cost", "top plate mm", "at every seam"),
        ("PED-175", "", "", "", "", ""),
    )
    (row,) = planned(open_edition, content).changed
    assert [(each.label, each.after) for each in row.changes] == [
        ("Supplier's code", "nothing"),
        ("Price checked on", "nothing"),
    ]


@pytest.mark.parametrize(
    ("headers", "words"),
    [
        (("pack cost",), "No column is the code: products are told apart by it."),
        (("code", "", "pack cost"), "Column 2 has no heading."),
        (("code", "Code"), "Two columns are called “code”."),
        (
            ("code", "Cost of one pack, £", "pack cost"),
            "More than one column is read as pack cost: “Cost of one pack, £” and “pack cost”.",
        ),
        (("code", "x" * 121), "The heading of column 2 is longer than 120 letters."),
    ],
)
def test_headings_that_cannot_be_told_apart_are_refused(open_edition, headers, words):
    assert words in planned(open_edition, as_file(headers, ("A", "B", "C"))).columns.faults


def test_a_firms_own_headings_are_asked_about_once_and_remembered(open_edition):
    content = as_file(("CODE", "Our  Price", "Shelf"), ("WOOL-100", "25.93", "7b"))
    plan = planned(open_edition, content)
    assert plan.columns.unknown == ("Our  Price", "Shelf")
    assert not plan.may_be_taken
    remember_columns({"Our  Price": "pack_cost", "Shelf": ""})
    again = dict(ColumnMapping.objects.values_list("theirs", "ours"))
    assert again == {"our price": "pack_cost", "shelf": ""}
    plan = planned(open_edition, content, again)
    assert plan.columns.unknown == ()
    assert plan.columns.remembered == ("Our  Price", "Shelf")
    assert plan.may_be_taken
    remember_columns({"Shelf": None})
    assert not ColumnMapping.objects.filter(theirs="shelf").exists()


def test_what_is_wrong_under_the_known_headings_is_told_beside_the_unknown_ones(open_edition):
    content = as_file(
        ("code", "role", "Our price", "VAT class"),
        ("WOOL-100", "", "25.93", "zero"),
        ("NEW-1", "sprocket", "3.00", "standard"),
        ("NEW-2", "light", "3.00", "standard"),
    )
    plan = planned(open_edition, content)
    told = {(row, column) for row, column, _ in faults_of(plan)}
    assert {(2, "vat_class"), (3, "role")} <= told
    assert not {column for _, column in told} & {"pack_cost", "description"}  # what they mean is not known
    assert (plan.rows, plan.may_be_taken) == ((), False)


def test_our_own_headings_mean_what_we_mean_whatever_is_remembered(open_edition):
    plan = planned(open_edition, products_csv(open_edition), {"pack cost": "weight_kg"})
    assert (plan.added, plan.changed, plan.faults) == ([], [], ())


def test_what_changed_after_the_preview_is_not_taken(open_edition, owner):
    content = as_file(("code", "pack cost"), ("WOOL-100", "25.93"))
    kept = keep_import(open_edition, name="list.csv", content=content, by=owner)
    shown = plan_of(kept).digest
    open_edition.products.filter(code="WOOL-100").update(pack_cost=Decimal("20.00"))
    with pytest.raises(PlanChanged):
        take_import(kept, shown=shown)
    assert open_edition.products.get(code="WOOL-100").pack_cost == Decimal("20.00")
    take_import(kept, shown=plan_of(kept).digest)


def test_a_kept_file_ends_by_itself(open_edition, owner):
    kept = keep_import(open_edition, name="list.csv", content=b"code\nA\n", by=owner)
    now = timezone.now()
    forget_ended_imports(now)
    assert PriceImport.objects.count() == 1
    PriceImport.objects.filter(pk=kept.pk).update(ends_at=now - timedelta(seconds=1))
    run_due(now)
    assert not PriceImport.objects.exists()


def send(client: Client, edition: Edition, content: bytes, name: str = "list.csv") -> Any:
    file = SimpleUploadedFile(name, content)
    return client.post(reverse("import_new", args=[edition.pk]), {"file": file})


def test_a_file_is_sent_looked_at_and_taken(open_edition, owner, logged_in):
    client = logged_in(owner)
    content = as_file(("code", "Our price"), ("WOOL-100", "25.93"))
    preview = send(client, open_edition, content).url
    shown = client.get(preview).content.decode()
    assert "These headings are not known" in shown
    assert "Take all of it" not in shown
    client.post(preview + "columns/", {"column_0": "pack_cost"})
    page = client.get(preview)
    shown = page.content.decode()
    assert "+8.5 %" in shown
    assert client.post(preview + "take/", {"shown": "another"}).url == preview
    answer = client.post(preview + "take/", {"shown": page.context["plan"].digest}, follow=True)
    assert "list.csv is taken: 0 added, 1 changed." in answer.content.decode()
    here = reverse("price_book", args=[open_edition.pk])
    for again, address in ((client.get, ""), (client.post, "take/"), (client.post, "columns/")):
        assert again(preview + address).url == here
        shown = client.get(here).content.decode()
        assert "That file is no longer kept: it was taken already, or its day has passed." in shown
    assert open_edition.products.get(code="WOOL-100").pack_cost == Decimal("25.93")


def test_a_file_that_cannot_be_read_is_refused_where_it_is_sent(open_edition, owner, logged_in):
    client = logged_in(owner)
    for content, words in (
        (b"code\n" + b"x" * 99 + b"\0", "not text"),
        (b"x" * (2 * 1024 * 1024 + 1), "larger than 2 MB"),
    ):
        answer = send(client, open_edition, content)
        assert answer.status_code == 422
        assert words in answer.content.decode()
    assert not PriceImport.objects.exists()


def test_a_file_whose_day_has_passed_is_told_of(open_edition, owner, logged_in):
    kept = keep_import(open_edition, name="list.csv", content=b"code\nA\n", by=owner)
    PriceImport.objects.update(ends_at=timezone.now())
    client, preview = logged_in(owner), reverse("import_preview", args=[open_edition.pk, kept.pk])
    assert "That file is no longer kept" in client.get(preview, follow=True).content.decode()


def test_every_row_of_one_code_is_shown_against_the_edition(open_edition):
    now = open_edition.products.get(code="WOOL-100").pack_cost
    content = as_file(("code", "pack cost"), ("WOOL-100", "25.93"), ("WOOL-100", "26.50"))
    plan = planned(open_edition, content)
    changes = [(each.before, each.after) for row in plan.changed for each in row.changes]
    assert changes == [(f"{now}", "25.93"), (f"{now}", "26.50")]
    assert not plan.may_be_taken


def test_the_import_page_says_what_an_empty_cell_does_and_it_does_that(open_edition, owner, logged_in):
    page = logged_in(owner).get(reverse("import_new", args=[open_edition.pk]))
    emptied = page.context["emptied"]
    assert f"only {', '.join(emptied)} are emptied by it" in page.content.decode()
    open_edition.products.update(supplier_code="K-77", checked_on=DATED)
    for product in open_edition.products.all():
        before = product_cells(product)
        empty = as_file(
            map(header_of, before), ["" if name != "code" else cell for name, cell in before.items()]
        )
        plan = planned(open_edition, empty)
        assert not plan.faults
        (row,) = plan.rows
        after = product_cells(row.product)
        changed = {header_of(name) for name in before if before[name] != after[name]}
        filled = {header_of(name) for name, cell in before.items() if cell}
        assert changed == filled & set(emptied)
    new = {"code": "NEW-1", "role": "light", "description": "A light", "supplier": "B", "pack size": ""}
    plan = planned(open_edition, as_file([*new, "pack cost"], [*new.values(), ""]))
    assert faults_of(plan) == [(2, "pack_cost", "Cost of one pack, £ is missing.")]


def test_only_whoever_sent_a_file_goes_on_with_it(open_edition, owner, office, logged_in):
    kept = keep_import(open_edition, name="list.csv", content=b"code\nA\n", by=office)
    preview = reverse("import_preview", args=[open_edition.pk, kept.pk])
    assert logged_in(owner).get(preview).status_code == 404
    kept.by = owner
    kept.save()
    assert logged_in(owner).get(preview).status_code == 200
    other = Edition.objects.create(name="Other", dated=DATED, hourly_cost=1)
    assert logged_in(owner).get(reverse("import_preview", args=[other.pk, kept.pk])).status_code == 404


def test_a_closed_edition_takes_no_file(open_edition, owner, logged_in):
    client = logged_in(owner)
    content = as_file(("code", "pack cost"), ("WOOL-100", "25.93"))
    preview = send(client, open_edition, content).url
    digest = client.get(preview).context["plan"].digest
    close_edition(open_edition, by=owner)
    here = reverse("price_book", args=[open_edition.pk])
    assert send(client, open_edition, content).url == here
    assert client.get(preview).url == here
    assert client.post(preview + "take/", {"shown": digest}).url == here
    assert open_edition.products.get(code="WOOL-100").pack_cost == Decimal("23.90")


@pytest.mark.parametrize(
    ("person", "statuses"),
    [("owner", (200, 200)), ("office", (200, 403)), ("surveyor", (403, 403)), ("crew", (403, 403))],
)
def test_the_owner_imports_the_office_exports_and_others_do_neither(
    open_edition, request, logged_in, person, statuses
):
    someone = request.getfixturevalue(person)
    client, here = logged_in(someone), [open_edition.pk]
    pages = ("edition_export", "import_new")
    assert tuple(client.get(reverse(page, args=here)).status_code for page in pages) == statuses
    if person != "owner":
        kept = keep_import(open_edition, name="list.csv", content=b"code\nA\n", by=someone)
        for act in ("import_columns", "import_take"):
            assert client.post(reverse(act, args=[open_edition.pk, kept.pk])).status_code == 403


def test_an_export_has_a_heading_for_every_value_and_runs_nothing(open_edition, office, logged_in):
    open_edition.products.filter(code="WOOL-100").update(description="=1+1", supplier="@home")
    answer = logged_in(office).get(reverse("edition_export", args=[open_edition.pk]))
    assert answer["Content-Disposition"] == 'attachment; filename="price-book-winter.csv"'
    headings, *rows = csv.reader(io.StringIO(answer.content.decode("utf-8-sig"), newline=""))
    assert headings == [header_of(name) for name in product_columns()]
    (wool,) = [row for row in rows if row[0] == "WOOL-100"]
    assert wool[2:4] == ["'=1+1", "'@home"]
    assert planned(open_edition, answer.content).changed == []
