from __future__ import annotations

import pytest
from django import forms

from estimating.plane import area_mm2, contains, is_simple
from jobs.surveys.typed.lengths import (
    CornersField,
    LengthField,
    LengthsField,
    OffsetsField,
    in_words,
    rectangle,
    without_corner,
)


class Box(forms.Form):
    length = LengthField(label="Length")
    several = LengthsField(label="Several")
    offsets = OffsetsField(label="Offsets")
    corners = CornersField(label="Corners")


def box(**typed: str) -> Box:
    form = Box(data=typed)
    form.is_valid()
    return form


@pytest.mark.parametrize(
    ("typed", "read_mm"),
    [
        ("5200", 5200), ("5.2m", 5200), ("5.2 m", 5200), ("520cm", 5200), ("17' 3\"", 5258),
        ("17ft 3", 5258), ("17 3/4 in", 451), ("  3730 ", 3730),
    ],
)  # fmt: skip
def test_a_length_box_reads_what_people_write_and_says_what_it_read(typed, read_mm):
    form = box(length=typed)
    assert form.cleaned_data["length"] == read_mm
    assert form.fields["length"].understood == in_words(read_mm)


def test_an_ambiguous_length_is_refused_with_the_ways_to_write_it():
    form = box(length="5.2")
    assert form.errors["length"] == ['"5.2" needs its unit: write 5.2 m, 5.2 cm or 5.2 mm']
    assert form["length"].value() == "5.2"


def test_an_empty_length_box_is_a_gap_and_no_error():
    assert box().errors == {}
    assert box().cleaned_data["length"] is None


@pytest.mark.parametrize(
    ("typed", "read_mm"),
    [
        ("0 395 802", (0, 395, 802)),
        ("0, 395, 802", (0, 395, 802)),
        ("1.2m 1.6m", (1200, 1600)),
        ("1.2 m, 1.6 m", (1200, 1600)),
        ("2in, 1 1/2 in, 50 mm", (51, 38, 50)),
        ("3' 6\"; 4'", (1067, 1219)),
    ],
)
def test_a_running_list_of_readings_is_read_length_by_length(typed, read_mm):
    assert box(several=typed).cleaned_data["several"] == read_mm


@pytest.mark.parametrize(
    "typed", ["3' 6\" 4'", "1 m 20", "1.2 1.6", "1,200 1,600", "3ft 4ft", "1 1/2 in 2 in"]
)
def test_a_list_that_can_be_read_in_two_ways_is_refused(typed):
    assert box(several=typed).errors["several"]


@pytest.mark.parametrize(
    ("typed", "read_mm"),
    [
        ("0 -4 -6 3", (0, -4, -6, 3)),
        ("0, - 4, +3", (0, -4, 3)),
        ("0; \N{MINUS SIGN}1/4 in; 5 mm", (0, -6, 5)),
        ("0mm -12mm", (0, -12)),
    ],
)
def test_offsets_are_read_with_their_signs(typed, read_mm):
    assert box(offsets=typed).cleaned_data["offsets"] == read_mm


def test_offsets_say_how_they_were_read():
    understood = box(offsets="0 -4 3").fields["offsets"].understood
    assert understood == f"3 readings: {in_words(0)}, -{in_words(4)}, +{in_words(3)}"


@pytest.mark.parametrize("typed", ["0 four", "0 --", "0 1-2"])
def test_an_offset_that_is_no_length_is_refused(typed):
    assert box(offsets=typed).errors["offsets"]


def test_corners_take_any_unit_and_say_how_large_the_shape_is():
    form = box(corners="0,0; 8.2 m,0; 8200,4m; 0,4000")
    assert form.cleaned_data["corners"] == ((0, 0), (8200, 0), (8200, 4000), (0, 4000))
    assert form.fields["corners"].understood == f"4 corners, {in_words(8200)} × {in_words(4000)} over all"


@pytest.mark.parametrize("typed", ["0,0; 8200", "0,0; 8,200,0", "a,b", "0;0"])
def test_a_corner_that_is_no_pair_is_refused(typed):
    assert box(corners=typed).errors["corners"]


@pytest.mark.parametrize("corner", ["front left", "front right", "back right", "back left"])
def test_an_l_shape_is_the_rectangle_without_one_corner(corner):
    shape = without_corner(9000, 6000, corner=corner, cut_mm=(3000, 2000))
    middle = (
        {"front": 1000, "back": 5000}[corner.split()[0]],
        {"left": 1500, "right": 7500}[corner.split()[1]],
    )
    assert is_simple(shape)
    assert area_mm2(shape) == 9000 * 6000 - 3000 * 2000
    assert not contains(shape, middle[::-1])


def test_a_rectangle_begins_at_the_left_gable_and_the_front_eaves():
    shape = rectangle(left_mm=100, front_mm=200, length_mm=1000, depth_mm=500)
    assert shape == ((100, 200), (1100, 200), (1100, 700), (100, 700))
