"""Whole packs of the cheapest product that serves."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.choices import Part
from estimating.price_book import InsulationRoll, Length, Pedestal, Role
from estimating.quantities.purchases import least_cost, pack_content, purchases, weight_in_all
from estimating.quantities.quantities import TakeOffLine
from estimating.refusals import Refusal
from estimating.working import COMMON_PRACTICE, Figure, Working, chosen
from tests.estimating.lofts import price_book


def needed(code: str, amount: int | Decimal, unit: str = "", part: Part = Part.DECK) -> TakeOffLine:
    figure = Figure("needed", amount, unit, Working("as given", (chosen("amount", amount),), COMMON_PRACTICE))
    return TakeOffLine(part=part, role=Role.PEDESTAL, product_code=code, description=code, needed=figure)


def high(height: int) -> list[Pedestal]:
    return [each for each in price_book().of_kind(Pedestal) if each.height_mm == height]


@pytest.mark.parametrize(
    ("count", "code"), [(12, "P225-12"), (24, "P225-12"), (25, "P225-36"), (36, "P225-36"), (40, "P225-12")]
)
def test_the_box_that_costs_least_in_whole_is_taken(count: int, code: str) -> None:
    """12 for £36.00 and 36 for £99.00: three small boxes cost more than a large one, four less than two."""
    assert least_cost(high(225), count).code == code


@settings(max_examples=40, deadline=None)
@given(st.integers(1, 400))
def test_packs_hold_what_is_needed_and_one_fewer_would_not(count: int) -> None:
    bought = purchases([needed("P225-12", count)], price_book())[0]
    assert bought.packs.value * 12 >= count > (bought.packs.value - 1) * 12
    assert bought.cost.value == bought.packs.value * Decimal("36.00")


def test_one_product_of_one_part_is_bought_once() -> None:
    """Battens and edge bearers cut from the same timber share their lengths."""
    both = purchases([needed("T75", 5), needed("T75", 2)], price_book())
    assert [(each.needed.value, each.packs.value) for each in both] == [(7, 7)]


def test_parts_buy_their_own_packs_so_that_an_option_can_be_left() -> None:
    lines = [needed("S50", 100), needed("S50", 50, part=Part.SHELVES)]
    assert [each.packs.value for each in purchases(lines, price_book())] == [1, 1]


def test_rolls_are_counted_by_what_they_cover_and_trims_by_length() -> None:
    roll = price_book().of_kind(InsulationRoll)[0]
    trim = next(each for each in price_book().of_kind(Length) if each.role is Role.EDGE_TRIM)
    assert pack_content(roll, "m²") == Decimal("10.67")
    assert pack_content(replace(trim, pack_size=10), "m") == Decimal(24)
    with pytest.raises(Refusal, match="cannot be counted in m²"):
        pack_content(trim, "m²")


def test_a_product_that_the_book_lost_is_refused() -> None:
    with pytest.raises(Refusal, match="must hold GONE"):
        purchases([needed("GONE", 1)], price_book())


def test_vat_that_is_not_reclaimed_is_a_cost() -> None:
    bought = purchases([needed("P225-12", 12)], price_book(), vat_not_reclaimed_percent=Decimal(20))[0]
    assert bought.cost.value == Decimal("43.20")


def test_the_delivery_weighs_what_its_packs_weigh() -> None:
    bought = purchases([needed("P225-12", 13), needed("T75", 2)], price_book())
    two_boxes, two_battens = 2 * 12 * Decimal("0.25"), 2 * Decimal("8.2")
    assert weight_in_all(bought).value == two_boxes + two_battens
