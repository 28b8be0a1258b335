"""Battens: where they lie, where they join and how many lengths they take."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.design.battens import batten_lines, batten_pieces_mm, batten_stretches, lengths_needed
from tests.estimating.lofts import rectangle


@settings(max_examples=60, deadline=None)
@given(st.integers(700, 12_000), st.sampled_from([(2400, 600), (1220, 450), (1220, 600), (2400, 450)]))
def test_no_bay_is_wider_than_the_board_allows_and_both_edges_are_carried(
    length: int, board: tuple[int, int]
) -> None:
    lines = batten_lines(
        rectangle(100, 0, 100 + length, 3000), cover_length_mm=board[0], max_centres_mm=board[1], width_mm=47
    )
    assert lines[0] == 100 + 23
    assert lines[-1] == 100 + length - 23
    for before, after in pairwise(lines):
        assert 0 < after - before <= board[1] + 47  # the last regular batten may give way to the edge's


def test_whole_boards_end_on_battens() -> None:
    lines = batten_lines(rectangle(0, 0, 7300, 3000), cover_length_mm=2400, max_centres_mm=600, width_mm=47)
    assert {2400, 4800, 7200} <= set(lines)


def test_a_batten_stops_at_a_keep_out() -> None:
    deck, hatch = rectangle(0, 0, 3000, 2000), rectangle(500, 800, 1100, 1400)
    assert batten_stretches(deck, [hatch], [600, 1200]) == ((600, 0, 800), (600, 1400, 2000), (1200, 0, 2000))


def test_joins_fall_on_joists() -> None:
    """Common practice, no source."""
    joists = tuple(range(200, 7000, 400))
    pieces = batten_pieces_mm(0, 6900, joists, 4800)
    assert pieces == (4600, 2300)
    assert pieces[0] in joists


def test_offcuts_are_used_before_a_new_length() -> None:
    assert lengths_needed([4600, 2300, 2300], 4800) == 2
    assert lengths_needed([2400, 2400], 4800) == 2  # the saw takes 3 mm
    assert lengths_needed([], 4800) == 0


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(50, 4800), max_size=12))
def test_lengths_bought_are_never_shorter_than_the_pieces(pieces: list[int]) -> None:
    bought = lengths_needed(pieces, 4800)
    assert sum(pieces) <= bought * 4800
    assert bought <= len(pieces)


@pytest.mark.parametrize(("start", "end"), [(0, 4800), (100, 900)])
def test_a_run_within_one_length_is_not_joined(start: int, end: int) -> None:
    assert batten_pieces_mm(start, end, (200, 600), 4800) == (end - start,)
