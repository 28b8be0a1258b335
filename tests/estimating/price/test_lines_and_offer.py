"""Lines by part, and the offer for any set of options."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from itertools import permutations
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.choices import Choices, Part
from estimating.estimate import estimate
from estimating.price.offer import offer
from estimating.price.price import LineOrigin, Price
from estimating.price.vat import ANCILLARY_HATCH_CAUTION
from estimating.price_book import PricingRules, Role
from estimating.refusals import Refusal
from estimating.ways_to_price import MarginKind
from tests.estimating.lofts import EVERY_PART, choices, price_book, products, trussed_loft

OPTIONS = EVERY_PART - {Part.INSULATION}


def priced(rules: PricingRules | None = None, **changes: Any) -> Price:
    book = price_book(pricing=rules) if rules else price_book()
    wanted = {"parts": EVERY_PART, "optional_parts": OPTIONS, "shelf_bays": 2} | changes
    return estimate(trussed_loft(), book, choices(**wanted)).price


@pytest.fixture(scope="module")
def offered() -> Price:
    return priced()


def rates(price: Price) -> dict[Part, Decimal]:
    return {line.part: line.vat_percent for line in price.lines}


def test_only_insulation_and_draught_strip_are_energy_saving(offered: Price) -> None:
    """VATA 1994 Schedule 8 Group 23; the deck is not in its list."""
    relieved = {part for part, rate in rates(offered).items() if rate == 0}
    assert relieved == {Part.INSULATION, Part.DRAUGHT_STRIP}


def test_a_draught_strip_that_the_book_calls_standard_is_standard_rated() -> None:
    usual = price_book()
    standard = tuple(
        replace(each, vat_class="standard") if each.role is Role.DRAUGHT_STRIP else each
        for each in products()
    )
    wanted = choices(parts=EVERY_PART, shelf_bays=1)
    price = estimate(trussed_loft(), replace(usual, products=standard), wanted).price
    assert rates(price)[Part.DRAUGHT_STRIP] == 20


def test_a_hatch_follows_the_insulation_only_with_a_reason() -> None:
    follows = priced(hatch_cut_with_insulation=True, hatch_reason="The old one was too small to insulate.")
    hatch = next(line for line in follows.lines if line.part is Part.HATCH)
    assert hatch.vat_percent == 0
    assert "too small to insulate" in hatch.vat_reason
    with pytest.raises(Refusal, match="hatch_reason"):
        Choices(tax_point=date(2026, 12, 1), hatch_cut_with_insulation=True)
    with pytest.raises(Refusal, match="hatch_cut_with_insulation"):
        choices(
            parts=EVERY_PART,
            optional_parts=frozenset({Part.INSULATION}),
            hatch_cut_with_insulation=True,
            hatch_reason="x",
        )


def test_only_a_hatch_that_follows_the_insulation_is_warned_of() -> None:
    """VENSAV3240 on single supplies: what follows another supply must be ancillary to it."""
    follows = priced(hatch_cut_with_insulation=True, hatch_reason="The old one was too small to insulate.")
    assert ANCILLARY_HATCH_CAUTION in follows.notices
    assert ANCILLARY_HATCH_CAUTION not in priced().notices


def test_no_home_no_relief() -> None:
    price = estimate(trussed_loft(residential=False), price_book(), choices()).price
    assert set(rates(price).values()) == {Decimal(20)}


def test_the_rate_is_that_of_the_tax_point_and_a_change_ahead_is_told() -> None:
    """VATA 1994 Schedule 7A Group 2: 5 % from 1 April 2027."""
    before, after = (priced(tax_point=date(2027, *day)) for day in ((3, 31), (4, 1)))
    assert (rates(before)[Part.INSULATION], rates(after)[Part.INSULATION]) == (0, 5)
    assert any("1 April 2027" in notice for notice in before.notices)
    assert not any("1 April 2027" in notice for notice in after.notices)


def test_what_one_supply_would_cost_more_is_told(offered: Price) -> None:
    wool = next(line for line in offered.lines if line.part is Part.INSULATION)
    assert wool.net.value == Decimal("679.13")
    assert any("£135.83 more VAT" in notice for notice in offered.notices)  # 20 % of 679.13


@pytest.mark.parametrize(("kind", "share"), [(MarginKind.MARGIN, "0.75"), (MarginKind.MARK_UP, "0.8")])
def test_margin_and_mark_up_are_not_the_same(kind: MarginKind, share: str) -> None:
    """25 % margin leaves cost at three quarters of the price, 25 % mark-up at four fifths."""
    price = priced(PricingRules(margin_kind=kind, percent=Decimal(25)))
    for line in price.lines:
        assert abs(line.net.value * Decimal(share) - line.cost.value) <= Decimal("0.005")


@settings(max_examples=40, deadline=None)
@given(st.frozensets(st.sampled_from(sorted(OPTIONS))))
def test_the_offer_is_the_sum_of_what_counts(offered: Price, taken: frozenset[Part]) -> None:
    price = offer(offered.lines, taken, PricingRules())
    counted = [line for line in price.lines if line.counted]
    assert {line.part for line in counted} == {Part.VISIT, Part.DECK, Part.INSULATION} | taken
    assert price.totals.net == sum(line.net.value for line in counted)
    assert price.cost.value == sum(line.cost.value for line in counted)


def test_the_order_in_which_options_are_taken_never_matters(offered: Price) -> None:
    some = (Part.LADDER, Part.LIGHT, Part.HATCH, Part.EDGE_TRIM)
    prices = set()
    for order in permutations(some):
        price = offered
        for number in range(1, len(order) + 1):
            price = offer(price.lines, frozenset(order[:number]), PricingRules(round_to=Decimal(5)))
        prices.add((price.totals.net, price.totals.vat, price.totals.gross))
    assert len(prices) == 1


def test_taking_and_leaving_an_option_changes_nothing(offered: Price) -> None:
    kept = {"notices": offered.notices, "part_rules": offered.part_rules}
    taken = offer(offered.lines, frozenset({Part.LADDER}), PricingRules(), **kept)
    assert offer(taken.lines, frozenset(), PricingRules(), **kept) == offered


def test_what_is_no_option_cannot_be_taken(offered: Price) -> None:
    with pytest.raises(Refusal, match="must be optional, which these are not: insulation"):
        offer(offered.lines, frozenset({Part.INSULATION}), PricingRules())


def test_the_minimum_job_and_the_rounding_stand_on_their_own_lines(offered: Price) -> None:
    rules = PricingRules(minimum_net=Decimal("1999.99"), round_to=Decimal(5))
    price = offer(offered.lines, frozenset(), rules)
    minimum, rounding = price.adjustments
    assert (minimum.origin, rounding.origin) == (LineOrigin.MINIMUM_JOB, LineOrigin.ROUNDING)
    assert (rounding.net, price.totals.net) == (Decimal("0.01"), Decimal("2000.00"))
    assert minimum.vat_percent == 20
    assert [line.net for line in price.lines] == [line.net for line in offered.lines]


def test_a_job_above_the_minimum_has_no_such_line(offered: Price) -> None:
    assert offer(offered.lines, frozenset(), PricingRules(minimum_net=Decimal(100))).adjustments == ()


@settings(max_examples=40, deadline=None)
@given(
    st.frozensets(st.sampled_from(sorted(OPTIONS))),
    st.decimals(min_value=0, max_value=6000, places=2),
    st.sampled_from([Decimal("0.01"), Decimal(1), Decimal(5), Decimal(10)]),
)
def test_printed_lines_always_add_up_to_the_printed_total(
    offered: Price, taken: frozenset[Part], minimum: Decimal, step: Decimal
) -> None:
    price = offer(offered.lines, taken, PricingRules(minimum_net=minimum, round_to=step))
    lines = sum(line.net.value for line in price.lines if line.counted)
    assert lines + sum(each.net for each in price.adjustments) == price.totals.net
    assert price.totals.net % step == 0
    assert price.totals.net + step / 2 >= minimum
