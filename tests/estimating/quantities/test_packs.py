from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.quantities.packs import packs_exact, packs_needed
from estimating.refusals import Refusal

quantities = st.decimals(Decimal(0), Decimal(5000), places=3)
sizes = st.decimals(Decimal("0.001"), Decimal(500), places=4)
wastes = st.integers(0, 30)


@pytest.mark.parametrize(("pedestals", "boxes"), [(0, 0), (1, 1), (12, 1), (13, 2), (37, 4), (96, 8)])
def test_pedestals_come_in_whole_boxes_of_twelve(pedestals: int, boxes: int) -> None:
    """Common practice, no source."""
    assert packs_needed(pedestals, 12, 0).value == boxes


def test_quantity_that_fills_its_packs_to_the_brim_buys_no_more() -> None:
    assert packs_needed(Decimal("3.3"), Decimal("1.1"), 0).value == 3
    assert packs_needed(Decimal(10), Decimal("1.1"), 10).value == 10


@given(quantity=quantities, size=sizes, waste=wastes)
def test_packs_cover_the_quantity_with_less_than_one_pack_over(
    quantity: Decimal, size: Decimal, waste: int
) -> None:
    bought = packs_needed(quantity, size, waste).value * size
    wanted = quantity * (100 + waste) / 100
    assert wanted <= bought
    assert bought - wanted < size


@given(quantity=quantities, size=sizes, waste=wastes)
def test_part_packs_round_up_to_whole_packs(quantity: Decimal, size: Decimal, waste: int) -> None:
    assert 0 <= packs_needed(quantity, size, waste).value - packs_exact(quantity, size, waste) <= 1


@pytest.mark.parametrize(
    ("quantity", "size", "waste", "field"),
    [(-1, 1, 0, "quantity"), (1, 0, 0, "pack_size"), (1, 1, -1, "waste_percent")],
)
def test_impossible_packs_are_refused(quantity: int, size: int, waste: int, field: str) -> None:
    with pytest.raises(Refusal) as refused:
        packs_needed(quantity, size, waste)
    assert refused.value.field == field
