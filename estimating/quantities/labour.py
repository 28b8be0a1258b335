"""How long the work takes: the firm's own rates, times the quantities, times what makes this loft slow."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from estimating.amounts import PENNY, to_penny
from estimating.choices import Part
from estimating.price_book import Condition, LabourRate, PriceBook, Task
from estimating.quantities.quantities import LabourLine
from estimating.refusals import Requirements
from estimating.working import (
    ARITHMETIC,
    COMMON_PRACTICE,
    Figure,
    Given,
    Working,
    from_price_book,
    worked_out,
)

_NO_BREAK_UNITS = {"m²": "m2", "m": "m", "": "each"}


@dataclass(frozen=True, slots=True)
class Work:
    """One task of one part, counted in every unit that a rate may be given in."""

    part: Part
    task: Task
    amounts: tuple[Figure[int] | Figure[Decimal], ...] = ()

    def amount_for(self, rate: LabourRate) -> Figure[int] | Figure[Decimal] | None:
        """Return the amount in the rate's own unit, if the task is counted in it."""
        return next((each for each in self.amounts if _NO_BREAK_UNITS[each.unit] == rate.unit), None)

    @property
    def units(self) -> tuple[str, ...]:
        """The units that a rate for this task may be given in."""
        return ("job", *(_NO_BREAK_UNITS[each.unit] for each in self.amounts))


def labour(
    works: Iterable[Work], price_book: PriceBook, conditions: frozenset[Condition]
) -> tuple[LabourLine, ...]:
    """Give the person-hours and their cost for every task, to a hundredth of an hour.

    The conditions' percentages are added up, not compounded: two of them slow the same hour, not each other.

    Args:
        works: The tasks with their amounts. Sequence. [-]
        price_book: The edition with rates, conditions and the cost of an hour; that no rate is missing was
            looked at before, in missing. Record. [h, GBP]
        conditions: What makes work slower in this loft. Set. [-]

    Returns:
        One line for each task that has something to do. Sequence. [h, GBP]

    Raises:
        Refusal: A rate's unit does not fit its task.

    Source:
        Common practice, no source.
    """
    needs = Requirements()
    rated = [(work, rate) for work in works if (rate := price_book.labour_rate(work.task))]
    for work, rate in rated:
        units = ", ".join(work.units)
        needs.require(
            rate.unit in work.units,
            "price_book.labour_rates",
            f'must give "{work.task}" in one of: {units}',
        )
    needs.settle()
    held = {rate.condition: rate.percent_longer for rate in price_book.condition_rates}
    slower = tuple(
        from_price_book(f"longer for {condition}", held[condition], "%") for condition in sorted(conditions)
    )
    lines = (_line(work, rate, price_book, slower) for work, rate in rated)
    return tuple(line for line in lines if line is not None)


def _line(
    work: Work, rate: LabourRate, price_book: PriceBook, slower: tuple[Given, ...]
) -> LabourLine | None:
    amount = work.amount_for(rate)
    quantity = Decimal(amount.value) if amount else Decimal(1)
    if not quantity:
        return None
    percent = sum((Decimal(each.value) for each in slower), Decimal(0))
    exact = quantity * rate.hours * (100 + percent) / 100
    unit = {"job": "h", "each": "h each"}.get(rate.unit, f"h/{rate.unit}")
    inputs = (
        *((worked_out(amount),) if amount else ()),
        from_price_book("hours for one", rate.hours, unit),
        *slower,
    )
    formula = f"{amount.name} × hours for one" if amount else "hours for one"
    if slower:
        formula += " × (1 + sum of the conditions / 100)"
    hours = Figure(
        f"hours to {work.task}",
        exact.quantize(PENNY, rounding=ROUND_HALF_UP),
        "h",
        Working(formula, inputs, COMMON_PRACTICE),
    )
    return LabourLine(
        part=work.part, task=work.task, amount=amount, hours=hours, cost=_cost(work, hours, price_book)
    )


def _cost(work: Work, hours: Figure[Decimal], price_book: PriceBook) -> Figure[Decimal]:
    inputs = (worked_out(hours), from_price_book("cost of an hour", price_book.hourly_cost, "GBP"))
    cost = to_penny(hours.value * price_book.hourly_cost)
    return Figure(
        f"cost to {work.task}", cost, "GBP", Working("hours × cost of an hour", inputs, COMMON_PRACTICE)
    )


def hours_in_all(lines: Iterable[LabourLine]) -> Figure[Decimal]:
    """Add up the person-hours of the lines.

    Args:
        lines: The labour lines. Sequence. [h]

    Returns:
        The hours. Scalar. [h]

    Source:
        Arithmetic.
    """
    lines = tuple(lines)
    total = sum((line.hours.value for line in lines), Decimal("0.00"))
    working = Working(
        "sum of the hours of every task", tuple(worked_out(line.hours) for line in lines), ARITHMETIC
    )
    return Figure("hours in all", total, "h", working)
