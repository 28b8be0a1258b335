"""One percentage on every cost, or one for each kind of cost (common practice, no source)."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimating.choices import Part
from estimating.estimate import estimate
from estimating.price.from_cost import cost_of, price_of
from estimating.price_book import PricingRules
from estimating.quantities.quantities import Quantities
from estimating.refusals import Refusal
from estimating.ways_to_price import MarginKind
from tests.estimating.lofts import EVERY_PART, choices, price_book, trussed_loft

PERCENT = st.decimals(min_value=0, max_value=90, places=1)


@pytest.fixture(scope="module")
def counted() -> Quantities:
    wanted = choices(parts=EVERY_PART, shelf_bays=2)
    return estimate(trussed_loft(), price_book(), wanted).quantities


def costs(part: Part, counted: Quantities) -> tuple[Decimal, Decimal, Decimal]:
    kinds = (counted.purchases, counted.labour, counted.charges)
    materials, hours, charges = (
        sum((line.cost.value for line in lines if line.part is part), Decimal(0)) for lines in kinds
    )
    return materials, hours, charges


def test_each_kind_of_cost_is_asked_for_at_its_own_percentage(counted: Quantities) -> None:
    rules = PricingRules(
        margin_kind=MarginKind.MARK_UP,
        percent=Decimal(10),
        materials_percent=Decimal(20),
        hours_percent=Decimal(50),
    )
    materials, hours, charges = costs(Part.DECK, counted)
    assert materials
    assert hours
    wanted = materials * Decimal("1.2") + hours * Decimal("1.5") + charges * Decimal("1.1")
    price = price_of(Part.DECK, counted, rules)
    assert abs(price.value - wanted) <= Decimal("0.005")
    assert {given.name for given in price.working.inputs} >= {"cost of materials", "mark-up on hours"}


@given(kind=st.sampled_from(MarginKind), percent=PERCENT)
def test_the_same_percentage_on_every_kind_is_that_on_the_whole(
    counted: Quantities, kind: MarginKind, percent: Decimal
) -> None:
    whole = PricingRules(margin_kind=kind, percent=percent)
    apart = PricingRules(
        margin_kind=kind, materials_percent=percent, hours_percent=percent, charges_percent=percent
    )
    for part in Part:
        assert price_of(part, counted, whole) == price_of(part, counted, apart)  # its working as well


@given(kind=st.sampled_from(MarginKind), shares=st.tuples(PERCENT, PERCENT, PERCENT))
def test_no_part_is_asked_for_below_what_it_costs(
    counted: Quantities, kind: MarginKind, shares: tuple[Decimal, Decimal, Decimal]
) -> None:
    materials, hours, charges = shares
    rules = PricingRules(
        margin_kind=kind, materials_percent=materials, hours_percent=hours, charges_percent=charges
    )
    for part in Part:
        assert price_of(part, counted, rules).value >= cost_of(part, counted).value


@pytest.mark.parametrize("name", ["percent", "materials_percent", "hours_percent", "charges_percent"])
def test_a_margin_of_the_whole_price_is_refused(name: str) -> None:
    with pytest.raises(Refusal, match="must be from 0 to under 100 per cent") as refused:
        PricingRules(margin_kind=MarginKind.MARGIN, **{name: Decimal(100)})
    assert refused.value.field == name
