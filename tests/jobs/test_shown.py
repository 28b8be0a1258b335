"""Amounts, and what is wrong with them, as a reader sees them."""

from __future__ import annotations

from decimal import Decimal
from types import SimpleNamespace
from typing import Any

import pytest
from django import forms

from estimating.price_book import Role
from jobs.forms import SheetForm
from jobs.templatetags.shown import bought, led, millimetres, naming, per_cent, places, pounds


@pytest.mark.parametrize(
    ("amount", "shown"),
    [
        (Decimal("2486.4"), "£2,486.40"),
        ("0", "£0.00"),
        (Decimal("-12"), "−£12.00"),
        (None, ""),
    ],
)
def test_money_is_shown_to_the_penny_with_its_sign_before_the_pound(amount: Any, shown: str) -> None:
    assert pounds(amount) == shown


def test_lengths_never_break_between_their_thousands() -> None:
    assert millimetres(3730) == "3\u202f730 mm"


def test_rates_are_shown_without_idle_noughts() -> None:
    assert [per_cent(Decimal("20.00")), per_cent("12.50"), per_cent(0)] == ["20 %", "12.5 %", "0 %"]


def test_places_round_and_keep_their_noughts() -> None:
    assert places(Decimal("16.84"), 1) == "16.8"
    assert places(Decimal("2"), 2) == "2.00"


def _purchase(role: Role, needed: Any, unit: str, packs: int) -> Any:
    return SimpleNamespace(
        role=role,
        needed=SimpleNamespace(value=needed, unit=unit),
        packs=SimpleNamespace(value=packs),
    )


@pytest.mark.parametrize(
    ("purchase", "shown"),
    [
        (_purchase(Role.BOARD, 23, "", 23), "23"),
        (_purchase(Role.PEDESTAL, 163, "", 14), "163 · 14 boxes"),
        (_purchase(Role.SCREW, 96, "", 1), "96 · 1 box"),
        (_purchase(Role.INSULATION_ROLL, Decimal("91.02"), "m²", 8), "91.0 m² · 8 rolls"),
        (_purchase(Role.EDGE_TRIM, Decimal("17.2"), "m", 8), "17.2 m · 8 lengths"),
        (_purchase(Role.BOARD, 61, "", 21), "61 · 21 packs"),
    ],
)
def test_what_is_needed_stands_beside_what_is_bought(purchase: Any, shown: str) -> None:
    assert bought(purchase) == shown


def test_where_much_is_said_two_sentences_lead():
    much = "It is outside the table. Ask an engineer. " + "Not measured, and so taken: 50 mm. " * 8
    lead, rest = led(much.strip())
    assert lead == "It is outside the table. Ask an engineer."
    assert f"{lead} {rest}" == much.strip()
    assert led("Short. And plain. To the end.") == ("Short. And plain. To the end.", "")


def test_an_error_names_its_label_once():
    assert naming("Miles to drive must be a number.", "Miles to drive") == "Miles to drive must be a number."
    assert naming("must not be less than 0 miles", "Miles to drive") == (
        "Miles to drive: must not be less than 0 miles"
    )


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"name": "x" * 13, "share": "1"}, "Firm's name must not be longer than 12 characters."),
        ({"name": "x", "share": "101"}, "Share must be at most 100."),
        ({"name": "x", "share": "-1"}, "Share must be at least 0."),
        ({"name": "x", "share": "1.234"}, "Share must not have more than 2 decimal places."),
    ],
)
def test_a_limit_that_is_passed_is_told_in_the_labels_words(typed, said):
    class Boxes(SheetForm):
        name = forms.CharField(label="Firm's name", max_length=12)
        share = forms.DecimalField(min_value=0, max_value=100, decimal_places=2)

    assert [error for errors in Boxes(typed).errors.values() for error in errors] == [said]
