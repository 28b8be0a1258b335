"""Amounts as a reader sees them."""

from __future__ import annotations

from decimal import Decimal
from types import SimpleNamespace
from typing import Any

import pytest

from estimating.price_book import Role
from jobs.templatetags.shown import bought, led, millimetres, per_cent, places, pounds


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
