"""Dimension chains: equal distances told together, figures kept apart."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.drawing.dimensions import stretches
from estimating.drawing.labels import spread
from estimating.drawing.svg import escaped, number
from estimating.drawing.wrapping import wrapped


@pytest.mark.parametrize(
    ("positions", "told"),
    [
        ((0, 200, 600, 1000, 1400), ["200", "3 × 400 = 1200"]),
        ((0, 400, 800), ["400", "400"]),
        ((0, 385, 787), ["385", "402"]),
        ((0, 600, 1200, 1800, 2100), ["3 × 600 = 1800", "300"]),
    ],
)
def test_three_equal_distances_or_more_are_told_together(positions: tuple[int, ...], told: list[str]) -> None:
    assert [each.words for each in stretches(positions)] == told


@given(st.lists(st.integers(1, 900), min_size=1, max_size=30))
@settings(max_examples=60)
def test_a_chain_covers_its_whole_length_without_gap_or_overlap(gaps: list[int]) -> None:
    positions = [sum(gaps[:rank]) for rank in range(len(gaps) + 1)]
    told = stretches(positions)
    assert (told[0].start_mm, told[-1].end_mm) == (positions[0], positions[-1])
    assert all(one.end_mm == other.start_mm for one, other in pairwise(told))


@given(st.lists(st.floats(0, 800), min_size=1, max_size=20).map(sorted))
@settings(max_examples=60)
def test_labels_are_set_apart_and_keep_their_order(wished: list[float]) -> None:
    placed = spread(wished, 12, -1e9, 1e9)
    assert all(after - before >= 12 - 1e-6 for before, after in pairwise(placed))


def test_labels_with_room_are_left_where_they_belong() -> None:
    assert spread([10, 40, 90], 12, 0, 100) == [10, 40, 90]


@pytest.mark.parametrize(
    ("value", "text"),
    [(1.0, "1"), (-0.04, "0"), (10.25, "10.2"), (0.06, "0.1"), (-10.0, "-10"), (100, "100")],
)
def test_coordinates_are_written_one_way(value: float, text: str) -> None:
    assert number(value) == text


def test_characters_that_xml_cannot_hold_are_dropped() -> None:
    assert escaped("a\x00b\x1fc\ud800d\ufffe'\"<&>") == "abcd&#39;&quot;&lt;&amp;&gt;"


def test_words_wrap_only_between_parts() -> None:
    assert wrapped(["cut 400", "rip 80"], 1000, between="; ") == ("cut 400; rip 80",)
    assert wrapped(["cut 400", "rip 80"], 10, between="; ") == ("cut 400;", "rip 80")
    assert wrapped([], 10) == ()
