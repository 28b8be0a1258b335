"""Tax points: the day whose VAT rate counts for a deposit and for the balance.

Around a change of rate a few days decide the tax, so each tax point says which rule gave it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

from estimating.days import day_in_words
from estimating.nations import Nation
from estimating.price.vat import VatRate, vat_rate
from estimating.published.vat_rates import VAT_RATES, VatRates
from estimating.ways_to_price import SupplyMode, VatClass

INVOICE_WITHIN = timedelta(days=14)


@dataclass(frozen=True, slots=True)
class TaxPoint:
    """The day the law looks at, and the rule that chose it."""

    on: date
    why: str
    source: str


def deposit_tax_point(*, received: date, invoiced: date | None = None) -> TaxPoint:
    """Give the tax point of money taken before the work is complete.

    Args:
        received: The day the deposit came in. Date. [-]
        invoiced: The day of a VAT invoice that asked for it, if one was sent. Date. [-]

    Returns:
        The earlier of the two. Record. [-]

    Source:
        HMRC internal manual VATTOS5105, VATTOS3600.
    """
    source = "VATTOS5105, VATTOS3600"
    if invoiced is not None and invoiced < received:
        return TaxPoint(invoiced, "the VAT invoice for the deposit came before the money", source)
    return TaxPoint(received, "a deposit is taxed when it is received", source)


def balance_tax_point(*, completed: date, invoiced: date | None, paid: date | None = None) -> TaxPoint:
    """Give the tax point of what is asked at or after the end of the work.

    A householder need not be given a VAT invoice: without one the work's completion counts. Payment before
    completion makes its own tax point, payment after it changes nothing.

    Args:
        completed: The day the work was complete. Date. [-]
        invoiced: The day of the VAT invoice, or None when none was sent. Date. [-]
        paid: The day the balance was paid, where that is known. Date. [-]

    Returns:
        The earlier of invoice and payment when before completion; else the invoice's day within 14 days
        after it, else completion. Record. [-]

    Source:
        HMRC internal manual VATTOS3600; VATTOS5105 on payment in advance.
    """
    source = "VATTOS3600"
    if paid is not None and paid < completed and (invoiced is None or paid <= invoiced):
        return TaxPoint(paid, "the balance was paid before completion", "VATTOS5105")
    if invoiced is None:
        return TaxPoint(completed, "no VAT invoice, so the work's completion counts", source)
    if invoiced < completed:
        return TaxPoint(invoiced, "the VAT invoice came before completion", source)
    if invoiced <= completed + INVOICE_WITHIN:
        return TaxPoint(invoiced, "the VAT invoice came within 14 days of completion", source)
    why = "the VAT invoice came more than 14 days after completion, so completion counts"
    return TaxPoint(completed, why, source)


def balance_vat_rate(  # noqa: PLR0913 - the law asks all of these
    vat_class: VatClass,
    *,
    nation: Nation,
    mode: SupplyMode,
    completed: date,
    invoiced: date | None,
    paid: date | None = None,
    rate_of_completion: bool = False,
    registered: bool = True,
    rates: VatRates = VAT_RATES,
) -> VatRate:
    """Give the VAT rate of the balance, and say which day and rule gave it.

    Where the rate changes between completion and invoice the firm may choose the rate of completion,
    although the day it accounts for the tax stays.

    Args:
        vat_class: What the line is to VAT. Choice. [-]
        nation: Where the property stands. Choice. [-]
        mode: How the line is supplied. Choice. [-]
        completed: The day the work was complete. Date. [-]
        invoiced: The day of the VAT invoice, or None when none was sent. Date. [-]
        paid: The day the balance was paid, where that is known. Date. [-]
        rate_of_completion: Whether the firm chooses the rate of the day of completion. Flag. [-]
        registered: Whether the firm is registered for VAT. Flag. [-]
        rates: The dated rates to read. Record. [per cent]

    Returns:
        The rate, its reason, last day and source. Record. [per cent]

    Raises:
        Refusal: No rate is held for that day.

    Source:
        VATA 1994 s.88; HMRC internal manual VATTOS7210, VATTOS2280, VATTOS3600.
    """
    point = balance_tax_point(completed=completed, invoiced=invoiced, paid=paid)
    if rate_of_completion:
        point = _chosen(completed)
    return _rate_of(point, vat_class, nation=nation, mode=mode, registered=registered, rates=rates)


def deposit_vat_rate(  # noqa: PLR0913 - the law asks all of these
    vat_class: VatClass,
    *,
    nation: Nation,
    mode: SupplyMode,
    received: date,
    completed: date,
    invoiced: date | None = None,
    rate_of_completion: bool = False,
    registered: bool = True,
    rates: VatRates = VAT_RATES,
) -> VatRate:
    """Give the VAT rate of money taken before the work is complete, and say which day and rule gave it.

    Args:
        vat_class: What the line is to VAT. Choice. [-]
        nation: Where the property stands. Choice. [-]
        mode: How the line is supplied. Choice. [-]
        received: The day the money came in. Date. [-]
        completed: The day the work was, or is to be, complete. Date. [-]
        invoiced: The day of a VAT invoice that asked for it, if one was sent. Date. [-]
        rate_of_completion: Whether the firm chooses the rate of the day of completion. Flag. [-]
        registered: Whether the firm is registered for VAT. Flag. [-]
        rates: The dated rates to read. Record. [per cent]

    Returns:
        The rate, its reason, last day and source. Record. [per cent]

    Raises:
        Refusal: No rate is held for that day.

    Source:
        VATA 1994 s.88; HMRC internal manual VATTOS7210 (a payment before the basic tax point), VATTOS5105.
    """
    point = (
        _chosen(completed) if rate_of_completion else deposit_tax_point(received=received, invoiced=invoiced)
    )
    return _rate_of(point, vat_class, nation=nation, mode=mode, registered=registered, rates=rates)


def _chosen(completed: date) -> TaxPoint:
    why = "the firm chose the rate of completion under VATA 1994 s.88"
    return TaxPoint(completed, why, "VATA 1994 s.88; VATTOS7210, VATTOS2280")


def _rate_of(  # noqa: PLR0913 - as for its callers
    point: TaxPoint,
    vat_class: VatClass,
    *,
    nation: Nation,
    mode: SupplyMode,
    registered: bool,
    rates: VatRates,
) -> VatRate:
    rate = vat_rate(
        vat_class, nation=nation, tax_point=point.on, mode=mode, registered=registered, rates=rates
    )
    if not registered:
        return rate
    reason = f"Rate of {day_in_words(point.on)}: {point.why}. {rate.reason}"
    return replace(rate, reason=reason, source=f"{point.source}; {rate.source}")
