"""A number box reads what people type, and says of the rest what it must be."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django import forms

from jobs.forms import SheetForm


class Boxes(SheetForm):
    amount = forms.DecimalField(label="Amount, £", decimal_places=2, required=False)
    share = forms.DecimalField(label="Per cent", required=False)
    lights = forms.IntegerField(label="Lights", required=False)


def read(**typed: str) -> Any:
    form = Boxes(typed)
    assert form.is_valid(), form.errors
    (name,) = typed
    return form.cleaned_data[name]


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("£24.50", "24.50"), ("£ 24.50", "24.50"), ("£1,000", "1000"), ("1,234.50", "1234.50"),
        ("1 234.5", "1234.5"), ("1\u00a0234", "1234"), ("£1\u2009234\u2009567", "1234567"), (" 7 ", "7"),
        ("-£5", "-5"), ("£-5", "-5"), ("−£5", "-5"), ("0", "0"), ("0.5", "0.5"),
    ],
)  # fmt: skip
def test_pounds_are_read_as_they_are_written(typed, number):
    assert read(amount=typed) == Decimal(number)


@pytest.mark.parametrize("typed", ["5%", "5 %", "5\u202f%", "5"])
def test_per_cent_are_read_with_their_sign(typed):
    assert read(share=typed) == 5


@pytest.mark.parametrize(("typed", "number"), [("1,200", 1200), ("12", 12), ("12.0", 12), ("", None)])
def test_whole_numbers_are_read_with_their_thousands(typed, number):
    assert read(lights=typed) == number


@pytest.mark.parametrize(
    ("box", "typed", "words"),
    [
        *(
            ("amount", typed, "Amount, £ must be a number.")
            for typed in (
                "20,5",
                "1,23.4",
                "1,2345",
                "0,500",
                "1,000 000",
                "1.234,50",
                "5%",
                "££5",
                "5£",
                "lots",
            )
        ),
        ("share", "£5", "Per cent must be a number."),
        ("lights", "2.5", "Lights must be a whole number."),
        ("lights", "two", "Lights must be a number."),
    ],
)
def test_what_is_no_number_is_refused_and_stays_in_its_box(box, typed, words):
    form = Boxes({box: typed})
    assert form.errors == {box: [words]}
    assert form[box].value() == typed
