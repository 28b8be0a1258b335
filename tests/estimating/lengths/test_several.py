"""Several lengths in one text: where one ends, and when that is asked about."""

from __future__ import annotations

import pytest

from estimating.lengths import read_corners_mm, read_lengths_mm, read_offsets_mm, read_spans_mm
from estimating.refusals import Ambiguous, Refusal


@pytest.mark.parametrize(
    ("typed", "readings"),
    [
        ("1,200", ("1200", "1, 200")),
        ("0,1,200,1,600", ("0, 1200, 1600", "0, 1, 200, 1, 600")),
        ("95,110", ("95, 110",)),
        ("5 200", ("5200", "5, 200")),
        ("0 400 800 1 200", ("0, 400, 800, 1200", "0, 400, 800, 1, 200")),
        ("3' 6\" 4'", ("3' 6\", 4'", "3', 6\", 4'")),
        ("17' 3\"", ("17' 3\",", "17', 3\"")),
        ("17 3/4 in", ("17 3/4 in,",)),
        ("3ft 4ft", ("3ft, 4ft",)),
        ("1.2 1.6", ("1.2 m, 1.6 m", "1.2 cm, 1.6 cm", "1.2 mm, 1.6 mm")),
        ("1.2, 4", ("1.2 m, 4 m", "1.2 cm, 4 cm", "1.2 mm, 4 mm")),
        ("2 1/2", ()),
    ],
)
def test_a_list_that_can_be_read_in_two_ways_is_asked_about(typed, readings):
    with pytest.raises(Ambiguous) as asks:
        read_lengths_mm(typed)
    assert asks.value.readings == readings
    for reading in readings:
        assert read_lengths_mm(reading)


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("1, 200", (1, 200)), ("0,200", (0, 200)), ("100,200", (100, 200)), ("95 110 100", (95, 110, 100)),
        ("0 395 802 1190", (0, 395, 802, 1190)), ("1.2 m", (1200,)), ("5 200, 300", (5200, 300)),
        ("3\u00a0730\u00a0mm 2\u00a0500\u00a0mm", (3730, 2500)), ("17' 3\",", (5258,)), ("2in 3in", (51, 76)),
    ],
)  # fmt: skip
def test_a_list_with_one_meaning_is_read(typed, mm):
    assert read_lengths_mm(typed) == mm


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("5 200", (5200,)), ("5,200", (5200,)), ("900 800", (900, 800)), ("900,800", (900, 800)),
        ("900,800 mm", (900, 800)), ("30 900", (30, 900)), ("8' 6\"", (2591,)), ("2.7 m 2.5 m", (2700, 2500)),
    ],
)  # fmt: skip
def test_two_spans_never_become_one_long_one(typed, mm):
    assert read_spans_mm(typed) == mm


def test_a_span_that_may_be_two_is_asked_about_both_ways():
    with pytest.raises(Ambiguous) as asks:
        read_spans_mm("1 m 20")
    assert asks.value.readings == ("1 m 20 cm", "1 m 20 mm", "1 m, 20")


def test_offsets_carry_their_signs_into_the_question():
    with pytest.raises(Ambiguous) as asks:
        read_offsets_mm("0, -0.5, 1")
    assert asks.value.readings == ("0, -0.5 m, 1 m", "0, -0.5 cm, 1 cm", "0, -0.5 mm, 1 mm")
    assert read_offsets_mm(asks.value.readings[1]) == (0, -5, 10)


@pytest.mark.parametrize("typed", ["0 --4", "0 +-4", "0 1-2", "0 four", "-", ","])
def test_an_offset_has_one_sign(typed):
    with pytest.raises(Refusal):
        read_offsets_mm(typed)


def test_corners_in_metres_are_asked_about_as_a_whole():
    with pytest.raises(Ambiguous) as asks:
        read_corners_mm("0,0; 8.2,0; 8.2,4; 0,4")
    assert asks.value.readings[0] == "0,0; 8.2 m,0; 8.2 m,4 m; 0,4 m"
    assert read_corners_mm(asks.value.readings[0]) == ((0, 0), (8200, 0), (8200, 4000), (0, 4000))


@pytest.mark.parametrize("typed", [";", " ; \n", "8200", "0,0,0"])
def test_corners_that_are_no_pairs_are_refused(typed):
    with pytest.raises(Refusal):
        read_corners_mm(typed)
