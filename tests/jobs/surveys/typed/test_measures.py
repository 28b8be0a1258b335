"""Spans, openings, areas and cuts as a surveyor types them."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django import forms

from estimating.survey import CutKind
from jobs.surveys.typed.lengths import in_words
from jobs.surveys.typed.measures import AreasField, CablesField, CutSeen, CutsField, OpeningField, SpansField


class Box(forms.Form):
    spans = SpansField(label="Spans")
    opening = OpeningField(label="Opening")
    areas = AreasField(label="Areas")
    cuts = CutsField(label="Cuts")


def box(**typed: str) -> Box:
    form = Box(typed)
    form.is_valid()
    return form


@pytest.mark.parametrize(
    ("typed", "read_mm"),
    [
        ("2.7 m", (2700,)),
        ("8' 6\"", (2591,)),
        ("2.7 m 2.5 m", (2700, 2500)),
        ("2.7m, 2500", (2700, 2500)),
        ("2700 2500 1800", (2700, 2500, 1800)),
    ],
)
def test_one_span_or_several_stand_in_one_box(typed, read_mm):
    assert box(spans=typed).cleaned_data["spans"] == read_mm


def test_one_span_is_read_back_as_one_length():
    assert box(spans="2.7 m").fields["spans"].understood == in_words(2700)
    assert box(spans="2.7 m 2.5 m").fields["spans"].understood.startswith("2 lengths: ")


@pytest.mark.parametrize("typed", ["2.7", "8' 6\" 7' 2\"", "long", "1 m 20"])
def test_a_span_that_is_no_length_or_may_be_two_is_refused(typed):
    assert box(spans=typed).errors["spans"]


@pytest.mark.parametrize(
    ("typed", "mm2_m"),
    [("10 mm", 10_000), ("10", 10_000), ("1 cm", 10_000), ("0", 0), ("10 000 mm2/m", 10_000),
     ("7,500 mm² per m", 7_500), ("5000mm2/m", 5_000)],
)  # fmt: skip
def test_a_gap_of_one_millimetre_all_along_is_1000_square_millimetres_a_metre(typed, mm2_m):
    form = box(opening=typed)
    assert form.cleaned_data["opening"] == mm2_m
    assert form.fields["opening"].understood.endswith("mm² a metre")


@pytest.mark.parametrize("typed", ["10000", "2 m", "open", "mm2/m"])
def test_a_gap_wider_than_any_eaves_is_asked_about(typed):
    assert box(opening=typed).errors["opening"]


def test_areas_are_read_one_by_one():
    form = box(areas="12 m2, 12; 8.5 m²")
    assert form.cleaned_data["areas"] == (Decimal(12), Decimal(12), Decimal("8.5"))
    assert form.fields["areas"].understood == "3 areas, 32.5 m² together"
    assert box(areas="12 large").errors["areas"]


@pytest.mark.parametrize(
    ("typed", "seen"),
    [
        ("3 notch 20, 600", CutSeen(3, CutKind.NOTCH, 20, 600)),
        ("Joist 5: hole 1 in, 1.2 m", CutSeen(5, CutKind.HOLE, 25, 1200)),
        ("12, Notch, 15 mm, 2ft", CutSeen(12, CutKind.NOTCH, 15, 610)),
        ("7 cut through 1.2 m", CutSeen(7, CutKind.CUT_THROUGH, None, 1200)),
        ("7 cut 97 1200", CutSeen(7, CutKind.CUT_THROUGH, 97, 1200)),
    ],
)
def test_a_cut_is_the_joist_what_it_is_how_deep_and_how_far_from_the_support(typed, seen):
    assert box(cuts=typed).cleaned_data["cuts"] == (seen,)


def test_cuts_stand_one_on_a_line_and_are_read_back():
    form = box(cuts="3 notch 20, 600\n\n7 cut 1.2 m\n")
    assert form.fields["cuts"].understood == (
        f"joist 3, notch 20 mm deep, {in_words(600)} from the support; "
        f"joist 7, cut through, {in_words(1200)} from the support"
    )


@pytest.mark.parametrize("typed", ["notch 20, 600", "3 notch 20", "3 dent 20, 600", "3 hole 30 1.2 m", "3"])
def test_a_line_that_is_no_cut_is_refused(typed):
    assert box(cuts=typed).errors["cuts"]


class CablesBox(forms.Form):
    cables = CablesField(label="Cables")


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("2.5, 20 A, 400 mm cooker", ("2.5", "20", 400, "cooker")),
        ("1.0 6 900", ("1.0", "6", 900, "")),
        ("6 mm², 32A, 0.5 m, shower upstairs", ("6", "32", 500, "shower upstairs")),
    ],
)
def test_a_cable_is_read_as_people_write_it(typed, read):
    form = CablesBox({"cables": typed})
    assert form.is_valid()
    [cable] = form.cleaned_data["cables"]
    assert (str(cable.size_mm2), str(cable.device_a), cable.covered_mm, cable.circuit) == read


def test_a_cable_that_cannot_be_read_says_how_to_write_it():
    form = CablesBox({"cables": "thick one"})
    assert "write its size in mm²" in form.errors["cables"][0]
    form = CablesBox({"cables": "3, 20 A, 400 mm"})
    assert form.errors["cables"] == ["Must be one of: 1.0, 1.5, 2.5, 4, 6, 10, 16 mm²"]
