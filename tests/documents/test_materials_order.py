from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from jobs.documents.materials_order import materials_order_context, materials_order_pdf
from jobs.orders.models import MaterialsOrder, OrderLine
from tests.documents.reading import fonts, pages, read, roles

pytestmark = pytest.mark.django_db


@pytest.fixture
def order(job, office) -> MaterialsOrder:
    return MaterialsOrder.objects.create(
        number="M-2026-0042",
        job=job,
        supplier="Kelmore Timber Yard",
        wanted_on=date(2026, 12, 4),
        note="Before nine, please",
        made_by=office,
    )


def fill(order: MaterialsOrder, lines: int) -> None:
    OrderLine.objects.bulk_create(
        OrderLine(
            order=order,
            code=f"BRD-{number}",
            description=f"Board {number}, tongued and grooved",
            packs=number,
            pack_cost=Decimal("18.40"),
            weight_kg=Decimal("21.40") * number,
        )
        for number in range(1, lines + 1)
    )


def test_an_order_adds_up(order):
    fill(order, 3)
    context = materials_order_context(order)
    assert context["cost"] == Decimal("110.40")
    assert context["weight_kg"] == Decimal("128.40")


def test_a_supplier_reads_what_to_bring_where_and_when(order):
    fill(order, 2)
    (page,) = pages(materials_order_pdf(order))
    for words in (
        "Materials order M-2026-0042",
        "Kelmore Timber Yard",
        "Friday 4 December 2026",
        "14 Larkfield Rise",
        "Board 2, tongued and grooved",
        "£36.80",
        "£55.20",
        "without VAT",
        "Before nine, please",
        "Bram Tollkeeper",
    ):
        assert words in page, words


def test_a_draft_says_that_it_is_one_until_it_is_sent(order):
    fill(order, 1)
    draft = "This is a draft and was not sent."
    assert draft in pages(materials_order_pdf(order))[0]
    order.state = MaterialsOrder.State.SENT
    assert draft not in pages(materials_order_pdf(order))[0]


def test_sixty_lines_keep_their_headings_on_every_page_and_lose_none(order):
    fill(order, 60)
    pdf = materials_order_pdf(order)
    told = pages(pdf)
    assert len(told) > 1
    assert all("Packs" in page for page in told)
    assert all(f"Board {number}," in " ".join(told) for number in range(1, 61))
    assert f"Page {len(told)} of {len(told)}" in told[-1]


def test_the_paper_is_tagged_and_carries_its_fonts(order):
    fill(order, 1)
    pdf = materials_order_pdf(order)
    assert read(pdf).metadata.title == "Materials order M-2026-0042"
    assert roles(pdf) >= {"/H1", "/H2", "/Table", "/TH", "/TD"}
    assert all(fonts(pdf).values())
