"""The cheapest mix of packs, against every mix there is."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from itertools import product as every

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.price_book import Pedestal
from estimating.quantities.pack_mix import cheapest_mix

SMALL = Pedestal(
    code="12",
    description="pedestal",
    supplier="S",
    pack_cost=Decimal("36.00"),
    pack_size=12,
    height_mm=225,
    base_mm=90,
)
LARGE = replace(SMALL, code="36", pack_cost=Decimal("99.00"), pack_size=36)


def shares(needed: int, *packs: Pedestal) -> list[tuple[str, int]]:
    return [(pack.code, share) for pack, share in cheapest_mix(packs or (SMALL, LARGE), needed)]


@pytest.mark.parametrize(
    ("needed", "expected"),
    [
        (0, []),
        (12, [("12", 12)]),
        (25, [("36", 25)]),
        (50, [("36", 36), ("12", 14)]),  # 99 + 2 × 36 = 171, where 5 × 36 is 180 and 2 × 99 is 198
        (72, [("36", 72)]),
    ],
)
def test_boxes_are_mixed_where_that_costs_less(needed: int, expected: list[tuple[str, int]]) -> None:
    assert shares(needed) == expected


def test_suppliers_are_not_mixed() -> None:
    elsewhere = replace(LARGE, supplier="T")
    assert shares(50, SMALL, elsewhere) == [("12", 50)]
    assert shares(72, SMALL, elsewhere) == [("36", 72)]


@settings(max_examples=40, deadline=None)
@given(
    st.integers(1, 60),
    st.lists(
        st.tuples(st.integers(1, 20), st.decimals(min_value="0.10", max_value="50", places=2)),
        min_size=1, max_size=3, unique_by=lambda pack: pack[0],
    ),
)  # fmt: skip
def test_no_other_mix_costs_less(needed: int, sold: list[tuple[int, Decimal]]) -> None:
    packs = [replace(SMALL, code=str(size), pack_size=size, pack_cost=cost) for size, cost in sold]
    found = cheapest_mix(packs, needed)
    assert sum(share for _, share in found) == needed
    cost = sum(-(-share // pack.pack_size) * pack.pack_cost for pack, share in found)
    most = [range(-(-needed // size) + 1) for size, _ in sold]
    for numbers in every(*most):
        if sum(number * size for number, (size, _) in zip(numbers, sold, strict=True)) >= needed:
            assert cost <= sum(number * each for number, (_, each) in zip(numbers, sold, strict=True))
