"""An edition: read back as it was written, complete before it closes, and never edited after."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from django.test import Client
from django.urls import reverse
from django.utils.html import escape

from estimating.price_book import Item, Role
from estimating.refusals import Refusal
from jobs.demo.price_book import demo_price_book
from jobs.price_books.as_price_book import as_price_book, fill_edition, requirement_in_words
from jobs.price_books.dimensions import dimension_fields
from jobs.price_books.models import Edition
from jobs.price_books.services import (
    EditionClosed,
    close_edition,
    copy_edition,
    current_edition,
    keep_row,
    newer_edition,
    take_out_row,
)

pytestmark = pytest.mark.django_db
DATED = date(2026, 11, 1)


@pytest.fixture
def open_edition(firm) -> Edition:
    edition = Edition.objects.create(name="Winter", dated=DATED, hourly_cost=1)
    fill_edition(edition, demo_price_book(firm=firm.name, dated=DATED))
    return edition


@pytest.fixture
def owners_client(owner, logged_in) -> Client:
    return logged_in(owner)


def test_every_role_reads_back_as_it_was_written(firm):
    book = demo_price_book(firm=firm.name, dated=DATED)
    rarer = tuple(
        Item(
            role=role,
            code=role.name,
            description=role.value,
            supplier="Kelmore Timber Yard",
            pack_cost=Decimal(9),
        )
        for role in (Role.WALKWAY, Role.OTHER)
    )
    book = replace(book, edition="Winter", products=book.products + rarer)
    edition = Edition.objects.create(name="Winter", dated=DATED, hourly_cost=1)
    fill_edition(edition, book)
    edition.refresh_from_db()
    read = as_price_book(edition)
    assert {product.role for product in read.products} == set(Role)
    by_code = sorted(book.products, key=lambda product: (product.role.value, product.code))
    assert replace(read, products=()) == replace(book, products=())
    assert sorted(read.products, key=lambda product: (product.role.value, product.code)) == by_code


def test_a_copy_holds_the_same_and_is_open(edition):
    following = copy_edition(edition, name="Next", dated=date(2026, 12, 1))
    copied = as_price_book(following)
    assert replace(copied, edition="Autumn", dated=DATED) == as_price_book(edition)
    assert following.is_open


def test_an_edition_that_lacks_something_hears_all_of_it_at_once(open_edition, owner):
    open_edition.products.filter(role__in=("insulation roll", "ladder")).delete()
    open_edition.products.filter(code="SCR-PEDESTAL").delete()
    open_edition.labour_rates.filter(task="saw boards").delete()
    board = open_edition.products.get(code="BRD-2400-22")
    board.dimensions["cover_length_mm"] = 0
    board.save()
    with pytest.raises(Refusal) as refused:
        close_edition(open_edition, by=owner)
    assert [requirement_in_words(open_edition, each) for each in refused.value.each] == [
        "Products needs at least one product for insulation roll",
        "Products needs a screw for each pedestal",
        'Labour rates needs a rate for "saw boards"',
        f"{board.description}: cover length, mm must be more than 0",
    ]
    open_edition.refresh_from_db()
    assert open_edition.is_open


def test_a_closed_edition_takes_no_change_from_a_service(open_edition, owner):
    close_edition(open_edition, by=owner)
    product = open_edition.products.first()
    for change in (keep_row, take_out_row):
        with pytest.raises(EditionClosed):
            change(open_edition, product)
    with pytest.raises(EditionClosed):
        close_edition(open_edition, by=owner)


def test_a_closed_edition_takes_no_change_from_a_view(edition, owner, logged_in):
    client, before = logged_in(owner), as_price_book(edition)
    product, rate = edition.products.first(), edition.labour_rates.first()
    for page in (
        reverse("edition_pricing", args=[edition.pk]),
        reverse("product_new", args=[edition.pk]) + "?role=board",
        reverse("product", args=[edition.pk, product.pk]),
        reverse("edition_row_new", args=[edition.pk, "charge"]),
        reverse("edition_row", args=[edition.pk, "labour", rate.pk]),
        reverse("row_remove", args=[edition.pk, "product", product.pk]),
        reverse("edition_close", args=[edition.pk]),
    ):
        assert client.post(page, {"name": "Other", "code": "X", "hours": "9"}).status_code == 302, page
    edition.refresh_from_db()
    assert as_price_book(edition) == before


def test_the_newest_closed_edition_in_use_prices_new_quotes(edition, owner):
    following = copy_edition(edition, name="Next", dated=DATED)
    assert current_edition() == edition
    close_edition(following, by=owner)
    assert (current_edition(), newer_edition(edition), newer_edition(following)) == (
        following,
        following,
        None,
    )
    later = copy_edition(edition, name="Later", dated=date(2126, 1, 1))
    close_edition(later, by=owner)
    assert current_edition() == following


@pytest.mark.parametrize("role", list(Role))
def test_a_product_is_asked_for_its_roles_dimensions(role, open_edition, owner, logged_in):
    page = logged_in(owner).get(reverse("product_new", args=[open_edition.pk]), {"role": role.value})
    assert page.status_code == 200
    for name, field in dimension_fields(role):
        assert f'name="{name}"' in page.content.decode()
        assert field.label.split(",")[0] in page.content.decode()


def test_a_dimension_of_zero_is_refused_in_the_labels_words(open_edition, owner, logged_in):
    pedestal = open_edition.products.get(code="PED-175")
    address = reverse("product", args=[open_edition.pk, pedestal.pk])
    client = logged_in(owner)
    sent = {
        "code": "PED-175", "description": "Pedestal", "supplier": "Brindle Fixings", "pack_cost": "23.40",
        "pack_size": "12", "weight_kg": "0.16", "vat_class": "standard", "height_mm": "0", "base_mm": "90",
        "max_spacing_mm": "600", "at_every_seam": "on",
    }  # fmt: skip
    answer = client.post(address, sent)
    assert answer.status_code == 422
    assert "Height, mm must be more than 0." in answer.content.decode()
    twin = client.post(address, {**sent, "height_mm": "175", "code": "PED-225"})
    assert "Code PED-225 is used in this edition already" in twin.content.decode()
    assert client.post(address, {**sent, "height_mm": "180"}).status_code == 302
    pedestal.refresh_from_db()
    assert pedestal.dimensions["height_mm"] == 180


def test_a_firm_begins_its_first_edition_empty(firm, owner, office, logged_in):
    sent = {
        "name": "First", "dated": "2026-11-01", "hourly_cost": "24", "margin_kind": "margin", "percent": "30",
        "minimum_net": "0", "round_to": "0.01", "vat_registered": "on",
        "vat_rounding": Edition._meta.get_field("vat_rounding").default,
    }  # fmt: skip
    assert logged_in(office).post(reverse("edition_new"), sent).status_code == 403
    assert logged_in(owner).post(reverse("edition_new"), sent).status_code == 302
    assert Edition.objects.get().is_open


@pytest.mark.parametrize(
    ("box", "typed", "words"),
    [
        ("percent", "150", "Per cent must be from 0 to under 100 per cent."),
        ("percent", "-1", "Per cent must be from 0 to under 100 per cent."),
        ("hours_percent", "100", "On hours, per cent must be from 0 to under 100 per cent."),
        ("minimum_net", "-5", "Least price of a job before VAT, £ must not be less than 0 pounds."),
        ("round_to", "0",
         "Round the offered price to, £ must be a whole number of pence, at least 0.01 pounds."),
        ("least_margin_percent", "101",
         "Least margin without the owner's approval, per cent must be from 0 to under 100 per cent."),
        ("hourly_cost", "0", "Cost of one person-hour, £ must be more than 0 pounds."),
    ],
)  # fmt: skip
def test_pricing_that_could_not_be_closed_with_is_refused_at_its_box(
    open_edition, owners_client, box, typed, words
):
    client = owners_client
    boxes = client.get(reverse("edition_pricing", args=[open_edition.pk])).context["form"]
    sent = {name: boxes[name].value() for name in boxes.fields if boxes[name].value() not in (None, False)}
    for page in (reverse("edition_pricing", args=[open_edition.pk]), reverse("edition_new")):
        refused = client.post(page, {**sent, "name": "Other", box: typed})
        assert refused.status_code == 422
        assert refused.context["form"].errors == {box: [words]}
        assert f'value="{typed}"' in refused.content.decode()
    before = as_price_book(open_edition)
    open_edition.refresh_from_db()
    assert as_price_book(open_edition) == before
    mark_up = {**sent, "margin_kind": "mark-up", "percent": "150"}
    assert client.post(reverse("edition_pricing", args=[open_edition.pk]), mark_up).status_code == 302


def test_a_name_that_is_taken_or_missing_is_refused_at_its_box_and_nothing_typed_is_lost(
    edition, owners_client
):
    address = reverse("edition_copy", args=[edition.pk])
    shown = owners_client.get(reverse("price_book", args=[edition.pk])).content.decode()
    assert f'id="next-edition" method="post" action="{address}#next-edition"' in shown
    for typed, words in (
        (edition.name, f"There is already an edition called {edition.name}: choose another name."),
        ("", "Name of the next edition is missing."),
    ):
        refused = owners_client.post(address, {"name": typed, "dated": "2026-12-24"})
        assert refused.status_code == 422
        assert refused.context["copy_form"].errors == {"name": [words]}
        page = refused.content.decode()
        assert page.count(words) == 2  # at its box, and in the list above that leads to it
        assert page.index(words) > page.index('id="next-edition"')
        assert 'value="2026-12-24"' in page
        assert f'value="{typed}"' in page or not typed
    made = owners_client.post(address, {"name": "Next", "dated": "2026-12-24"})
    following = Edition.objects.get(name="Next")
    assert made.url == reverse("price_book", args=[following.pk]) + "#content"


def test_what_cannot_be_copied_is_told_where_it_was_asked_for(open_edition, owners_client):
    Edition.objects.filter(pk=open_edition.pk).update(hourly_cost=0)
    sent = {"name": "Next", "dated": "2026-12-24"}
    refused = owners_client.post(reverse("edition_copy", args=[open_edition.pk]), sent)
    assert refused.status_code == 422
    assert refused.context["copy_form"].non_field_errors() == [
        "Not copied. Hourly cost must be more than 0 pounds."
    ]
    assert not Edition.objects.filter(name="Next").exists()


def test_an_editions_date_has_one_name(open_edition, owners_client):
    pricing = owners_client.get(reverse("edition_pricing", args=[open_edition.pk])).content.decode()
    assert 'for="id_dated">In use from' in pricing
    assert (
        "newest closed one whose date has come" in owners_client.get(reverse("price_books")).content.decode()
    )


def test_how_vat_is_rounded_is_told_in_words(edition, owner, logged_in):
    client = logged_in(owner)
    for page in (reverse("price_book", args=[edition.pk]), reverse("edition_new")):
        words = client.get(page).content.decode()
        assert escape(edition.vat_rounding_in_words) in words
        assert f">{edition.vat_rounding}<" not in words


def test_end_joints_float_only_by_data_that_are_named(open_edition, owner, logged_in):
    board = open_edition.products.get(code="BRD-1220-18")
    address = reverse("product", args=[open_edition.pk, board.pk])
    client = logged_in(owner)
    sent = {
        "code": board.code, "description": board.description, "supplier": board.supplier,
        "pack_cost": "13.95", "pack_size": "3", "weight_kg": "4.7", "vat_class": "standard",
        **board.dimensions, "floating_end_joints": "on",
    }  # fmt: skip
    refused = client.post(address, {**sent, "floating_source": ""})
    assert refused.status_code == 422
    assert "Data that let end joints float must be given, document, date and page" in refused.content.decode()
    sheet = "Data sheet 4 of May 2025, page 2"
    assert client.post(address, {**sent, "floating_source": sheet}).status_code == 302
    board.refresh_from_db()
    assert board.dimensions["floating_end_joints"] is True
    product = as_price_book(open_edition).product(board.code)
    assert product.floating_source == sheet
    shown = client.get(reverse("price_book", args=[open_edition.pk])).content.decode()
    assert f"data that let end joints float {sheet}" in shown


def test_a_top_plate_may_be_left_unknown(open_edition, owner, logged_in):
    pedestal = open_edition.products.get(code="PED-175")
    address = reverse("product", args=[open_edition.pk, pedestal.pk])
    client = logged_in(owner)
    sent = {
        "code": "PED-175", "description": "Pedestal", "supplier": "Brindle Fixings", "pack_cost": "23.40",
        "pack_size": "12", "weight_kg": "0.16", "vat_class": "standard", "height_mm": "175", "base_mm": "90",
        "max_spacing_mm": "600", "at_every_seam": "on",
    }  # fmt: skip
    for typed, known in (("", None), ("90", 90)):
        assert client.post(address, {**sent, "top_plate_mm": typed}).status_code == 302
        assert as_price_book(open_edition).product("PED-175").top_plate_mm == known
    assert client.post(address, {**sent, "top_plate_mm": "0"}).status_code == 422


@pytest.mark.parametrize(
    ("code", "name"),
    [("WOOL-100", "roll_width_mm"), ("WOOL-100", "roll_diameter_mm"), ("LADDER-2", "folded_length_mm")],
)
def test_what_goes_through_the_hatch_may_be_left_unmeasured(open_edition, owner, logged_in, code, name):
    row = open_edition.products.get(code=code)
    client, address = logged_in(owner), reverse("product", args=[open_edition.pk, row.pk])
    form = client.get(address).context["form"]
    assert form.fields[name].help_text.startswith("For the way through the hatch.")
    sent = {name: form[name].value() for name in form.fields}
    sent = {name: value for name, value in sent.items() if value not in (None, False)}
    for typed, known in (("1200", 1200), ("", None)):
        assert client.post(address, {**sent, name: typed}).status_code == 302
        assert getattr(as_price_book(open_edition).product(code), name) == known
    assert client.post(address, {**sent, name: "0"}).status_code == 422


def test_another_percentage_on_hours_reaches_the_price_and_an_empty_box_changes_nothing(edition):
    edition.refresh_from_db()
    assert as_price_book(edition).pricing.on_hours_percent == edition.percent
    edition.hours_percent = Decimal(45)
    edition.save()
    rules = as_price_book(edition).pricing
    assert (rules.on_hours_percent, rules.on_materials_percent) == (Decimal(45), edition.percent)


def test_margin_and_mark_up_are_told_side_by_side(edition, owner, logged_in):
    """30 % margin is a mark-up of 42.9 %: 100 / 70. Arithmetic."""
    Edition.objects.update(margin_kind="margin", percent=30, state=Edition.State.OPEN)
    client, here = logged_in(owner), [edition.pk]
    assert (
        "30 % is the same as a mark-up on cost of 42.9 %"
        in client.get(reverse("price_book", args=here)).content.decode()
    )
    Edition.objects.update(margin_kind="mark-up", percent=30)
    page = client.get(reverse("edition_pricing", args=here)).content.decode()
    assert "30 % is the same as a margin on the price of 23.1 %" in page


def test_the_least_margin_is_kept_copied_and_refused_where_it_cannot_be(edition, owner, logged_in):
    Edition.objects.update(least_margin_percent="22.5")
    edition.refresh_from_db()
    following = copy_edition(edition, name="Next", dated=edition.dated)
    following.refresh_from_db()
    assert following.least_margin_percent == Decimal("22.50")
    assert as_price_book(following).pricing.least_margin_percent == Decimal("22.50")
    Edition.objects.filter(pk=following.pk).update(least_margin_percent=100)
    page = logged_in(owner).get(reverse("edition_closing", args=[following.pk])).content.decode()
    assert "east margin percent must be from 0 to under 100 per cent" in page


def test_a_product_hints_at_the_class_that_its_description_makes_likely(edition, owner, logged_in):
    Edition.objects.update(state=Edition.State.OPEN)
    wool = edition.products.filter(role="insulation roll").first()
    wool.description, wool.vat_class = "Mineral wool insulation", "standard"
    wool.save()
    client, here = logged_in(owner), reverse("product", args=[edition.pk, wool.pk])
    assert "By its description likely energy-saving material." in client.get(here).content.decode()
    wool.vat_class = "energy-saving material"
    wool.save()
    assert "By its description" not in client.get(here).content.decode()


@pytest.mark.parametrize(
    ("kind", "rows"),
    [
        ("product", "products"),
        ("labour", "labour_rates"),
        ("condition", "condition_rates"),
        ("charge", "charges"),
    ],
)
def test_every_kind_of_row_is_taken_out_on_its_own_page(open_edition, owner, logged_in, kind, rows):
    row = getattr(open_edition, rows).first()
    client, page = logged_in(owner), "product" if kind == "product" else "edition_row"
    place = [open_edition.pk] if kind == "product" else [open_edition.pk, kind]
    shown = client.get(reverse(page, args=[*place, row.pk])).content.decode()
    remove = reverse("row_remove", args=[open_edition.pk, kind, row.pk])
    assert f'action="{remove}"' in shown
    assert client.post(remove, follow=True).status_code == 200
    assert not getattr(open_edition, rows).filter(pk=row.pk).exists()
    new = reverse(f"{page}_new", args=place) + "?role=board"
    assert "Take it out" not in client.get(new).content.decode()
