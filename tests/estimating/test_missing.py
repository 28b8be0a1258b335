"""What the price book lacks is said all at once, before anything is designed."""

from __future__ import annotations

import pytest

from estimating.choices import Part, RaiseWith
from estimating.estimate import estimate
from estimating.missing import requirements_of_an_edition
from estimating.price_book import Condition, PriceBook, Role, Task
from estimating.refusals import Refusal
from tests.estimating.lofts import EVERY_PART, choices, price_book, trussed_loft


def without(*roles: Role, tasks: tuple[Task, ...] = ()) -> PriceBook:
    book = price_book()
    return price_book(
        products=tuple(each for each in book.products if each.role not in roles),
        labour_rates=tuple(rate for rate in book.labour_rates if rate.task not in tasks),
    )


def test_everything_missing_is_said_at_once() -> None:
    book = without(Role.PEDESTAL, Role.SCREW, Role.LADDER, tasks=(Task.PREPARE, Task.FIT_LADDER))
    wanted = choices(parts=EVERY_PART, conditions=frozenset({Condition.LONG_CARRY}), shelf_bays=1)
    book = PriceBook(
        firm=book.firm, edition=book.edition, dated=book.dated, products=book.products,
        hourly_cost=book.hourly_cost, labour_rates=book.labour_rates,
    )  # fmt: skip
    with pytest.raises(Refusal) as refused:
        estimate(trussed_loft(), book, wanted)
    assert [str(each) for each in refused.value.each] == [
        "price_book.products: needs a product for pedestal (deck)",
        "price_book.products: needs a product for ladder (ladder)",
        "price_book.products: needs a screw for each board (deck)",
        "price_book.products: needs a screw for each pedestal (deck)",
        'price_book.labour_rates: needs a rate for "protect the house, light the loft, clear up"',
        'price_book.labour_rates: needs a rate for "fit the ladder"',
        'price_book.condition_rates: needs a rate for "long carry from the van"',
    ]


@pytest.mark.parametrize("part", sorted(EVERY_PART))
def test_every_part_needs_its_product(part: Part) -> None:
    role = {
        Part.INSULATION: Role.INSULATION_ROLL,
        Part.SHELVES: Role.TRUSS_SHELF,
        Part.DOWNLIGHT_COVERS: Role.DOWNLIGHT_COVER,
        Part.OTHER: Role.OTHER,
    }
    book = without(role.get(part) or Role(part.value))
    estimate(trussed_loft(), book, choices(parts=frozenset()))
    with pytest.raises(Refusal, match="needs a product for"):
        estimate(trussed_loft(), book, choices(parts=frozenset({part}), shelf_bays=1))


def test_battens_are_asked_for_only_on_battens() -> None:
    book = without(Role.BATTEN)
    estimate(trussed_loft(), book, choices())
    with pytest.raises(Refusal, match=r"needs a product for batten \(deck\)"):
        estimate(trussed_loft(), book, choices(raise_with=RaiseWith.BATTENS))


def test_what_there_is_none_of_needs_no_product() -> None:
    book = without(Role.DOWNLIGHT_COVER, Role.LIGHT, Role.TRUSS_SHELF)
    parts = frozenset({Part.DOWNLIGHT_COVERS, Part.LIGHT, Part.SHELVES})
    estimate(trussed_loft(downlights=0), book, choices(parts=parts, lights=0))


def test_an_edition_is_asked_at_once_for_all_that_any_loft_may_need() -> None:
    with pytest.raises(Refusal) as refused:
        requirements_of_an_edition((Role.PEDESTAL, Role.LADDER), (), tuple(Task)[:1], ()).settle()
    told = [str(each) for each in refused.value.each]
    assert told == [
        "products: needs at least one product for board",
        "products: needs at least one product for insulation roll",
        "products: needs a screw for each board",
        "products: needs a screw for each pedestal",
        'labour_rates: needs a rate for "lay and screw boards"',
        'labour_rates: needs a rate for "saw boards"',
        'labour_rates: needs a rate for "fit edge bearers"',
        'labour_rates: needs a rate for "set out and fix pedestals"',
        'labour_rates: needs a rate for "lay insulation"',
        'labour_rates: needs a rate for "fit the ladder"',
        'condition_rates: needs a rate for "crawling height"',
        'condition_rates: needs a rate for "obstructed by struts or webs"',
        'condition_rates: needs a rate for "long carry from the van"',
    ]


def test_an_edition_may_raise_decks_one_way_only() -> None:
    rates = (tuple(Task), tuple(Condition))
    requirements_of_an_edition(
        (Role.BOARD, Role.INSULATION_ROLL, Role.BATTEN), ("board", "batten"), *rates
    ).settle()
    with pytest.raises(Refusal, match="pedestal or for batten"):
        requirements_of_an_edition((Role.BOARD, Role.INSULATION_ROLL), ("board",), *rates).settle()
