"""Walkways and other items: as many as somebody chose, in whole packs, with their hours and their price."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from estimating.choices import Choices, ChosenPieces, Part
from estimating.estimate import Estimate, estimate
from estimating.json_forms import choices_as_json, choices_from_json
from estimating.missing import requirements_of_an_edition
from estimating.price_book import Item, PriceBook, PricingRules, Role, Task
from estimating.refusals import Refusal
from estimating.ways_to_price import MarginKind, SupplyMode, VatClass
from tests.estimating.lofts import choices, price_book, trussed_loft

BOTH = frozenset({Part.WALKWAY, Part.OTHER})
AT_COST = PricingRules(margin_kind=MarginKind.MARK_UP, percent=Decimal(0))


def pieces(**counts: int) -> tuple[ChosenPieces, ...]:
    return tuple(ChosenPieces(product_code=code, count=count) for code, count in counts.items())


def with_jackets(vat_class: VatClass = VatClass.ENERGY_SAVING, **changes: object) -> PriceBook:
    """A book with a second other item, which the law lists."""
    jacket = Item(
        role=Role.OTHER, code="O2", description="tank jacket", supplier="merchant",
        pack_cost=Decimal("14.00"), weight_kg=Decimal("1.5"), vat_class=vat_class,
    )  # fmt: skip
    book = price_book()
    return replace(book, products=(*book.products, jacket), **changes)


def worked(book: PriceBook | None = None, **changes: object) -> Estimate:
    return estimate(trussed_loft(), book or price_book(), choices(**changes))


@pytest.mark.parametrize(
    ("counts", "packs", "cost", "hours", "weight"),
    [
        # Worked by hand from the book of tests: W1 £26.50 singly, 5.5 kg, 0.4 h; O1 £19.00 for ten, 0.1 kg,
        # 0.3 h; O2 £14.00 singly, 1.5 kg. A pack weighs what its pieces weigh. Common practice, no source.
        ({"W1": 1}, {"W1": 1}, "26.50", "0.40", "5.5"),
        ({"W1": 7}, {"W1": 7}, "185.50", "2.80", "38.5"),
        ({"O1": 1}, {"O1": 1}, "19.00", "0.30", "1.0"),
        ({"O1": 10}, {"O1": 1}, "19.00", "3.00", "1.0"),
        ({"O1": 11}, {"O1": 2}, "38.00", "3.30", "2.0"),
        ({"O1": 11, "O2": 3}, {"O1": 2, "O2": 3}, "80.00", "4.20", "6.5"),
        ({"W1": 2, "O2": 1}, {"W1": 2, "O2": 1}, "67.00", "1.10", "12.5"),
    ],
)
def test_packs_hours_and_weight_by_hand(counts, packs, cost, hours, weight) -> None:
    roles = {Part.WALKWAY: "W", Part.OTHER: "O"}
    parts = frozenset(part for part, letter in roles.items() if any(code[0] == letter for code in counts))
    estimated = worked(with_jackets(), parts=parts, pieces=pieces(**counts))
    bought = [each for each in estimated.quantities.purchases if each.part in BOTH]
    assert {each.product_code: each.packs.value for each in bought} == packs
    assert {each.product_code: each.needed.value for each in bought} == counts
    assert sum(each.cost.value for each in bought) == Decimal(cost)
    assert sum(each.weight_kg for each in bought) == Decimal(weight)
    laboured = [each for each in estimated.quantities.labour if each.part in BOTH]
    assert sum(each.hours.value for each in laboured) == Decimal(hours)
    assert {each.task for each in laboured} <= {Task.LAY_WALKWAY, Task.FIT_OTHER}


def test_a_line_says_how_many_of_what_and_costs_material_and_hours() -> None:
    """3 × £26.50 and 1.20 h × £24.50 at cost: £79.50 + £29.40. Arithmetic."""
    book = price_book(pricing=AT_COST)
    line = next(
        each
        for each in worked(book, parts=frozenset({Part.WALKWAY}), pieces=pieces(W1=3)).price.lines
        if each.part is Part.WALKWAY
    )
    assert line.description == "Walkway: 3 × walkway board 1.2 m"
    assert line.net.value == Decimal("108.90")
    assert not line.optional


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"pieces": pieces(W9=1)}, "choices.pieces: must be in the price book: W9"),
        (
            {"pieces": pieces(W1=1, C1=1)},
            "must be products for walkway or other: downlight cover is one for downlight cover",
        ),
        ({"parts": BOTH, "pieces": pieces(W1=1)}, 'choices.pieces: must say how many of what make up "other'),
        ({"pieces": ()}, 'choices.pieces: must say how many of what make up "walkway"'),
        (
            {"pieces": pieces(W1=1, O1=2)},
            'choices.pieces: cannot hold lap vent while "other items" is not offered',
        ),
    ],
)
def test_what_cannot_be_counted_is_refused_in_words(changes, words) -> None:
    with pytest.raises(Refusal) as refused:
        worked(**{"parts": frozenset({Part.WALKWAY}), **changes})
    assert any(words in str(each) for each in refused.value.each)


def test_each_product_is_named_once_and_counted_from_one() -> None:
    with pytest.raises(Refusal, match="pieces: must name each product once"):
        choices(parts=BOTH, pieces=(*pieces(W1=1), *pieces(W1=2)))
    for count in (0, -1, 10_000):
        with pytest.raises(Refusal, match="count: must be from 1 to 9,999"):
            pieces(W1=count)
    with pytest.raises(Refusal, match="product_code: is missing"):
        ChosenPieces(product_code=" ", count=1)


def _without_rates(*tasks: Task) -> PriceBook:
    book = price_book()
    return replace(book, labour_rates=tuple(each for each in book.labour_rates if each.task not in tasks))


def test_an_old_edition_without_the_rates_serves_every_quote_that_does_not_need_them() -> None:
    old = _without_rates(Task.LAY_WALKWAY, Task.FIT_OTHER)
    assert worked(old).price == worked().price
    with pytest.raises(Refusal, match='needs a rate for "lay a walkway"'):
        worked(old, parts=frozenset({Part.WALKWAY}))


def test_an_edition_is_asked_for_the_rate_only_with_such_a_product() -> None:
    def lacking(*roles: Role) -> list[str]:
        try:
            requirements_of_an_edition(roles, (), (), ()).settle()
        except Refusal as refused:
            return [each.requirement for each in refused.each if each.field == "labour_rates"]
        return []

    assert set(lacking(Role.WALKWAY)) - set(lacking()) == {'needs a rate for "lay a walkway"'}
    assert set(lacking(Role.OTHER)) - set(lacking()) == {'needs a rate for "fit other items"'}


@pytest.mark.parametrize(
    ("counts", "mode", "percent"),
    [
        ({"O2": 1}, SupplyMode.SUPPLY_AND_INSTALL_RESIDENTIAL, 0),  # a tank jacket, VENSAV3040, second hand
        ({"O2": 1}, SupplyMode.SUPPLY_ONLY, 20),
        ({"O1": 1}, SupplyMode.SUPPLY_AND_INSTALL_RESIDENTIAL, 20),
        ({"O1": 1, "O2": 1}, SupplyMode.SUPPLY_AND_INSTALL_RESIDENTIAL, 20),
    ],
)
def test_other_items_are_relieved_only_where_all_of_them_are(counts, mode, percent) -> None:
    """VATA 1994 Schedule 8 Group 23: in doubt the standard rate."""
    estimated = worked(
        with_jackets(), parts=frozenset({Part.OTHER}), pieces=pieces(**counts), supply_mode=mode
    )
    line = next(each for each in estimated.price.lines if each.part is Part.OTHER)
    assert line.vat_percent == percent
    changes_told = any("energy-saving" in words for words in estimated.price.notices)
    assert changes_told is (percent == 0)


def test_a_walkway_is_never_relieved_whatever_the_book_says() -> None:
    """A walkway is none of the materials listed in VATA 1994 Schedule 8 Group 23 note 1."""
    book = price_book()
    relieved = tuple(
        replace(each, vat_class=VatClass.ENERGY_SAVING) if each.role is Role.WALKWAY else each
        for each in book.products
    )
    lines = worked(replace(book, products=relieved), parts=frozenset({Part.WALKWAY})).price.lines
    assert next(each for each in lines if each.part is Part.WALKWAY).vat_percent == 20


@given(st.dictionaries(st.sampled_from(["W1", "O1", "O2"]), st.integers(1, 40), min_size=1))
@settings(max_examples=25, deadline=None)
def test_pieces_add_their_own_cost_and_change_nothing_else(counts: dict[str, int]) -> None:
    parts = frozenset(Part.WALKWAY if code == "W1" else Part.OTHER for code in counts)
    book = with_jackets(pricing=AT_COST)
    without, with_them = worked(book, parts=frozenset()), worked(book, parts=parts, pieces=pieces(**counts))
    lines = {line.part: line.net.value for line in with_them.price.lines}
    assert {part: net for part, net in lines.items() if part not in BOTH} == {
        line.part: line.net.value for line in without.price.lines
    }
    own = [*with_them.quantities.purchases, *with_them.quantities.labour]
    for part in parts:
        assert lines[part] == sum(each.cost.value for each in own if each.part is part)
    assert with_them.design == without.design
    optional = worked(book, parts=parts, optional_parts=parts, pieces=pieces(**counts))
    assert optional.price.totals == without.price.totals
    for each in (line for line in with_them.quantities.purchases if line.part in BOTH):
        held = book.product(each.product_code).pack_size
        assert each.needed.value <= each.packs.value * held < each.needed.value + held


@given(st.integers(1, 60), st.integers(1, 60))
@settings(max_examples=20, deadline=None)
def test_more_pieces_never_cost_less(one: int, other: int) -> None:
    fewer, more = sorted((one, other))
    of = [
        worked(parts=frozenset({Part.OTHER}), pieces=pieces(O1=count)).price.totals.net
        for count in (fewer, more)
    ]
    assert of[0] <= of[1]


def test_choices_kept_before_there_were_pieces_are_read() -> None:
    kept = choices_as_json(choices(parts=BOTH))
    assert choices_from_json(kept).pieces == pieces(O1=4, W1=3)
    del kept["pieces"]
    older: Choices = choices_from_json(kept)
    assert older.pieces == ()
