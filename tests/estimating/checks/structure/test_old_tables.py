"""Whether a loft's joists are inside the old tables: Approved Document A (1992) Tables A1 to A4."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import cache

import pytest

from estimating.checks.structure.old_table_record import OldTable
from estimating.checks.structure.old_tables import old_table_verdicts, old_tables
from estimating.estimate import Estimate, estimate
from estimating.price_book import Board
from estimating.survey import Severity, Survey
from tests.estimating import lofts


@cache
def _worked() -> Estimate:
    return estimate(lofts.cut_roof_loft(), lofts.price_book(), lofts.choices())


def _read(**changes: object) -> OldTable:
    worked = _worked()
    field = replace(worked.survey.joist_fields[0], **changes)
    survey: Survey = replace(worked.survey, joist_fields=(field,))
    code = worked.design.zones[0].board_code
    board = next(each for each in worked.price_book.of_kind(Board) if each.code == code)
    (table,) = old_tables(survey, worked.price_book, worked.design, board)
    return table


def test_a_load_between_two_columns_is_read_at_the_heavier_as_a_builder_does():
    """Columns up to 0.25 and up to 0.50 kN/m²: layout of Tables A3 and A4, from memory."""
    table = _read()
    assert Decimal("0.25") < table.dead_load_kn_m2.value < Decimal("0.5")
    assert table.column_kn_m2.value == Decimal("0.5")


@pytest.mark.parametrize(
    ("grade", "strength", "taken"),
    [(None, "SC3", True), ("C14", "SC3", False), ("C16", "SC3", False), ("C24", "SC4", False)],
)
def test_a_class_is_read_in_its_table_and_no_class_in_the_weaker(grade, strength, taken):
    table = _read(grade=grade)
    assert (table.strength_class, table.class_taken) == (strength, taken)


def test_a_class_that_the_tables_do_not_list_is_never_said_to_be_inside():
    (verdict,) = old_table_verdicts([_read(grade="C14", span_mm=1000)])
    assert verdict.severity is Severity.CAUTION
    assert "inside the old table for" not in verdict.words
    assert "weaker than any in the old tables" in verdict.words


def test_the_verdict_says_inside_or_outside_and_that_a_ceiling_is_no_floor():
    table = _read(span_mm=1500, depth_mm=100)
    longest = table.as_ceiling_mm.value
    (inside,) = old_table_verdicts([_read(span_mm=longest)])
    (outside,) = old_table_verdicts([_read(span_mm=longest + 1)])
    (far_outside,) = old_table_verdicts([_read(span_mm=table.as_floor_mm.value + 1)])
    assert inside.severity is Severity.NOTE
    assert "inside the old table for ceiling joists" in inside.words
    assert "It is still a ceiling, for light storage only." in inside.words
    assert "It is no floor." in far_outside.words
    assert outside.severity is Severity.CAUTION
    assert "outside the old table" in outside.words
    assert "ask a structural engineer" in outside.words


def test_joists_of_no_known_class_are_told_as_read_by_the_weaker_table():
    (verdict,) = old_table_verdicts([_read(grade=None)])
    assert "read as SC3 because no class is known" in verdict.words
