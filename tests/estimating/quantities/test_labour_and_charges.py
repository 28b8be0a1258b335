"""Hours by the firm's rates, and the charges of the visit."""

from __future__ import annotations

from decimal import Decimal

import pytest

from estimating.choices import Part
from estimating.price_book import Charge, Condition, LabourRate, Task
from estimating.quantities.charges import charges
from estimating.quantities.labour import Work, hours_in_all, labour
from estimating.refusals import Refusal
from estimating.working import COMMON_PRACTICE, Figure, Working, chosen
from tests.estimating.lofts import choices, price_book

AREA = Figure("area", Decimal("20.00"), "m²", Working("as given", (chosen("area", 20),), COMMON_PRACTICE))
PIECES = Figure("pieces", 40, "", Working("as given", (chosen("pieces", 40),), COMMON_PRACTICE))
BOARDS = Work(Part.DECK, Task.LAY_BOARDS, (AREA, PIECES))


def test_hours_are_amount_times_rate() -> None:
    line = labour([BOARDS], price_book(), frozenset())[0]
    assert line.hours.value == Decimal("6.00")
    assert line.cost.value == Decimal("147.00")
    assert line.amount == AREA


def test_conditions_are_added_up_not_compounded() -> None:
    slow = frozenset({Condition.CRAWLING_HEIGHT, Condition.OBSTRUCTED})
    assert labour([BOARDS], price_book(), slow)[0].hours.value == Decimal("9.30")  # 6 h × (1 + 0.35 + 0.20)


def test_a_rate_is_read_in_its_own_unit() -> None:
    each = price_book(labour_rates=(LabourRate(task=Task.LAY_BOARDS, hours=Decimal("0.2"), unit="each"),))
    assert labour([BOARDS], each, frozenset())[0].hours.value == Decimal("8.00")


def test_a_unit_that_the_task_is_not_counted_in_is_refused() -> None:
    metres = price_book(labour_rates=(LabourRate(task=Task.LAY_BOARDS, hours=Decimal("0.2"), unit="m"),))
    with pytest.raises(Refusal, match='must give "lay and screw boards" in one of: job, m2, each'):
        labour([BOARDS], metres, frozenset())


def test_nothing_to_do_takes_no_time() -> None:
    none = Figure("cuts", 0, "", PIECES.working)
    assert labour([Work(Part.DECK, Task.CUT_BOARDS, (none,))], price_book(), frozenset()) == ()


def test_hours_in_all_are_the_sum() -> None:
    lines = labour([BOARDS, Work(Part.VISIT, Task.PREPARE)], price_book(), frozenset())
    assert hours_in_all(lines).value == Decimal("8.50")


def test_charges_that_always_apply_those_chosen_and_the_miles() -> None:
    def costs(**changes: object) -> dict[str, Decimal]:
        return {line.code: line.cost.value for line in charges(price_book(), choices(**changes))}

    assert costs() == {"waste": Decimal("25.00")}
    assert costs(miles=Decimal("31.5")) == {"waste": Decimal("25.00"), "miles": Decimal("18.90")}
    assert costs(charge_codes=frozenset({"permit"})) == {
        "waste": Decimal("25.00"),
        "permit": Decimal("18.00"),
    }


def test_a_charge_that_the_book_lacks_is_refused() -> None:
    with pytest.raises(Refusal, match=r"choices.charge_codes: must be in the price book: scaffold"):
        charges(price_book(), choices(charge_codes=frozenset({"scaffold"})))


def test_charges_of_nothing_are_left_out() -> None:
    free = price_book(charges=(Charge(code="free", description="nothing", amount=Decimal(0)),))
    assert charges(free, choices()) == ()
