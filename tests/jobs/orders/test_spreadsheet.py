from __future__ import annotations

import csv
import io
from decimal import Decimal

import pytest

from jobs.orders.models import MaterialsOrder, OrderLine
from jobs.orders.spreadsheet import HEADERS, order_csv, plain_cell


@pytest.mark.parametrize("cell", ["=1+1", "+44 20", "-5", "@SUM(A1)", "\t=1", "\r=1"])
def test_a_cell_that_a_spreadsheet_would_run_is_made_plain(cell):
    assert plain_cell(cell) == f"'{cell}"


@pytest.mark.parametrize(
    ("cell", "text"), [(Decimal("-1.50"), "-1.50"), (12, "12"), ("Glass wool", "Glass wool")]
)
def test_numbers_and_plain_words_stay_as_they_are(cell, text):
    assert plain_cell(cell) == text


@pytest.mark.django_db
def test_an_order_comes_back_from_its_csv(job):
    order = MaterialsOrder.objects.create(number="M-2026-0099", job=job, supplier="A merchant")
    OrderLine.objects.create(
        order=order, code="P-225", supplier_code="=HYPERLINK(1)", description='Pedestal 225 mm, "tall", ŵ',
        packs=5, pack_size=12, pack_cost=Decimal("31.20"), weight_kg=Decimal("9.6"),
    )  # fmt: skip
    header, line = csv.reader(io.StringIO(order_csv(order)))
    assert tuple(header) == HEADERS
    assert line == [
        "'=HYPERLINK(1)", "P-225", 'Pedestal 225 mm, "tall", ŵ', "5", "12", "31.20", "156.00", "9.60",
    ]  # fmt: skip
