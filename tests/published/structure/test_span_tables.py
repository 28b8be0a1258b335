"""The spans that permissible stresses allow against the tables of Approved Document A (1992)."""

from __future__ import annotations

import pytest

from estimating.checks.structure.old_spans import TableJoist, ceiling_joist_span_mm, floor_joist_span_mm
from estimating.checks.structure.section import Section
from tests.published.structure.cases import Case, cases_in, rows_in

ROOM_M = 0.03
"""The tables were put together from memory and by computing them again, so that no cell is closer."""
TABLES = ("ceiling_spans_sc3.csv", "ceiling_spans_sc4.csv", "floor_spans_sc3.csv", "floor_spans_sc4.csv")
SPANS = {"ceiling joist": ceiling_joist_span_mm, "floor joist": floor_joist_span_mm}


@pytest.mark.parametrize("case", cases_in("span_tables.csv"), ids=lambda case: case.name)
def test_published_span(case: Case) -> None:
    given = case.inputs
    joist = TableJoist(
        Section(given["b_mm"], given["h_mm"]),
        given["spacing_mm"],
        given["dead_load_kN_m2_band_upper"],
        given["strength_class"],
    )
    case.check(SPANS[given["member"]](joist) / 1000)


@pytest.mark.parametrize("table", TABLES)
def test_every_cell_of_a_table_comes_back(table: str) -> None:
    for row in rows_in(table):
        joist = TableJoist(
            Section(float(row["b_mm"]), float(row["h_mm"])),
            float(row["spacing_mm"]),
            float(row["dead_load_up_to_kN_m2"]),
            row["strength_class"],
        )
        span_m = SPANS[row["member"]](joist) / 1000
        assert span_m == pytest.approx(float(row["clear_span_m"]), abs=ROOM_M), (
            f"{row['id']}: {row['source']}"
        )
