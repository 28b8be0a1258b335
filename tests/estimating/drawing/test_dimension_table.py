"""The tables say in words all that the drawings show."""

from __future__ import annotations

from collections import Counter

import pytest

from estimating.drawing.dimension_table import board_table, dimension_table
from tests.estimating.drawing import lofts

every_loft = pytest.mark.parametrize("loft", [lofts.plain, lofts.uneven, lofts.corner, lofts.dense])


def test_the_hatch_is_placed_from_gable_and_eaves() -> None:
    rows = dimension_table(*lofts.plain()).rows
    told = [(row.name, row.shown) for row in rows if row.subject == "Hatch"]
    assert told == [
        ("Hatch, left edge", "3730 mm from left gable"),
        ("Hatch, right edge", "4450 mm from left gable"),
        ("Hatch, front edge", "850 mm from front eaves"),
        ("Hatch, back edge", "1410 mm from front eaves"),
    ]


@every_loft
def test_every_joist_and_keep_out_has_its_rows(loft: lofts.Loft) -> None:
    survey, design = loft()
    rows = dimension_table(survey, design).rows
    lines = [line for field in survey.joist_fields for line in field.centre_lines_mm]
    assert [row.mm for row in rows if row.end == "centre line"] == lines
    for keep_out in survey.keep_outs:
        assert Counter(row.subject for row in rows)[keep_out.name.capitalize()] == 4


@every_loft
def test_the_board_table_names_each_piece_once_in_laying_order(loft: lofts.Loft) -> None:
    _, design = loft()
    rows = board_table(design)
    assert len({row.name for row in rows}) == len(rows)
    for zone in design.zones:
        assert [int(row.name.lstrip("AB")) for row in rows if row.zone == zone.zone] == list(
            range(1, len(zone.laying_order) + 1)
        )
