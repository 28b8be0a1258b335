"""What a board's and a pedestal's own data allow at end joints, and nothing without them."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.design.boards.problem import LayingRules
from estimating.design.laying_rules import LEAST_END_BEARING_MM, joint_tolerance_mm, laying_rules
from estimating.price_book import Board, Pedestal
from estimating.refusals import Refusal
from tests.estimating.lofts import price_book

BOARD = price_book().of_kind(Board)[0]
PEDESTAL = price_book().of_kind(Pedestal)[0]
SHEET = "Invented Boards, data sheet 4 of May 2025, page 2"


def test_end_joints_stay_on_joists_centre_lines_until_data_say_otherwise() -> None:
    assert laying_rules(BOARD, PEDESTAL) == laying_rules(BOARD, None) == LayingRules()


def test_end_joints_float_where_the_boards_data_say_so() -> None:
    floating = replace(BOARD, floating_end_joints=True, floating_source=SHEET)
    assert laying_rules(floating, None) == LayingRules(end_joint="floating")


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"floating_source": ""}, "floating_source"),
        ({"floating_source": "  "}, "floating_source"),
        ({"floating_source": SHEET, "ends": "square"}, "ends"),
    ],
)
def test_joints_that_float_need_a_source_and_tongued_ends(changes: dict[str, Any], field: str) -> None:
    with pytest.raises(Refusal) as refused:
        replace(BOARD, floating_end_joints=True, **changes)
    assert [each.field for each in refused.value.each] == [field]


@pytest.mark.parametrize(
    ("plate_mm", "tolerance_mm"),
    [(None, 0), (35, 0), (42, 0), (44, 1), (60, 9), (62, 10), (90, 10), (200, 10)],
)
def test_joints_move_off_centre_as_far_as_both_ends_bear(plate_mm: int | None, tolerance_mm: int) -> None:
    """Least bearing 18 mm and 10 mm at most: common practice, no source; half the plate, less 18, less 3."""
    pedestal = replace(PEDESTAL, top_plate_mm=plate_mm)
    assert laying_rules(BOARD, pedestal).joint_tolerance_mm == tolerance_mm


@given(st.integers(1, 400), st.integers(0, 10))
def test_the_shorter_bearing_is_never_under_the_least(plate_mm: int, gap_mm: int) -> None:
    tolerance = joint_tolerance_mm(replace(PEDESTAL, top_plate_mm=plate_mm), gap_mm)
    if tolerance:
        assert plate_mm / 2 - tolerance.value - gap_mm >= LEAST_END_BEARING_MM


def test_pedestals_by_spacing_alone_are_not_under_the_corners_of_joints() -> None:
    assert laying_rules(BOARD, replace(PEDESTAL, top_plate_mm=100, at_every_seam=False)) == LayingRules()


def test_a_top_plate_of_no_width_is_refused() -> None:
    with pytest.raises(Refusal, match="more than 0"):
        replace(PEDESTAL, top_plate_mm=0)
