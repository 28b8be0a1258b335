"""Where rows start: no narrow strip where it can be helped, whole rows at one edge before both are ripped."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.design.boards.row_starts import (
    narrow_strips,
    outer_rows_mm,
    row_origins_mm,
    rows_in_words,
    start_in_words,
)
from tests.estimating.boards.problems import OUTLINES, deck

LEAST_MM = 80  # common practice, no source


def rectangle(depth_mm: int) -> tuple[tuple[int, int], ...]:
    return ((0, 0), (3000, 0), (3000, depth_mm), (0, depth_mm))


@pytest.mark.parametrize(
    ("depth_mm", "origins"),
    [
        (1280, (0,)),  # four whole rows
        (1480, (0, -120, -60)),  # 200 mm over: at the back, at the front, or 260 mm at either
        (1320, (-140,)),  # 40 mm over is too narrow anywhere but shared
        (300, (0,)),  # one row
    ],
)
def test_rows_start_whole_at_either_edge_or_are_ripped_at_both(depth_mm, origins):
    assert row_origins_mm(rectangle(depth_mm), 320, LEAST_MM) == origins


def test_a_step_is_brought_to_a_seam_where_else_it_would_leave_a_sliver():
    step = ((0, 0), (3000, 0), (3000, 680), (1500, 680), (1500, 1500), (0, 1500))
    assert narrow_strips(step, 0, 320, LEAST_MM) == 1  # 40 mm beside the step
    for origin in row_origins_mm(step, 320, LEAST_MM):
        assert narrow_strips(step, origin, 320, LEAST_MM) == 0


@settings(max_examples=40)
@given(
    st.sampled_from(sorted(OUTLINES)),
    st.integers(700, 4000),
    st.integers(200, 600),
    st.sampled_from([320, 600, 610]),
)
def test_no_other_line_would_leave_fewer_narrow_strips(shape, depth, along, width):
    outline = tuple((x, y) for x, y in OUTLINES[shape](5000, depth, 2000, along))
    origins = row_origins_mm(outline, width, LEAST_MM)
    fewest = min(narrow_strips(outline, -line, width, LEAST_MM) for line in range(width))
    assert all(-width < origin <= 0 for origin in origins)
    if depth > width:
        assert {narrow_strips(outline, origin, width, LEAST_MM) for origin in origins} == {fewest}


@pytest.mark.parametrize(
    ("origin_mm", "outer", "words"),
    [
        (0, (320, 200), "Rows start whole at the front edge; the last, at the back edge, is 200 mm wide."),
        (-120, (200, 320), "Rows start whole at the back edge; the last, at the front edge, is 200 mm wide."),
        (
            -60,
            (260, 260),
            "Both outer rows are ripped: 260 mm wide at the front edge, 260 mm wide at the back edge.",
        ),
    ],
)
def test_the_outer_rows_are_told_as_they_lie_on_plan(origin_mm, outer, words):
    problem = replace(deck(3000, 1480), row_origin_mm=origin_mm)
    assert outer_rows_mm(problem) == outer
    assert rows_in_words(problem) == words
    turned = words.replace("front", "left-hand").replace("back", "right-hand")
    assert rows_in_words(problem, turns=1) == turned


def test_whole_rows_and_a_single_row_are_told_too():
    assert rows_in_words(deck(3000, 960)) == "Every row is whole, from the front edge to the back edge."
    assert rows_in_words(deck(3000, 300)) == "One row, 300 mm wide."
    assert start_in_words(replace(deck(3000, 960), row_origin_mm=-100)) == (
        "the row at the front edge ripped to 220 mm"
    )
