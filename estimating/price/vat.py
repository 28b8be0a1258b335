"""Which VAT rate a line takes, and why: by what it is, how it is supplied, where and when.

The rates themselves are dated rows in estimating.published.vat_rates. Nothing published says what rate
a raised deck over new insulation takes when it is sold at one price, so the class of each line stays a
recorded choice and every reason sends the firm to its accountant.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from itertools import pairwise

from estimating.days import day_in_words
from estimating.nations import Nation
from estimating.published.vat_rates import VAT_RATES, DatedRate, VatRates
from estimating.refusals import Refusal
from estimating.ways_to_price import SupplyMode, VatClass

CONFIRM = "Confirm with the firm's accountant."
SINGLE_SUPPLY_CAUTION = (
    "One price for one finished deck, insulation included, may be a single supply at the standard rate "
    f"(VENSAV3240). Price each part so that it could be bought alone. {CONFIRM}"
)
ANCILLARY_HATCH_CAUTION = (
    "A hatch cut together with loft insulation may follow the insulation's rate; cut at another time it "
    f"does not. Write down which it is and why. {CONFIRM}"
)


@dataclass(frozen=True, slots=True)
class VatRate:
    """The rate of one line with the words that defend it; `valid_to` is the last day it holds."""

    percent: Decimal
    reason: str
    valid_to: date | None
    source: str


@dataclass(frozen=True, slots=True)
class RateChange:
    """A day on which the rate of one class becomes another."""

    vat_class: VatClass
    on: date
    before_percent: Decimal
    after_percent: Decimal
    source: str


_WHY_STANDARD = {
    SupplyMode.SUPPLY_ONLY: "goods sold without fitting are not relieved",
    SupplyMode.NOT_RESIDENTIAL: (
        "the relief is for homes; a building used only by a charity may have it too: ask"
    ),
}
_WHY_RELIEVED = {
    SupplyMode.SUPPLY_AND_INSTALL_RESIDENTIAL: "energy-saving material supplied and fitted in a home",
    SupplyMode.INSTALL_ONLY_CUSTOMER_MATERIALS_RESIDENTIAL: (
        "fitting, in a home, of energy-saving material that the customer bought"
    ),
}


def vat_rate(  # noqa: PLR0913 - the law asks all of these
    vat_class: VatClass,
    *,
    nation: Nation,
    tax_point: date,
    mode: SupplyMode,
    registered: bool = True,
    rates: VatRates = VAT_RATES,
) -> VatRate:
    """Give the VAT rate of one line on its tax point, with the reason in words.

    Args:
        vat_class: What the line is to VAT. Choice. [-]
        nation: Where the property stands. Choice. [-]
        tax_point: The day the law looks at: completion, payment or invoice. Date. [-]
        mode: How the line is supplied. Choice. [-]
        registered: Whether the firm is registered for VAT. Flag. [-]
        rates: The dated rates to read. Record. [per cent]

    Returns:
        The rate, its reason, last day and source. Record. [per cent]

    Raises:
        Refusal: No rate is held for that day.

    Source:
        VATA 1994 Schedule 8 Group 23 and Schedule 7A Group 2 items 1-2; VENSAV1100, VENSAV3040; HMRC
        Notice 708/6 s.1.1.
    """
    if not registered:
        return VatRate(
            Decimal(0),
            "The firm is not registered for VAT: it charges none, and the VAT it pays is part of its costs. "
            + CONFIRM,
            None,
            "VATA 1994 s.4(1) and Schedule 1",
        )
    if vat_class is VatClass.ENERGY_SAVING and mode in _WHY_RELIEVED:
        row = _row(rates.energy_saving_fitted_in_homes, nation, tax_point)
        condition = f", {row.condition}" if row.condition else ""
        why = f"{_WHY_RELIEVED[mode]}{condition}"
    elif vat_class is VatClass.ENERGY_SAVING:
        row, why = _row(rates.standard, nation, tax_point), _WHY_STANDARD[mode]
    else:
        row, why = _row(rates.standard, nation, tax_point), "not in the list of energy-saving materials"
    until = f", until {day_in_words(row.valid_to)}" if row.valid_to else ""
    source = f"{row.source}; checked on {day_in_words(rates.checked_on)}"
    return VatRate(row.percent, f"{row.percent} %: {why}{until}. {CONFIRM}", row.valid_to, source)


def rate_changes_between(
    first: date, last: date, nation: Nation, *, rates: VatRates = VAT_RATES
) -> tuple[RateChange, ...]:
    """List the rate changes that fall after a first day and up to a last one.

    A quote that stays open past a change must print both totals or end before it.

    Args:
        first: The day whose rates were quoted. Date. [-]
        last: The last day the quote can be accepted or the work completed. Date. [-]
        nation: Where the property stands. Choice. [-]
        rates: The dated rates to read. Record. [per cent]

    Returns:
        The changes, earliest first. Sequence. [per cent]

    Raises:
        Refusal: The last day is before the first.

    Source:
        VATA 1994 s.88 (the rate is that of the tax point); the rows as published.
    """
    if last < first:
        raise Refusal("last", f"must not be before {day_in_words(first)}")
    tables = {
        VatClass.STANDARD: rates.standard,
        VatClass.ENERGY_SAVING: rates.energy_saving_fitted_in_homes,
    }
    changes = (change for name, rows in tables.items() for change in _changes(name, rows, nation))
    return tuple(sorted((c for c in changes if first < c.on <= last), key=lambda c: (c.on, c.vat_class)))


def _changes(vat_class: VatClass, rows: Iterable[DatedRate], nation: Nation) -> Iterable[RateChange]:
    held = sorted((row for row in rows if nation in row.nations), key=lambda row: row.valid_from)
    for before, after in pairwise(held):
        if before.percent != after.percent:
            yield RateChange(vat_class, after.valid_from, before.percent, after.percent, after.source)


def _row(rows: Iterable[DatedRate], nation: Nation, on: date) -> DatedRate:
    held = [row for row in rows if nation in row.nations]
    for row in held:
        if row.holds(nation, on):
            return row
    if not held:
        raise Refusal("nation", f"has no VAT rates here for {nation}")
    first = min(row.valid_from for row in held)
    if on < first:
        raise Refusal(
            "tax_point", f"must be {day_in_words(first)} or later: no earlier VAT rate is held here"
        )
    raise Refusal("tax_point", f"has no VAT rate here for {day_in_words(on)}")
